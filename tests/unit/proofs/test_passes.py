# SPDX-License-Identifier: Apache-2.0
"""Courses through panels: found where they cross, with the hole they take or none."""

from math import sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Severity
from linewright.car.model import Car, Construction, Hole, Line, Medium, Panel
from linewright.proofs.passes import passes, through, unsealed
from linewright.space.path import Path, sample

LINE = Line("L01", "T.out", "E.in", "s", Medium.OIL, "-10", "rubber", Construction.HOSE)
THIN = Figure(0.002, "m", Grade.STATED)


def _wall(holes: tuple[Hole, ...] = (), size: tuple[float, float] | None = None) -> Panel:
    return Panel("wall", THIN, at=(1.0, 0.0, 0.0), points=(1.0, 0.0, 0.0), holes=holes, size=size)


STRAIGHT = Path(((0.0, 0.0, 0.2), (2.0, 0.0, 0.2)), ())


def test_a_bend_is_met_on_its_arc() -> None:
    # A quarter circle of 1 m about (0, 1): x = 0.5 where sin t = 0.5, at y = 1 − cos t.
    bend = Path(((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 1.0, 0.0)), (1.0,))
    wall = Panel("w", THIN, at=(0.5, 0.0, 0.0), points=(1.0, 0.0, 0.0))

    (met,) = through(bend, wall)

    assert met == pytest.approx((0.5, 1 - sqrt(3) / 2, 0.0))


@settings(max_examples=100)
@given(st.floats(-0.2, 1.2), st.tuples(st.floats(-1, 1), st.floats(-1, 1), st.floats(0.2, 1)))
def test_a_panel_is_met_as_often_as_dense_points_change_side(
    off: float, way: tuple[float, float, float]
) -> None:
    path = Path(
        ((0.0, 0.0, 0.0), (0.5, 0.0, 0.0), (0.5, 0.6, 0.0), (0.5, 0.6, 0.5)), (0.168, 0.168)
    )
    wall = Panel("w", THIN, at=(off, 0.0, 0.0), points=way)
    dense = (sample(path, 0.0005) - np.array([off, 0.0, 0.0])) @ np.array(way)
    sides = np.sign(dense)
    changes = int(np.count_nonzero(sides[1:] != sides[:-1]))
    met = through(path, wall)

    # A graze between two dense points is met twice and changes no side.
    grazes = np.min(np.abs(dense)) < 1e-6
    assert len(met) == changes or (grazes or (len(met) - changes) % 2 == 0)
    normal = np.array(way) / np.linalg.norm(way)
    for spot in met:
        assert abs((np.array(spot) - np.array([off, 0.0, 0.0])) @ normal) < 1e-9


def test_beyond_its_edge_a_panel_is_not_met() -> None:
    assert through(STRAIGHT, _wall(size=(1.0, 1.0))) == ((1.0, 0.0, 0.2),)
    assert through(STRAIGHT, _wall(size=(1.0, 0.3))) == ()


def test_a_panel_that_nobody_placed_is_met_nowhere() -> None:
    assert through(STRAIGHT, Panel("w", THIN)) == ()


def test_a_pass_without_a_hole_is_a_stop() -> None:
    car = Car("x", panels={"wall": _wall()})
    (finding,) = unsealed("L01", LINE, passes(car, LINE, STRAIGHT))

    assert finding.code == "pass-unsealed"
    assert finding.severity is Severity.STOP
    assert finding.about == ("L01", "wall")
    assert finding.reason == (
        "L01 goes through wall at (1000, 0, 200) mm, with no bulkhead fitting and no grommet there."
    )


@pytest.mark.parametrize(
    ("hole", "is_sealed"),
    [
        (Hole((1.0, 0.01, 0.2), 0.04), True),
        (Hole((0.999, 0.01, 0.2), 0.04, "L01"), True),
        (Hole((1.0, 0.01, 0.2), 0.04, "L02"), False),
        (Hole((1.0, 0.03, 0.2), 0.04), False),
        (Hole((1.0, 0.0, 0.2)), False),
    ],
)
def test_a_hole_is_taken_where_the_course_goes_through_it_and_may(
    hole: Hole, is_sealed: bool
) -> None:
    car = Car("x", panels={"wall": _wall((hole,))})
    made = passes(car, LINE, STRAIGHT)

    assert (unsealed("L01", LINE, made) == ()) is is_sealed
    assert made[0].hole == (hole if is_sealed else None)
