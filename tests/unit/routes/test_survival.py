# SPDX-License-Identifier: Apache-2.0
"""How sure pairs of hose ends are: against normal tails by hand, and against the whole search."""

from dataclasses import replace
from math import cos, erf, radians, sin, sqrt

import numpy as np
import pytest

from linewright.base.frames import rotation
from linewright.car.model import Shape
from linewright.proofs.course import course, pockets
from linewright.routes.doubt import Doubt, drawn
from linewright.routes.gravity import STOP
from linewright.routes.search import lay_line
from linewright.routes.survival import error, surest
from linewright.routes.tasks import Kind, Rule, Side, Task
from linewright.routes.trial import Trial
from linewright.space.bodies import Solid
from linewright.space.model import EndShape, Frame, Limits
from linewright.space.obstacles import Scene
from linewright.space.outlines import HalfSpace

STRAIGHT = EndShape(0, 0.060, 0.0)
BENT = EndShape(90, 0.060, 0.034, price_index=2.0)
LIMITS = Limits(0.020, 0.120, 0.040)
LEAD = STRAIGHT.reach + LIMITS.straight
GRADES = (
    ("taped", 0.008, radians(5.0)),
    ("mocked-up", 0.005, radians(3.0)),
    ("final", 0.002, radians(1.0)),
)


def _side(port: str, at: tuple[float, float, float], *shapes: EndShape) -> Side:
    frame = Frame(at, (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
    return Side(frame, shapes or (STRAIGHT,), port=port)


def _known(side: Side, spread: float = 0.0, tilt: float = 0.0) -> Side:
    return replace(side, frame=replace(side.frame, spread=spread, tilt=radians(tilt)))


def _task(a: Side, b: Side, *walls: float) -> Task:
    """Two ports that look up; walls to the left of A, so far from its axis each."""
    faces = [
        HalfSpace(f"wall-{n}", (-off, 0.0, 0.0), (1.0, 0.0, 0.0)) for n, off in enumerate(walls)
    ]
    box = ((-0.1, -0.1, 0.0), (0.7, 0.1, 0.6))
    return Task("O01", a, b, LIMITS, Scene.build(faces), box)


def _normal(x: float) -> float:
    return (1.0 + erf(x / sqrt(2.0))) / 2.0


def test_the_share_of_places_is_that_of_the_normal_tail() -> None:
    # A straight end that looks up beside a wall: its axis may come 8 mm nearer.
    a = _known(_side("T.a", (0.0, 0.0, 0.0)), spread=0.008)
    task = _task(a, _side("U.b", (0.5, 0.0, 0.0)), LIMITS.outside / 2 + 0.008)
    outcome = lay_line(task)
    count = 2000

    told = surest(task, outcome, Doubt(draws=count)).route

    assert told is not None
    assert told.sureness == pytest.approx(_normal(1.0), abs=3 * error(_normal(1.0), count))


def test_the_share_of_directions_is_that_of_the_normal_tail() -> None:
    # It leans by t towards the wall and then turns away: at its tightest the hose has come
    # lead sin t + r (1 - cos t) nearer. By hand that is 12 mm at 6.45°.
    room = 0.012
    most = next(
        t
        for t in np.arange(0.0, 20.0, 0.001)
        if LEAD * sin(radians(t)) + LIMITS.bend_radius * (1 - cos(radians(t))) > room
    )
    a = _known(_side("T.a", (0.0, 0.0, 0.0)), tilt=4.0)
    task = _task(a, _side("U.b", (0.5, 0.0, 0.0)), LIMITS.outside / 2 + room)
    outcome = lay_line(task)
    count = 2000
    by_hand = _normal(most / 4.0)

    told = surest(task, outcome, Doubt(draws=count)).route

    assert most == pytest.approx(6.45, abs=0.01)
    assert told is not None
    assert told.sureness == pytest.approx(by_hand, abs=3 * error(by_hand, count) + 0.01)


def _only(side: Side, row: np.ndarray) -> Side:
    frame = Frame(tuple(row[0:3]), tuple(row[3:6]), tuple(row[6:9]))
    return replace(side, frame=frame)


def test_it_agrees_with_the_whole_search_draw_by_draw() -> None:
    # A 90 at A and a post between: what the search finds with the same ends again and again.
    a = _known(_side("T.a", (0.0, 0.0, 0.0), BENT), spread=0.008, tilt=5.0)
    b = _known(_side("U.b", (0.5, 0.12, 0.0), BENT), spread=0.008, tilt=5.0)
    task = _task(a, b, 0.030)
    outcome = lay_line(task)
    assert outcome.route is not None
    trial = Trial(task, outcome, Doubt(gap=1.0))
    row = next(row for row in outcome.band if row.works)
    count = 120

    fast = trial.works(row, *trial.ends, 0, count)
    ends = [drawn(known, 1, 0, count) for known in trial.ends]
    slow = np.array(
        [
            lay_line(replace(task, a=_only(a, one), b=_only(b, two))).route is not None
            for one, two in zip(*ends, strict=True)
        ]
    )

    # What the search finds by another way round is not counted, but never the other way.
    assert np.mean(fast & ~slow) <= 0.02
    assert np.mean(fast) == pytest.approx(np.mean(slow), abs=0.05)


def test_a_drain_has_to_fall_in_a_draw_too() -> None:
    # A straight hose that falls by 20°. It comes out of A as A points, and that is where it
    # falls least if A is tilted up, while 15° are asked.
    c, s = cos(radians(20.0)), sin(radians(20.0))
    frame = Frame((0.0, 0.0, 0.5), (c, 0.0, -s), (s, 0.0, c))
    a = _known(Side(frame, (STRAIGHT,), port="T.a"), tilt=5.0)
    there = replace(frame, origin=(0.7 * c, 0.0, 0.5 - 0.7 * s), out=(-c, 0.0, s))
    task = _task(a, Side(there, (STRAIGHT,), port="U.b"))
    count = 400
    shares, works = [], []
    for rule in (None, Rule(Kind.FALLS, 1.0, sin(radians(15.0)))):
        outcome = lay_line(replace(task, gravity=rule))
        assert outcome.route is not None
        trial = Trial(replace(task, gravity=rule), outcome, Doubt(gap=1.0))
        works = trial.works(outcome.band[0], *trial.ends, 0, count)
        shares.append(np.mean(works))
    falls = drawn(trial.ends[0], 1, 0, count)[:, 5] <= -sin(radians(15.0))

    assert shares[0] == 1.0
    assert 0.7 < np.mean(falls) < 0.9
    assert np.mean(works == falls) > 0.98


@pytest.mark.parametrize("seed", range(6))
def test_the_surest_pair_keeps_gravity_as_the_proof_sees_it(seed: int) -> None:
    random = np.random.default_rng(seed)
    low, high = (0.3, -0.5, -0.4), (1.0, 0.5, 0.4)
    at = tuple(float(v) for v in random.uniform(low, high))
    side = (0.0, 0.0, 1.0)
    a = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), side)
    # It looks up: a straight end there stands under a hump, unless A is higher still.
    b = Frame(at, (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
    shapes = (STRAIGHT, replace(BENT, angle=45, drop=0.02), BENT)
    sides = (
        _known(Side(frame, shapes, port=name), spread=0.008, tilt=5.0)
        for name, frame in (("T.a", a), ("U.b", b))
    )
    one, two = sides
    two = replace(two, angle=0 if seed % 2 else None)
    rule = Rule(Kind.NO_TRAP, 1.0, 0.0045)
    task = replace(_task(one, two, 0.030), box=((0.0, -0.5, -0.4), (1.0, 0.5, 0.4)), gravity=rule)
    found = lay_line(task)

    told = surest(task, found, Doubt())

    assert told.route is not None
    for outcome in (found, told):
        assert outcome.route is not None
        humps = pockets(course(outcome.route), (0.0, 0.0, 1.0), 0.005)
        assert bool(humps) == (outcome.cost >= STOP)


def test_ports_that_are_known_exactly_leave_no_doubt() -> None:
    task = _task(_side("T.a", (0.0, 0.0, 0.0)), _side("U.b", (0.5, 0.0, 0.0)), 0.012)

    told = surest(task, lay_line(task), Doubt()).route

    assert told is not None
    assert (told.sureness, told.draws, told.to_be_sure) == (1.0, 0, "")


def _doubtful() -> Task:
    """A cheap straight end beside a wall, or a 90 that turns away from it."""
    a = _known(_side("T.a", (0.0, 0.0, 0.0), STRAIGHT, BENT), spread=0.010, tilt=10.0)
    task = _task(a, _side("U.b", (0.5, 0.0, 0.0)), 0.020)
    # The envelope is left out, so that the straight end is found first.
    return replace(task, weights=replace(task.weights, outside=0.0))


def test_the_pair_that_survives_most_is_taken_though_it_costs_more() -> None:
    task = _doubtful()
    found = lay_line(task)
    assert found.route is not None

    told = surest(task, found, Doubt(draws=200)).route

    assert told is not None
    assert (found.route.a.shape.angle, told.a.shape.angle) == (0, 90)
    shares = {row.angle_a: row.sureness for row in told.band}
    assert shares[90] == told.sureness
    assert shares[90] > shares[0] + 0.1
    assert told.draws == 200


def test_a_pair_that_the_builder_typed_is_kept_and_told() -> None:
    task = _doubtful()
    task = replace(task, a=replace(task.a, angle=0))

    told = surest(task, lay_line(task), Doubt(draws=200, grades=GRADES)).route

    assert told is not None
    assert told.a.shape.angle == 0
    assert told.sureness < 0.9
    assert told.to_be_sure == "mock up and measure both ports to 5 mm and 3° (then 94%)"
    assert "order both" not in told.to_be_sure


def test_a_margin_that_no_pair_has_keeps_the_cheapest_and_names_both() -> None:
    task = _doubtful()

    told = surest(task, lay_line(task), Doubt(draws=200, margin=1.0, grades=GRADES)).route

    assert told is not None
    assert told.a.shape.angle == 0
    assert "order both straight/straight and 90°/straight" in told.to_be_sure


def test_the_seed_moves_the_draws_and_the_same_seed_does_not() -> None:
    task = _doubtful()
    found = lay_line(task)
    one, again, other = (surest(task, found, Doubt(seed=seed)).route for seed in (1, 1, 2))

    assert one == again
    assert one is not None
    assert other is not None
    assert one.seed == 1
    assert [r.sureness for r in one.band] != [r.sureness for r in other.band]


def test_what_carries_a_port_moves_and_turns_along_with_it() -> None:
    # A plate of its own close beside a straight end: wherever both go, it is as far off.
    own = Solid(
        "T",
        Shape.BOX,
        (-0.035, 0.0, 0.05),
        rotation(0.0, 0.0, 0.0),
        (0.02, 0.4, 0.2),
        component="T",
    )
    a = replace(_known(_side("T.a", (0.0, 0.0, 0.0)), spread=0.05, tilt=5.0), own=frozenset(["T"]))
    task = replace(_task(a, _side("U.b", (0.5, 0.0, 0.0))), scene=Scene.build([own]))
    stranger = replace(task, scene=Scene.build([replace(own, component="V")]))

    told, met = (surest(t, lay_line(t), Doubt(draws=200)).route for t in (task, stranger))

    assert told is not None
    assert met is not None
    assert told.sureness > 0.97
    assert met.sureness < 0.8
