# SPDX-License-Identifier: Apache-2.0
"""Moulded silicone elbows at the ends of a clamped hose, through the whole plan.

By hand: an elbow of 38 mm has legs of 102 mm (four inches, common practice) and goes 30 mm over a
spigot; its joiner is 100 mm long and goes 30 mm in. So the hose begins 72 mm out from the spigot
and 72 + 100 mm beyond the corner.
"""

import pytest

from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.plan.model import Plan


def _plan(
    a: str,
    b: str,
    *,
    line: str = "",
    ends: tuple[str, str] = ("38 mm bead",) * 2,
    kind: str = "radiator",
    **of: str,
) -> Plan:
    (at, way), (to, back) = (end.rsplit(", ", 1) for end in (a, b))
    fluid, hose = of.get("fluid", "50 % glycol"), of.get("hose", "silicone")
    system = of.get("system", "coolant")
    return make(
        read_text(
            f"""linewright = 1
[car]
name = "Bench"
placed = "final"
[systems.{system}]
fluid = "{fluid}"
hose  = "{hose}"
size  = "38 mm"
[components]
RA = {{ kind = "{kind}", system = "{system}", at = "{at} mm" }}
HE = {{ kind = "{kind}", system = "{system}", at = "{to} mm" }}
[ports]
"RA.out" = {{ end = "{ends[0]}", at_car = "{at} mm", points_car = "{way}" }}
"HE.in"  = {{ end = "{ends[1]}", at_car = "{to} mm", points_car = "{back}" }}
[lines]
C01 = {{ from = "RA.out", to = "HE.in"{line} }}
"""
        )
    )


UP = ("0, 0, 500, up", "600, 0, 500, up")
FACING = ("0, 0, 500, rearward", "600, 0, 500, forward")


def _codes(plan: Plan) -> dict[str, float]:
    return {row.code: row.need for row in plan.takeoff.rows}


def test_two_spigots_that_look_up_take_two_elbows_and_a_straight_hose_between() -> None:
    plan = _plan(*UP)
    (route,) = plan.routes.courses

    assert (route.a.shape.angle, route.b.shape.angle) == (90, 90)
    assert route.a.collar == pytest.approx((0.172, 0.0, 0.572))
    assert route.b.collar == pytest.approx((0.428, 0.0, 0.572))
    assert route.length == pytest.approx(0.256)


def test_every_pair_that_is_sold_stands_in_the_band_with_its_price() -> None:
    (route,) = _plan(*UP).routes.courses
    prices = {(row.angle_a, row.angle_b): row.price_index for row in route.band}

    assert sorted(prices) == [(a, b) for a in (0, 45, 90) for b in (0, 45, 90)]
    assert prices[0, 0] == 0.0
    assert prices[0, 90] == pytest.approx(prices[90, 90] / 2)
    assert prices[90, 90] > 0.0


def test_an_elbow_is_taken_off_with_its_joiner_and_three_clamps() -> None:
    codes = _codes(_plan(*UP))

    assert codes["silicone-hose-38-to-hose-38-90"] == 2
    assert codes["bead-joiner-bead-38-m-to-bead-38-m"] == 2
    assert codes["worm-clamp-32-50"] == 6


def test_no_hose_is_bought_for_the_way_through_elbows() -> None:
    (run,) = _plan(*UP).routes.runs

    assert run.string is not None
    assert run.buy is not None
    assert run.string.value == pytest.approx(0.256 + 2 * (0.072 + 0.172))
    # 6 % of slack, 25 mm for two cuts and 30 mm over each bead.
    assert run.buy.value == pytest.approx(0.256 * 1.06 + 0.025 + 2 * 0.030)
    assert run.cut_note == (
        "cut in place: hold it from joiner or spigot to the other, up to the stop"
    )


def test_spigots_that_face_each_other_keep_plain_hose() -> None:
    plan = _plan(*FACING)

    assert [end.chain.parts for end in plan.joints.terminations if end.chain] == [(), ()]
    assert _codes(plan)["worm-clamp-32-50"] == 2


def test_an_elbow_that_is_typed_is_taken() -> None:
    plan = _plan(*UP, line=', ends = ["90", "straight"]')
    (route,) = plan.routes.courses
    steps = [step.text for step in plan.checked.steps if step.code == "moulded-elbow"]

    assert (route.a.shape.angle, route.b.shape.angle) == (90, 0)
    assert _codes(plan)["silicone-hose-38-to-hose-38-90"] == 1
    assert steps == [
        "C01.A: clamp the 90° silicone elbow on RA.out, the bead joiner in its other leg and the "
        "hose on that; point the elbow before its clamps are tight, each clamp behind its bead."
    ]


def test_silicone_is_not_tightened_like_a_socket() -> None:
    codes = {step.code for step in _plan(*UP).checked.steps}

    assert "moulded-elbow" in codes
    assert "clock-ends" not in codes


def test_a_larger_spigot_takes_an_elbow_that_reduces() -> None:
    codes = _codes(_plan(*UP, ends=("45 mm bead", "38 mm bead")))

    # The hose is that of the larger spigot.
    assert codes["silicone-hose-45-to-hose-45-90"] == 1
    assert codes["silicone-hose-45-to-hose-38-90"] == 1


@pytest.mark.parametrize(
    ("fluid", "hose", "kind"),
    [("10W-40", "silicone", "oil cooler"), ("petrol", "fuel J30R9", "fuel cell")],
    ids=["oil", "fuel"],
)
def test_no_silicone_is_offered_for_what_swells_it(fluid: str, hose: str, kind: str) -> None:
    plan = _plan(*UP, fluid=fluid, hose=hose, kind=kind, system="fluid")

    assert [end.elbows for end in plan.joints.terminations] == [(), ()]


def test_hose_of_epdm_takes_silicone_elbows_too() -> None:
    assert _codes(_plan(*UP, hose="EPDM"))["silicone-hose-38-to-hose-38-90"] == 2
