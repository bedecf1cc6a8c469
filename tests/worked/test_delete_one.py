# SPDX-License-Identifier: Apache-2.0
"""One change at a time to worked systems A and B: each gives the named finding, no more.

Changes and answers: common practice, written down before the tool was (section 9 of the
acceptance examples). "No more" means that all findings beside those named stay as they were.
"""

import re
from collections.abc import Iterable
from pathlib import Path

import pytest

from linewright.base.finding import Finding, Severity
from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.plan.model import Plan

EXAMPLES = Path(__file__).parents[2] / "examples"
A = (EXAMPLES / "club-roadster" / "car.toml").read_text(encoding="utf-8")
B = (EXAMPLES / "e85-boot" / "car.toml").read_text(encoding="utf-8")

Key = tuple[str, tuple[str, ...]]


def _plan(text: str) -> Plan:
    return make(read_text(text))


def _without(text: str, *keys: str) -> str:
    """Drop the lines of a document that define these keys."""
    for key in keys:
        found = re.findall(rf'(?m)^"?{re.escape(key)}"?\s*=.*\n', text)
        assert found, key
        for line in found:
            text = text.replace(line, "")
    return text


def _changed(text: str, *pairs: tuple[str, str]) -> str:
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    return text


def _keys(findings: Iterable[Finding]) -> set[Key]:
    return {f.key for f in findings}


def _new(before: str, after: str) -> dict[str, set[tuple[str, ...]]]:
    """Stops, warnings and asks that a change brings, by code."""
    old, new = _keys(_plan(before).findings), _plan(after).findings
    fresh: dict[str, set[tuple[str, ...]]] = {}
    for finding in new:
        if finding.key not in old and finding.severity is not Severity.NOTE:
            fresh.setdefault(finding.code, set()).add(finding.about)
    return fresh


def _stops(text: str) -> set[Key]:
    return {f.key for f in _plan(text).stops}


def _names(plan: Plan) -> dict[str, int]:
    return {row.name: row.need for row in plan.takeoff.rows}


def test_a_dropped_plug_of_the_filter_head_is_an_open_port() -> None:
    text = _without(A, "FH.in-R")

    assert _stops(text) == {("open-port", ("FH.in-R",))}
    assert _new(A, text) == {"open-port": {("FH.in-R",)}}


def test_a_dropped_plug_of_the_regulator_is_an_open_port() -> None:
    text = B.replace('"RG.in-2"     = "plug"\n', "")

    assert text != B
    assert _stops(text) == {("open-port", ("RG.in-2",))}


def test_a_dropped_line_leaves_both_its_ports_open() -> None:
    text = _without(A, "L3")

    assert _stops(text) == {("open-port", ("TH.cooler-out",)), ("open-port", ("CO.in",))}
    assert set(_new(A, text)) == {"open-port"}


def test_a_dropped_line_leaves_the_other_lines_as_they_were() -> None:
    before, after = _plan(A), _plan(_without(A, "L3"))
    kept = [run for run in before.routes.runs if run.line != "L3"]

    assert tuple(kept) == after.routes.runs


def test_a_regulator_without_its_reference_on_a_boosted_engine_is_a_stop() -> None:
    text = _without(B, "R01")

    assert ("reference-missing", ("RG.reference",)) in _stops(text)
    assert _stops(text) == {
        ("reference-missing", ("RG.reference",)),
        ("open-port", ("MAN.reference",)),
    }


def test_closing_the_reference_does_not_answer_for_it() -> None:
    text = _without(B, "R01") + '"RG.reference" = "open, because it was forgotten"\n'

    assert ("reference-missing", ("RG.reference",)) in _stops(text)


def test_an_unboosted_regulator_may_leave_its_reference_open() -> None:
    text = _changed(_without(B, "R01"), ("boosted = true", "boosted = false"))
    text += '"RG.reference" = "open, because the engine is not boosted"\n'

    assert _stops(text) == {("open-port", ("MAN.reference",))}


def test_a_vent_without_its_roll_over_valve_is_named_and_open() -> None:
    text = _without(B, "RV", "RV.out", "F09")

    assert {("vent-rollover", ("FC.vent",)), ("open-port", ("FC.vent",))} <= _stops(text)
    assert _stops(text) == {
        ("vent-rollover", ("FC.vent",)),
        ("open-port", ("FC.vent",)),
        ("open-port", ("BH3.inside",)),
    }


def test_a_vent_that_is_piped_without_a_roll_over_valve_is_named() -> None:
    text = _changed(_without(B, "RV", "RV.out"), ('from = "RV.out"', 'from = "FC.vent"'))

    assert _stops(text) == {("vent-rollover", ("FC.vent",))}


def test_a_pump_without_a_strainer_before_it_is_a_stop() -> None:
    text = _changed(
        _without(B, "SF", "SF.in", "SF.out", "F02"),
        ('to = "SF.in"', 'to = "FP.in"'),
    )

    assert _stops(text) == {("no-strainer", ("FP",))}
    assert set(_new(B, text)) == {"no-strainer"}


def test_a_pump_without_its_check_valve_is_warned_of() -> None:
    text = _changed(B, ('{ angle = "45", fit = ["check valve"] }', '"45"'))

    assert _stops(text) == set()
    # The plain fitting that comes instead is narrow too, which is told of a plain fitting only.
    assert _new(B, text) == {"check-valve-missing": {("FP",)}, "choke": {("FP.out", "F03")}}


def test_a_cooler_without_a_thermostat_is_asked_about_and_its_parts_leave_the_list() -> None:
    text = _changed(
        _without(A, "TH", "TH.engine-in", "TH.engine-out", "TH.cooler-out", "TH.cooler-in"),
        ('to = "TH.engine-in"', 'to = "CO.in"'),
        ('from = "CO.out", to = "TH.cooler-in"', 'from = "CO.out", to = "TOP.IN"'),
    )
    text = _without(text, "L3", "L5")
    before, after = _names(_plan(A)), _names(_plan(text))

    assert _new(A, text) == {"no-thermostat": {("CO",)}}
    assert any("M22x1.5" in name for name in before)
    assert any("22 mm" in name for name in before)
    assert not any("M22x1.5" in name or "22 mm" in name for name in after)


def test_a_mount_of_the_other_filter_thread_names_its_look_alike() -> None:
    text = _changed(A, ("3/4-16 spin-on male", "M20x1.5 spin-on male"))
    plan = _plan(text)
    (stop,) = plan.stops

    assert stop.code in ("no-mate", "look-alike-thread")
    assert {"ENG.filter", "TOP.mount"} <= set(stop.about)
    assert "3/4-16" in stop.reason
    assert "M20x1.5" in stop.reason


def test_an_end_of_another_dash_than_its_hose_is_a_stop() -> None:
    text = _changed(
        A, ('"950 mm", ends = ["90", "straight"]', '"950 mm", ends = ["-8 90", "straight"]')
    )
    stops = _stops(text)

    assert {code for code, _ in stops} == {"dash-differs"}
    assert any("L4" in i for _, about in stops for i in about)


def _ends_for_rubber(ends: re.Match[str]) -> str:
    each = (f'{{ angle = {angle}, hose = "rubber braided" }}' for angle in ends[1].split(", "))
    return f"ends = [{', '.join(each)}]"


def test_rubber_ends_on_ptfe_hose_are_a_stop_at_all_ten_ends() -> None:
    text = A.replace('hose  = "rubber braided"', 'hose  = "PTFE full-bore"')
    text = re.sub(r"ends = \[(.*)\]", _ends_for_rubber, text)
    stops = [f for f in _plan(text).stops if f.code == "hose-family-mix"]

    assert len(stops) == 10
    assert {f"{line}.{side}" for line in ("L1", "L2", "L3", "L4", "L5") for side in "AB"} <= {
        i for f in stops for i in f.about
    }


def test_another_gland_in_the_pump_changes_the_seal() -> None:
    text = _changed(
        B, ('"FP.in" = { end = "M18x1.5 flat face"', '"FP.in" = { end = "M18x1.5 ISO 6149"')
    )
    before, after = _names(_plan(B)), _names(_plan(text))
    left, came = set(before) - set(after), set(after) - set(before)

    assert any("washer" in name and "18" in name for name in left)
    assert any("O-ring" in name and "ISO 6149-2" in name for name in came)
    assert _stops(text) == set()


def test_an_unknown_port_is_a_risk_and_the_rest_is_still_listed() -> None:
    text = _changed(
        A, ('"CO.out" = { end = "-10 ORB female", known = "read" }', '"CO.out" = { end = "?" }')
    )
    before, after = _plan(A), _plan(text)
    adaptors = sum(r.need for r in after.takeoff.rows if r.group == "adaptors")

    assert _stops(text) == set()
    assert _new(A, text) == {"unknown-end": {("CO.out",)}}
    assert [r.about for r in after.checked.risks if r.kind == "port unknown"] == [("CO.out",)]
    assert sum(r.need for r in before.takeoff.rows if r.group == "adaptors") == adaptors + 1
    assert [run.id for run in after.routes.runs] == ["L1", "L2", "L3", "L4", "L5"]


def test_a_port_with_two_readings_has_both_answers_priced() -> None:
    old = '"CO.out" = { end = "-10 ORB female", known = "read" }'
    plan = _plan(_changed(A, (old, '"CO.out" = { end = "-10 AN female" }')))
    (either,) = plan.takeoff.either
    (risk,) = (r for r in plan.checked.risks if r.kind == "port unknown")

    assert plan.stops == ()
    assert either.port == "CO.out"
    assert either.readings == ("orb_unf -10 f", "flare_37 -10 f")
    assert either.price_index > 0
    assert risk.about == ("CO.out",)
    assert "order for each reading" in risk.remedy
    assert f"index price {either.price_index:.1f}" in risk.remedy


def test_a_filter_the_wrong_way_round_is_warned_of() -> None:
    text = _changed(
        B,
        ('from = "FP.out", to = "FF.in"', 'from = "FP.out", to = "FF.out"'),
        ('from = "FF.out", to = "BH1.inside"', 'from = "FF.in", to = "BH1.inside"'),
    )

    assert _stops(text) == set()
    assert _new(B, text) == {"flow-reversed": {("FF", "F03", "F04")}}


def test_a_string_shorter_than_the_straight_distance_is_a_stop() -> None:
    text = _changed(
        B,
        ('"RG.return" = { end', '"RG.return" = { at_car = "300, 250, 600 mm", end'),
        ('string = "3400 mm"', 'string = "250 mm"'),
        (
            'BH2 = { kind = "bulkhead",',
            'BH2 = { at.middle = "3150, -300, 250 mm", placed = "taped", kind = "bulkhead",',
        ),
    )
    text = _changed(
        text, ("RG  = { kind", 'RG  = { at.middle = "300, 250, 600 mm", placed = "taped", kind')
    )

    assert ("string-too-short", ("F07",)) in _stops(text)
    assert {code for code, _ in _stops(text)} == {"string-too-short"}


def test_the_same_string_for_every_line_looks_copied() -> None:
    text = re.sub(r'string = "\d+ mm"', 'string = "700 mm"', A)

    assert _new(A, text) == {"string-copied": {("L1", "L2", "L3", "L4", "L5")}}


def test_a_panel_too_thick_for_its_bulkhead_is_a_stop() -> None:
    text = _changed(
        B,
        ("[components]", '[panels.thick-floor]\nthickness = "40 mm"\n\n[components]'),
        (
            'BH3 = { kind = "bulkhead", panel = "boot-floor"',
            'BH3 = { kind = "bulkhead", panel = "thick-floor"',
        ),
    )

    assert _stops(text) == {("grip-exceeded", ("BH3", "thick-floor"))}


@pytest.mark.parametrize("text", [A, B], ids=["A", "B"])
def test_the_systems_themselves_have_no_stop(text: str) -> None:
    assert _stops(text) == set()
