# SPDX-License-Identifier: Apache-2.0
"""What is said of a pair of hose ends that was drawn too often where it does not work."""

from dataclasses import replace

from linewright.base.finding import Severity
from linewright.car.model import Car, Construction, Line, Medium
from linewright.proofs.sureness import unsure
from linewright.routes.route import Route
from linewright.space.free import collar
from linewright.space.model import EndShape, Frame
from linewright.space.path import Path

STRAIGHT = EndShape(0, 0.06, 0.0)
UP = Frame((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
LINE = Line("O01", "T.a", "U.b", "oil", Medium.OIL, "-10", "rubber", Construction.HOSE)
ROUTE = Route(
    "O01",
    collar(UP, STRAIGHT, 0.0),
    collar(replace(UP, origin=(0.4, 0.0, 0.0)), STRAIGHT, 0.0),
    Path(((0.0, 0.0, 0.06), (0.4, 0.0, 0.06)), ()),
    0.4,
    None,
    0.3,
    None,
    sureness=0.75,
    to_be_sure="measure the direction of T.a to 5° (then 98%)",
    draws=48,
)


def test_an_unsure_pair_is_told_with_its_share_its_error_and_the_way_out() -> None:
    (finding,) = unsure(Car("x"), LINE, ROUTE)

    assert finding.code == "unsure-ends"
    assert finding.severity is Severity.NOTE
    assert finding.reason == (
        "O01: hose ends straight/straight work in 75% ± 6 of 48 draws of where its ports may be "
        "and point, as well as they are known."
    )
    assert finding.remedy == (
        "Measure the direction of T.a to 5° (then 98%). Else give it more length or room, or order "
        "its ends last, when both parts are where they stay."
    )
    assert (finding.value, finding.limit) == ("75%", "90%")


def test_a_pair_that_works_less_often_than_not_is_asked_about() -> None:
    (below,) = unsure(Car("x"), LINE, replace(ROUTE, sureness=0.49))
    (at,) = unsure(Car("x"), LINE, replace(ROUTE, sureness=0.5))

    assert (below.severity, at.severity) == (Severity.ASK, Severity.NOTE)
    assert below.key == at.key


def test_a_sure_pair_and_one_that_was_not_drawn_are_left_alone() -> None:
    assert unsure(Car("x"), LINE, replace(ROUTE, sureness=0.95)) == ()
    assert unsure(Car("x"), LINE, replace(ROUTE, sureness=None, draws=0)) == ()
    assert unsure(Car("x"), LINE, replace(ROUTE, sureness=1.0, draws=0)) == ()
