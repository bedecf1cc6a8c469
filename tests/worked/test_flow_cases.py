# SPDX-License-Identifier: Apache-2.0
"""Cases F1 to F5 of flow: right answers that were worked out beforehand.

Pressures and forces are [computed]; limits and demands are common practice. What of them is shown
elsewhere (62 and 90 kPa of F1, the return of F2, the bypass of F4) is in the tests of flow in cars.
"""

from math import radians

import pytest

from linewright.base.finding import Severity
from linewright.car.read import read_text
from linewright.checks.run import run as checked
from linewright.flow.gas import thrust
from linewright.flow.model import Flows, Verdict
from linewright.flow.run import run
from linewright.joints.termination import offer
from linewright.routes.lengths import lay
from linewright.takeoff.count import count
from tests.flowing import flows, margin, system_b
from tests.worked.test_flow_in_cars import F1

FULL = ("full-power",)
#: Nothing typed of the oil: neither what the engine takes nor what its pump displaces.
UNTYPED = F1.replace('oil-demand = "110 L/min"\n', "").replace('flow = "FLOW L/min"\n', "")


def _flow(text: str) -> Flows:
    car = read_text(text)
    joints = offer(car)
    return run(car, joints, lay(car, joints), FULL)


def _inlet(text: str) -> float:
    return margin(_flow(text), "oil", "full-power", "pump inlet").value.value / 1e3


def test_f1_through_minus_twelve_the_pump_cannot_draw_that() -> None:
    found = _flow(F1.replace("SIZE", "12").replace("FLOW", "89"))
    held = margin(found, "oil", "full-power", "pump inlet")

    assert held.verdict is Verdict.NOT_MET
    # It draws less than it would, and stands at what oil can bear at the least.
    assert held.value.value < 0.3e5


def test_f1_a_shorter_suction_gives_80_kilopascals() -> None:
    text = F1.replace("SIZE", "16").replace("FLOW", "89").replace("3350 mm", "1450 mm")

    assert _inlet(text) == pytest.approx(80.0, abs=6.0)


def test_f1_a_demand_that_nobody_gave_is_a_band_and_says_what_to_give() -> None:
    found = _flow(UNTYPED.replace("SIZE", "16"))
    state = found.state("oil", "full-power")
    assert state is not None
    line = state.lines["O01"]
    litres = [q / 815.0 * 6e4 for q in (line.flow.low, line.flow.value, line.flow.high)]

    # 0.15 to 0.4 L/min per kW of 330 kW, 50 to 132, through a pump that has a surplus over it.
    assert litres[1] == pytest.approx(82.5, rel=0.35)
    assert litres[0] < 0.85 * litres[1] < 1.15 * litres[1] < litres[2]
    gives = " ".join(a.give for a in found.assumed)
    assert "displacement and ratio of the oil pump" in gives
    assert "oil-demand" in gives


def test_f2_idle_and_full_power_are_both_reported() -> None:
    found = system_b()

    for condition in ("hot-idle", "full-power"):
        for what in ("rail pressure", "return pressure"):
            assert margin(found, "fuel", condition, what).value.value > 0.0


def test_f3_what_pulls_at_a_coupler_and_on_an_elbow() -> None:
    assert thrust(1.5e5, 0.0762) == pytest.approx(684.0, abs=0.5)
    assert thrust(1.5e5, 0.0762, radians(90.0)) == pytest.approx(967.0, abs=0.5)


@pytest.mark.parametrize(("boost", "is_stop"), [("0.4 bar", False), ("0.6 bar", True)])
def test_f3_a_pipe_without_beads_is_a_stop_above_half_a_bar(boost: str, is_stop: bool) -> None:
    found = flows(
        "juniper",
        ('kind     = "charge pipe"', 'kind     = "charge pipe"\nbeaded = false'),
        ("[closed]", f'[conditions.full-power]\nboost = "{boost}"\n\n[closed]'),
    )
    told = [f for f in found.findings if f.code == "pipe-unbeaded"]

    assert [f.severity for f in told] == ([Severity.STOP] if is_stop else [])


def test_f4_frost_is_told_with_what_opens() -> None:
    found = flows("club-roadster")

    assert any(f.code == "bypass-open" for f in found.findings)


def test_f5_a_suction_hose_without_a_vacuum_figure_is_asked_about_and_no_stop() -> None:
    car = read_text(F1.replace("SIZE", "20").replace("FLOW", "89"))
    joints = offer(car)
    routes = lay(car, joints)
    found = checked(car, joints, routes, count(car, joints, routes), run(car, joints, routes, FULL))
    told = [f for f in found.findings if "vacuum" in f.reason]

    assert [(f.code, f.severity) for f in told] == [("suction-rating", Severity.ASK)]
    assert "O01" in told[0].reason
