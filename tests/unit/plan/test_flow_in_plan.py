# SPDX-License-Identifier: Apache-2.0
"""What flow has to say among the findings of a plan: once each, and overruled in one way."""

import re
from functools import cache
from pathlib import Path

from linewright.base.codes import OF_FLOW, RULES
from linewright.base.finding import Finding, Severity
from linewright.car.read import read_text
from linewright.faces.cli.plan import plan as command
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.plan.record import record
from tests.expected import ROOT

JUNIPER = (ROOT / "examples" / "juniper" / "car.toml").read_text(encoding="utf-8")
PLAIN = JUNIPER.replace('kind     = "charge pipe"', 'kind     = "charge pipe"\nbeaded = false')
#: How the modules of flow name the code of a finding.
_RAISED = re.compile(r'(?:RULES\[|Ruled\(\s*)"([a-z-]+)"')
LIVED_WITH = """
[[overruled]]
code   = "pump-starves"
about  = ["oil-pump.inlet"]
reason = "warmed before it is started"
accepted = "{}"
"""


@cache
def planned(text: str, *, with_flow: bool = True) -> Plan:
    return make(read_text(text), in_space=False, with_flow=with_flow)


def said(plan: Plan, code: str) -> tuple[Finding, ...]:
    return tuple(f for f in plan.findings if f.code == code)


def test_a_plan_without_flow_says_nothing_of_it() -> None:
    plan = planned(JUNIPER, with_flow=False)

    assert plan.flows is None
    assert [f.code for f in plan.findings if f.code in OF_FLOW] == []


def test_each_finding_of_flow_is_in_the_plan_once_and_in_its_record() -> None:
    plan = planned(JUNIPER)
    assert plan.flows is not None
    keys = [f.key for f in plan.findings]

    assert len(keys) == len(set(keys))
    assert {f.key for f in plan.flows.findings} <= set(keys)
    written = {
        (f["code"], tuple(sorted(f["about"]))) for f in record(plan, version="t")["findings"]
    }
    assert {f.key for f in plan.flows.findings} <= written


def test_a_stop_of_flow_forbids_ordering_and_the_command_ends_with_1(tmp_path: Path) -> None:
    assert PLAIN != JUNIPER
    document = tmp_path / "car.toml"
    document.write_text(PLAIN, encoding="utf-8")

    assert "pipe-unbeaded" in {f.code for f in planned(PLAIN).stops}
    assert command(document, None, None, "a4", in_space=False) == 1


def test_what_is_accepted_of_flow_covers_its_finding_in_plan_and_flow() -> None:
    (found,) = said(planned(JUNIPER), "pump-starves")
    plan = planned(JUNIPER + LIVED_WITH.format(found.value))

    (held,) = said(plan, "pump-starves")
    assert held.overruled is not None
    assert said(plan, "overrule-idle") == said(plan, "overrule-worse") == ()
    assert plan.flows is not None
    assert held in plan.flows.findings


def test_what_is_worse_than_was_accepted_is_open_again() -> None:
    plan = planned(JUNIPER + LIVED_WITH.format("0.84 bar absolute"))

    (open_again,) = said(plan, "pump-starves")
    assert open_again.overruled is None
    (worse,) = said(plan, "overrule-worse")
    assert worse.limit == "0.84 bar absolute"
    assert worse.value == open_again.value


def test_an_overrule_of_flow_waits_where_flow_was_not_asked_for() -> None:
    text = JUNIPER + LIVED_WITH.format("0.1 bar")

    assert said(planned(text, with_flow=False), "overrule-idle") == ()


def test_an_overrule_of_flow_that_meets_nothing_is_told() -> None:
    wrong = LIVED_WITH.format("0.1 bar").replace("oil-pump.inlet", "oil-pump.scavenge-1")

    (idle,) = said(planned(JUNIPER + wrong), "overrule-idle")
    assert 'Write about = ["oil-pump.inlet"].' in idle.remedy


def test_a_car_in_inches_is_told_of_flow_in_its_own_units() -> None:
    text = JUNIPER.replace("[car]", '[car]\nshow = "inch"', 1)
    plan = planned(text)
    assert plan.flows is not None
    words = [f"{f.reason} {f.remedy} {f.value} {f.limit}" for f in plan.flows.findings]
    words += [row.why for row in plan.flows.sizes]

    assert any(" psi" in said for said in words)
    for said in words:
        assert not re.search(r"\d (bar|kPa|°C|K|L|L/min|m/s|N)\b", said), said


def test_the_codes_of_flow_are_those_that_its_package_raises() -> None:
    modules = [
        path.read_text(encoding="utf-8")
        for path in (ROOT / "src" / "linewright" / "flow").rglob("*.py")
    ]
    raised = {code for text in modules for code in _RAISED.findall(text)}
    named = {word for text in modules for word in re.findall(r'"([a-z-]+)"', text)}

    assert raised - OF_FLOW == set()
    assert OF_FLOW - named == set()
    assert RULES["flow-unsure"] is Severity.WARN
