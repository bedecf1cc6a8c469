# SPDX-License-Identifier: Apache-2.0
"""All checks together: order, each finding once, overrules, systems."""

from dataclasses import replace

from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding, Overrule, Severity
from linewright.base.ids import natural_key
from linewright.checks.model import Checked
from linewright.checks.run import run
from linewright.flow.model import Band, Flows, Margin, SystemState, Verdict
from linewright.plan.model import Plan
from tests.unit.checks.small_plans import FUEL, OIL, found, line, plan, thing

ENDS = {"in": "-10 ORB female", "out": "-10 ORB female"}
TWO = thing("a", "inline oil filter", ENDS) + thing("b", "inline oil filter", ENDS)
LINE = line("O01", "a.out", "b.in")
THICK = '[panels.floor]\nthickness = "40 mm"\n'
PASSED = line("O01", "a.out", "b.in", 'passes = ["floor"]')


def _again(small: Plan, *overrules: Overrule) -> Checked:
    return run(replace(small.car, overrules=overrules), small.joints, small.routes, small.takeoff)


def _of(checked: Checked, code: str) -> list[Finding]:
    return [f for f in checked.findings if f.code == code]


def test_findings_come_worst_first_and_in_natural_order() -> None:
    findings = plan(OIL, TWO, LINE).findings
    keys = [
        (f.severity.rank, f.system or "", f.code, natural_key(" ".join(f.about))) for f in findings
    ]

    assert keys == sorted(keys)
    assert findings[0].severity is Severity.STOP


def test_every_finding_is_there_once_and_has_its_system() -> None:
    small = plan(OIL, TWO, LINE)
    keys = [f.key for f in small.findings]

    assert len(set(keys)) == len(keys)
    assert {f.system for f in small.findings} == {"oil"}


def test_an_overruled_finding_stays_on_record_and_stops_no_more() -> None:
    small = plan(OIL, TWO, LINE)
    overrule = Overrule("open-port", ("a.in",), "it is welded shut", "Ann", "2026-11-20")
    checked = _again(small, overrule)
    (marked,) = (f for f in _of(checked, "open-port") if f.about == ("a.in",))

    assert marked.overruled == overrule
    assert Plan(small.car, small.joints, small.routes, small.takeoff, checked).stops == tuple(
        f for f in checked.findings if f.severity is Severity.STOP and f.about != ("a.in",)
    )
    assert [r.about for r in checked.risks if r.kind == "overruled stop"] == [("a.in",)]


def test_an_overrule_names_its_ids_in_any_order() -> None:
    small = plan(OIL, THICK, TWO, PASSED)
    checked = _again(small, Overrule("grip-exceeded", ("floor", "O01"), "a long fitting"))

    assert _of(checked, "grip-exceeded")[0].overruled is not None


def test_a_finding_that_got_worse_than_accepted_counts_again() -> None:
    small = plan(OIL, THICK, TWO, PASSED)
    accepted = Overrule("grip-exceeded", ("O01", "floor"), "a long fitting", accepted=0.030)
    checked = _again(small, accepted)
    (worse,) = _of(checked, "overrule-worse")

    assert _of(checked, "grip-exceeded")[0].overruled is None
    assert worse.severity is Severity.WARN
    assert worse.reason == (
        "grip-exceeded at O01, floor was accepted at 30 mm (a long fitting) and is now 40 mm."
    )


def test_a_finding_no_worse_than_accepted_stays_overruled() -> None:
    small = plan(OIL, THICK, TWO, PASSED)
    accepted = Overrule("grip-exceeded", ("O01", "floor"), "a long fitting", accepted=0.040)
    checked = _again(small, accepted)

    assert _of(checked, "grip-exceeded")[0].overruled == accepted
    assert _of(checked, "overrule-worse") == []


def test_an_overrule_that_meets_nothing_is_noted_with_what_there_is() -> None:
    small = plan(OIL, TWO, LINE)
    checked = _again(small, Overrule("open-port", ("a.inn",), "typed wrong"))
    (idle,) = _of(checked, "overrule-idle")

    assert idle.severity is Severity.NOTE
    assert idle.reason == "The overrule of open-port at a.inn meets no finding."
    assert idle.remedy == 'Write it as one of these: about = ["a.in"]; about = ["b.out"].'


def test_the_line_to_type_holds_all_ids_of_the_finding() -> None:
    small = plan(OIL, THICK, TWO, PASSED)
    (idle,) = _of(_again(small, Overrule("grip-exceeded", ("O01",), "long")), "overrule-idle")

    assert idle.remedy == 'Write about = ["O01", "floor"].'


def _kept(small: Plan, share: float, accepted: float) -> Checked:
    """A choke that leaves a share of the area, accepted at a share."""
    said = Finding(
        "choke",
        Severity.WARN,
        ("O01.A",),
        "narrow",
        value=f"{share:.0%}",
        measure=1 - share,
        printed=share,
        is_less_worse=True,
    )
    overrule = Overrule("choke", ("O01.A",), "short", accepted=accepted)
    car = replace(small.car, overrules=(overrule,))
    return run(car, replace(small.joints, findings=(said,)), small.routes, small.takeoff)


def test_a_choke_accepted_as_it_is_printed_stays_accepted() -> None:
    # 29.6 % is printed as 30 %: who types 30 % has accepted it, and more area is better.
    small = plan(OIL, TWO, LINE)

    assert _of(_kept(small, 0.296, 0.30), "overrule-worse") == []
    assert _of(_kept(small, 0.45, 0.30), "overrule-worse") == []


def test_a_choke_that_leaves_less_than_accepted_counts_again() -> None:
    (worse,) = _of(_kept(plan(OIL, TWO, LINE), 0.22, 0.30), "overrule-worse")

    assert worse.reason == ("choke at O01.A was accepted at 30 % (short) and is now 22 %.")
    assert (worse.value, worse.limit) == ("22 %", "30 %")


def test_an_overrule_of_what_is_mended_is_noted() -> None:
    small = plan(OIL, TWO, LINE)
    (idle,) = _of(_again(small, Overrule("choke", ("a.in",), "long ago")), "overrule-idle")

    assert idle.remedy == "No such finding is left: strike the overrule out."


def test_findings_of_joints_routes_and_takeoff_are_heard() -> None:
    small = plan(OIL, TWO, LINE)
    said = Finding("choke", Severity.WARN, ("O01.A",), "narrow")
    checked = run(small.car, replace(small.joints, findings=(said,)), small.routes, small.takeoff)

    assert _of(checked, "choke")[0].system == "oil"


def test_a_hose_with_two_bent_ends_has_its_clock_angle_as_a_step() -> None:
    bent = plan(OIL, TWO, line("O01", "a.out", "b.in", "ends = ['90', '45']"))
    straight = plan(OIL, TWO, line("O01", "a.out", "b.in", "ends = ['90', 'straight']"))

    assert ("clock-ends", ("O01",)) in {(s.code, s.about) for s in bent.checked.steps}
    assert ("clock-ends", ("O01",)) not in {(s.code, s.about) for s in straight.checked.steps}


def test_a_line_to_the_engine_has_its_slack_as_a_step() -> None:
    block = thing("block", "engine", {"oil-feed": "-10 ORB female"})
    small = plan(OIL, TWO, block, line("O01", "a.out", "block.oil-feed"))
    (step,) = (s for s in small.checked.steps if s.code == "slack-at-engine")

    assert step.about == ("O01",)
    assert "leave 38 mm free" in step.text


def test_the_same_document_gives_the_same_findings() -> None:
    assert plan(FUEL, TWO).findings == plan(FUEL, TWO).findings


def test_a_setting_of_the_document_replaces_the_default() -> None:
    small = plan(OIL, THICK, TWO, PASSED)
    settings = {"bulkhead-grip": Figure(0.050, "m", Grade.STATED)}
    checked = run(replace(small.car, settings=settings), small.joints, small.routes, small.takeoff)

    assert found(small, "grip-exceeded")
    assert _of(checked, "grip-exceeded") == []


def _flows(where: str, what: str) -> Flows:
    """A flow whose margin of that name is held at a place."""
    limit = Figure(0.85e5, "Pa", Grade.PRACTICE)
    held = Margin(what, where, Band(9e4, 9e4, 9e4), limit, "Pa", True, Verdict.MET, "it")
    return Flows(states=(SystemState("oil", "full-power", margins=(held,)),))


def test_a_rule_of_thumb_is_silent_only_where_flow_was_reckoned_and_nobody_lives_with_it() -> None:
    text = (
        thing("tank", "dry-sump tank", {"feed": "-16 flare male"})
        + thing("pump", "dry-sump pump", {"inlet": "-16 ORB female"}, 'flow = "82.5 L/min"')
        + line("O01", "tank.feed", "pump.inlet", 'size = "-16"', 'service = "suction"')
    )
    small = plan(OIL, text)
    overrule = Overrule("suction-size", ("O01", "pump"), "it is short", "Ann", "2026-11-20")

    def said(flows: Flows | None, *overrules: Overrule) -> int:
        car = replace(small.car, overrules=overrules)
        checked = run(car, small.joints, small.routes, small.takeoff, flows)
        return len(_of(checked, "suction-size"))

    assert said(None) == 1
    assert said(_flows("pump.inlet", "pump inlet")) == 0
    assert said(_flows("pump.inlet", "turbo feed pressure")) == 1
    assert said(_flows("other.inlet", "pump inlet")) == 1
    assert said(_flows("pump.inlet", "pump inlet"), overrule) == 1
