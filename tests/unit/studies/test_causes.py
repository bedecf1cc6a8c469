# SPDX-License-Identifier: Apache-2.0
"""What may go wrong with a plan, and the parts that each way takes."""

from functools import cache

import pytest

from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.studies.case import case
from linewright.studies.causes import causes, losses
from linewright.studies.confidence import confidence
from linewright.studies.model import Case, Cause, Kind
from tests.expected import ROOT

_TEXT = (ROOT / "examples" / "club-roadster" / "car.toml").read_text()


@cache
def _plan(*changes: tuple[str, str]) -> Plan:
    text = _TEXT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return make(read_text(text), in_space=False)


def _cause(plan: Plan, kind: Kind, about: str) -> Cause:
    (found,) = [c for c in causes(plan) if c.kind is kind and c.about == about]
    return found


def test_a_port_that_is_something_else_takes_the_adaptor_of_that() -> None:
    found = _cause(_plan(), Kind.PORT, "TH.engine-in")
    changes = [dict(outcome.change) for outcome in found.outcomes if outcome.is_coverable]

    assert found.share == pytest.approx(0.002)  # it was read
    assert changes
    for change in changes:
        assert change["adaptor-flat-m22x1.5-m-to-flare-10-m"] == -1
        assert max(change.values()) == 1  # something else in its place


def test_a_port_that_is_less_well_known_goes_wrong_more_often() -> None:
    plan = _plan()
    shares = [
        _cause(plan, Kind.PORT, port).share for port in ("TH.engine-in", "TOP.OUT", "FH.in-L")
    ]

    assert shares == pytest.approx([0.002, 0.005, 0.15])  # read, tried, brought by the kind


def test_what_to_do_about_a_port_depends_on_how_it_is_known() -> None:
    plan = _plan()
    found = [_cause(plan, Kind.PORT, port).settle for port in ("TOP.OUT", "FH.in-L")]

    assert found == [
        "read the marking or the drawing of TOP.OUT",
        "measure thread and seat of FH.in-L",
    ]


def test_a_setting_replaces_an_estimate() -> None:
    surer = _plan(("[lines]", '[settings]\nconfidence-right-guess = "97 %"\n\n[lines]'))

    assert _cause(surer, Kind.PORT, "FH.in-L").share == pytest.approx(0.03)


def test_a_hose_end_may_have_to_be_the_next_angle() -> None:
    found = _cause(_plan(), Kind.ANGLE, "L5")  # 45° at A, 90° at B
    words = sorted(o.what for o in found.outcomes)

    assert words == ["0° at end A", "45° at end B", "90° at end A"]
    assert all(sum(n for _, n in o.change) == 0 for o in found.outcomes)


def test_small_things_together_go_wrong_as_often_as_practice_says() -> None:
    # 5 hoses x 3 % x 20 %.
    expected = sum(loss.count * loss.share for loss in losses(_plan()))

    assert expected == pytest.approx(5 * 0.03 * 0.2)


def test_a_line_whose_kind_of_hose_is_wrong_is_past_help() -> None:
    found = _cause(_plan(), Kind.HOSE, "L1")

    assert [o.is_coverable for o in found.outcomes] == [False]


def test_an_unknown_port_makes_any_order_too_little_until_it_is_measured() -> None:
    plan = _plan(
        (
            '"TH.engine-in" = { end = "M22x1.5 flat face", known = "read" }',
            '"TH.engine-in" = { end = "?" }',
        )
    )
    found = confidence(case(plan), 2000)

    assert found.chance.share == 0.0
    assert found.unknown == ("TH.engine-in",)
    assert found.known.share > 0.1


def test_the_case_of_a_plan_is_the_same_twice() -> None:
    one, two = case(_plan()), case(_plan())

    assert one == two
    assert confidence(one, 2000) == confidence(two, 2000)


def test_tied_ports_stand_in_the_case_with_their_tie() -> None:
    found: Case = case(_plan(), ties={"FH.in-L": "one maker", "FH.out-R": "one maker"})
    tied = sorted(c.about for c in found.causes if c.tie)

    assert tied == ["FH.in-L", "FH.out-R"]


def test_a_straight_hose_end_that_only_stands_in_is_often_the_wrong_one() -> None:
    typed = 'string = "700 mm", ends = ["90", "straight"]'
    plan = _plan((typed, 'string = "700 mm", ends = ["open", "straight"]'))
    found = _cause(plan, Kind.ANGLE, "L1.A")

    assert found.share == pytest.approx(0.6)
    assert found.settle == "hold up the hose end at TOP.OUT"
    assert {dict(o.change)["hose-end-10-rubber-straight-fixed"] for o in found.outcomes} == {-1}
    assert sorted(code for o in found.outcomes for code, n in o.change if n > 0) == [
        "hose-end-10-rubber-30-fixed",
        "hose-end-10-rubber-45-fixed",
        "hose-end-10-rubber-60-fixed",
        "hose-end-10-rubber-90-fixed",
    ]
    assert _cause(plan, Kind.ANGLE, "L1").share == pytest.approx(0.006)  # the end that was typed


def test_how_often_a_stand_in_is_right_can_be_set() -> None:
    plan = _plan(
        (', ends = ["90", "straight"]', ""),
        ("[lines]", '[settings]\nconfidence-right-open-angle = "75 %"\n\n[lines]'),
    )

    assert _cause(plan, Kind.ANGLE, "L1.B").share == pytest.approx(0.25)
    assert not [c for c in causes(plan) if c.kind is Kind.ANGLE and c.about == "L1"]
