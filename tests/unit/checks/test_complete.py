# SPDX-License-Identifier: Apache-2.0
"""The proof of completeness: ports, ends of lines, seals."""

from dataclasses import replace

from linewright.base.finding import Severity
from linewright.checks.complete import seals
from linewright.checks.run import run
from linewright.joints.model import Joints
from tests.unit.checks.small_plans import OIL, about, found, line, plan, thing

ENDS = {"in": "-10 ORB female", "out": "-10 ORB female"}
TWO = thing("a", "inline oil filter", ENDS) + thing("b", "inline oil filter", ENDS)
LINE = line("O01", "a.out", "b.in")


def test_a_port_that_nobody_answers_is_a_stop_with_its_whole_text() -> None:
    small = plan(OIL, TWO, LINE)
    first = found(small, "open-port")[0]

    assert about(small, "open-port") == [("a.in",), ("b.out",)]
    assert first.severity is Severity.STOP
    assert first.system == "oil"
    assert first.reason == (
        "a.in (-10 ORB female) of inline oil filter is neither connected nor closed."
    )
    assert first.remedy == (
        'Connect it, or say under [closed]: "a.in" = "plug", "cap", "open, because ..." or '
        '"none, because ...".'
    )


def test_ports_are_mated_plugged_and_open_in_the_proof() -> None:
    small = plan(
        OIL,
        TWO,
        LINE,
        '[closed]\n"a.in" = "plug"\n"b.out" = "open, because it drips into a can"\n',
    )
    states = {row.id: (row.state, row.by) for row in small.checked.proof if not row.is_function}

    assert states == {
        "a.in": ("plugged", "plug"),
        "a.out": ("mated", "O01"),
        "b.in": ("mated", "O01"),
        "b.out": ("open", ""),
    }
    assert found(small, "open-port") == ()


def test_a_port_that_a_kind_only_offers_is_not_missed() -> None:
    small = plan(OIL, TWO, LINE)

    assert "a.gauge" not in {row.id for row in small.checked.proof}


def test_a_port_that_a_kind_always_has_is_missed() -> None:
    small = plan(OIL, thing("head", "remote filter head"))

    assert ("head.in-R",) in about(small, "open-port")


def test_an_unknown_port_on_a_line_is_unknown_and_asked_about() -> None:
    small = plan(
        OIL, TWO.replace('"-10 ORB female"', '"?"', 1), LINE, '[closed]\n"b.out" = "plug"\n'
    )
    small_ids = {row.id: row.state for row in small.checked.proof}

    assert small_ids["a.in"] == "missing"
    unknown = plan(
        OIL,
        thing("a", "inline oil filter", {"in": "-10 ORB female", "out": "?"}),
        thing("b", "inline oil filter", ENDS),
        LINE,
    )
    (finding,) = found(unknown, "unknown-end")

    assert finding.about == ("a.out",)
    assert finding.severity is Severity.ASK
    assert {row.id: row.state for row in unknown.checked.proof}["a.out"] == "unknown"


def test_a_text_that_reads_in_several_ways_is_asked_about_once() -> None:
    port = {"in": "-10 ORB female", "out": "M18x1.5"}
    small = plan(
        OIL, thing("a", "inline oil filter", port), thing("b", "inline oil filter", ENDS), LINE
    )

    assert about(small, "ambiguous-end") == [("a.out",)]
    assert found(small, "unknown-end") == ()


def test_what_is_screwed_on_an_unmeasured_port_is_not_asked_for_its_own_end() -> None:
    small = plan(
        OIL,
        thing("a", "component", {"filter": "?"}),
        '[components.top]\nkind = "filter take-off plate"\non = "a.filter"\n',
    )

    assert about(small, "unknown-end") == [("a.filter",)]
    assert {row.id: row.state for row in small.checked.proof}["top.mount"] == "unknown"


def test_a_port_of_the_kind_under_another_name_is_hinted_at() -> None:
    small = plan(OIL, thing("a", "oil cooler", {"inlet": "-10 ORB female"}))
    remedies = {f.about: f.remedy for f in found(small, "open-port")}

    assert remedies["a.in",] == (
        'Connect it, or say under [closed]: "a.in" = "plug", "cap", "open, because ..." or '
        '"none, because ...". If it is a.inlet under another name, call that one "in".'
    )
    assert remedies["a.inlet",].endswith('"none, because ...".')


def test_a_joint_whose_seal_is_not_on_the_list_is_a_stop() -> None:
    small = plan(OIL, TWO, LINE)
    rows = tuple(row for row in small.takeoff.rows if row.group != "seals")
    missing = seals(small.car, small.joints, replace(small.takeoff, rows=rows))

    assert [(f.code, f.about) for f in missing] == [
        ("seal-missing", ("O01.A.1",)),
        ("seal-missing", ("O01.B.1",)),
    ]
    assert missing[0].reason == (
        "O01.A.1 needs 1 o-ring AS568-910, and no row of the parts list is for it."
    )


def test_seals_that_are_counted_one_short_are_a_stop() -> None:
    small = plan(OIL, TWO, LINE)
    rows = tuple(
        replace(row, need=1) if row.group == "seals" else row for row in small.takeoff.rows
    )
    (short,) = seals(small.car, small.joints, replace(small.takeoff, rows=rows))

    assert short.code == "seal-missing"
    assert "the joints need 2, the list has 1" in short.reason


def test_nothing_is_missing_where_joints_and_list_agree() -> None:
    small = plan(OIL, TWO, LINE)

    assert seals(small.car, small.joints, small.takeoff) == ()


def test_a_line_of_which_one_end_was_forgotten_is_a_stop() -> None:
    small = plan(OIL, TWO, LINE)
    one_end = Joints(small.joints.terminations[:1], small.joints.fits)
    checked = run(small.car, one_end, small.routes, small.takeoff)
    codes = [(f.code, f.about, f.reason) for f in checked.findings if f.code == "no-chain"]

    assert codes == [("no-chain", ("O01",), "O01 has 1 of 2 ends joined.")]
