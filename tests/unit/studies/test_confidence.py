# SPDX-License-Identifier: Apache-2.0
"""The stated chance is that of the closed form, of simulated builds, and of nothing else."""

from dataclasses import replace
from math import sqrt

import pytest

from linewright.studies.confidence import confidence
from linewright.studies.model import Case, Cause, Kind, Loss, Outcome, Stock, Stretch, Unit
from linewright.studies.spares import curve, spares, with_spares
from tests.simulated import enough, invented

_BUILDS = 40_000


def _port(name: str, right: float, tie: str = "") -> Cause:
    """A port that takes one part where it is right, another where it is not."""
    wrong = Outcome(1 - right, ((f"{name} as drawn", -1), (f"{name} otherwise", 1)), "otherwise")
    return Cause(Kind.PORT, name, (wrong,), settle=f"measure {name}", tie=tie)


def _angle(name: str, right: float) -> Cause:
    other = Outcome(1 - right, ((f"{name} 90", -1), (f"{name} 45", 1)), "45 instead")
    return Cause(Kind.ANGLE, name, (other,), settle=f"measure the direction at {name}")


def _two_troubles() -> Case:
    """Case B2: a port right with 0.75, an angle with 0.8, a seal lost with 0.1."""
    needed = {"A as drawn": 1, "line 90": 1, "seal": 1}
    return Case(
        need=needed,
        have=dict(needed),
        causes=(_port("A", 0.75), _angle("line", 0.8)),
        losses=(Loss("seal", 1, 0.1),),
        units=(
            Unit("A otherwise", "A otherwise", 1000),
            Unit("line 45", "45 hose end", 1500),
            Unit("seal", "seal", 50),
        ),
    )


@pytest.mark.parametrize(
    ("more", "share"),
    [
        ((), 0.54),
        (("A otherwise",), 0.72),
        (("line 45",), 0.675),
        (("seal",), 0.60),
        (("A otherwise", "line 45", "seal"), 1.0),
    ],
)
def test_three_troubles_multiply(more: tuple[str, ...], share: float) -> None:
    # Case B2 in closed form: 0.75 x 0.8 x 0.9, and what each remedy makes of it.
    found = confidence(with_spares(_two_troubles(), dict.fromkeys(more, 1)), _BUILDS).chance

    assert found.share == pytest.approx(share, abs=4 * found.error + 1e-12)


def test_the_measurement_that_helps_most_is_named_first() -> None:
    found = confidence(_two_troubles(), _BUILDS).settle

    assert [s.about for s in found] == [("A",), ("line",)]
    assert found[0].how == "measure A"
    assert found[0].after.share == pytest.approx(0.72, abs=4 * found[0].after.error)
    assert found[1].after.share == pytest.approx(0.675, abs=4 * found[1].after.error)


@pytest.mark.parametrize(("tie", "share"), [("one maker", 0.75), ("", 0.5625)])
def test_two_ports_of_one_maker_are_wrong_together(tie: str, share: float) -> None:
    # Case B3: one cause for both is 0.75, two causes are 0.75 squared.
    needed = {"A as drawn": 1, "B as drawn": 1}
    case = Case(needed, dict(needed), (_port("A", 0.75, tie), _port("B", 0.75, tie)))
    found = confidence(case, _BUILDS)

    assert found.chance.share == pytest.approx(share, abs=4 * found.chance.error)
    assert len(found.settle) == (1 if tie else 2)


def test_tied_ports_are_settled_by_one_measurement() -> None:
    needed = {"A as drawn": 1, "B as drawn": 1}
    case = Case(needed, dict(needed), (_port("A", 0.75, "x"), _port("B", 0.75, "x")))
    (found,) = confidence(case, 2000).settle

    assert (found.about, found.after.share) == (("A", "B"), 1.0)


def test_what_nobody_can_buy_ahead_stays_a_risk() -> None:
    wrong = Cause(Kind.HOSE, "O01", (Outcome(0.1, (), "another kind of hose", False),))
    case = Case({}, {}, (wrong,), units=(Unit("x", "x", 1),))
    found = spares(case, 0.95, _BUILDS)

    assert not found.is_reached
    assert found.chance.share == pytest.approx(0.9, abs=4 * found.chance.error)


def test_a_part_that_is_short_from_the_start_is_never_enough() -> None:
    assert confidence(Case({"a": 2}, {"a": 1}), 100).chance.share == 0.0


def test_another_cause_leaves_the_draws_of_the_others_alone() -> None:
    case = _two_troubles()
    more = replace(case, causes=(_port("Z", 1.0), *case.causes))

    assert confidence(more, 2000).chance == confidence(case, 2000).chance


def test_a_hose_with_no_slack_is_too_short_half_the_time() -> None:
    # A symmetric error of any size makes a piece longer than it was reckoned half the time.
    stock = Stock("hose", (1.0,), (Stretch("L1", 1.0, 0.03),))
    found = confidence(Case({}, {}, stocks=(stock,)), _BUILDS).chance

    assert found.share == pytest.approx(0.5, abs=4 * found.error)


@pytest.mark.parametrize("level", [0.6, 0.8, 0.9, 0.95])
def test_of_simulated_builds_as_many_are_enough_as_was_stated(level: float) -> None:
    # Simulated one by one by other code with other draws: within a point and 3 standard errors.
    case = invented(11, scale=0.6)
    chosen = spares(case, level)
    simulated = enough(with_spares(case, dict(chosen.units)), 20_000, seed=97)
    error = sqrt(simulated * (1 - simulated) / 20_000)

    assert chosen.is_reached
    assert chosen.chance.share == pytest.approx(simulated, abs=0.01 + 3 * error)
    assert chosen.chance.share >= level - 3 * chosen.chance.error


def test_harsher_errors_and_ties_lower_the_figure_as_shown() -> None:
    case = invented(11)
    found = confidence(case)
    simulated = enough(case, 20_000, seed=3, errors=1.5)
    tied = replace(case, causes=tuple(replace(c, tie="one reader") for c in case.causes))

    assert found.harsh.share == pytest.approx(simulated, abs=0.015)
    assert found.harsh.share < found.chance.share < found.mild.share
    assert confidence(tied).chance.share == pytest.approx(enough(tied, 20_000, seed=5), abs=0.015)


def test_a_curve_costs_more_the_surer_it_is() -> None:
    found = curve(invented(11), seconds=2.0)
    prices = [p.price for p in found.points]

    assert len(found.points) > 3
    assert prices == sorted(prices)
    assert found.points[0].chance.share < found.points[-1].chance.share <= found.most.share + 0.005


def test_of_three_remedies_the_cheapest_that_is_enough_is_bought() -> None:
    # 0.54 as it is; a spare seal makes 0.60 for 50; both readings of A 0.72 for 1000.
    case = _two_troubles()

    assert spares(case, 0.58).units == (("seal", 1),)
    assert spares(case, 0.70).units == (("A otherwise", 1),)
    assert spares(case, 0.995).units == (("A otherwise", 1), ("line 45", 1), ("seal", 1))


def test_an_unused_spare_that_goes_back_is_priced_net_of_its_refund() -> None:
    case = _two_troubles()
    refunded = replace(case, units=tuple(replace(u, refund=0.8) for u in case.units))
    found = spares(refunded, 0.70, choosing=8000)

    # A otherwise is used in a quarter of builds: three quarters of 0.8 x 1000 come back.
    assert found.price == 1000
    assert found.net == pytest.approx(1000 - 0.75 * 800, abs=25)
