# SPDX-License-Identifier: Apache-2.0
"""Putting a hose on: nuts, travel, spanners, short hoses. Numbers by hand where they matter."""

from dataclasses import replace
from math import degrees, pi, radians, sin

import numpy as np
import pytest

from linewright.base.finding import Severity
from linewright.base.frames import rotation
from linewright.car.model import Car, Construction, Line, Medium, Shape
from linewright.catalogue.part import Part
from linewright.ends.end import End, Family, Gender
from linewright.joints.model import Chain, Termination
from linewright.proofs.fitting import last_nut, room, short, swing, travel
from linewright.proofs.stiffness import bows, gives, short_of_travel
from linewright.routes.route import Route
from linewright.space.bodies import Solid
from linewright.space.free import collar, shortest
from linewright.space.model import EndShape, Frame, Limits
from linewright.space.obstacles import Scene
from linewright.space.path import length

CAR = Car("x")
LINE = Line("L01", "T.out", "E.in", "s", Medium.OIL, "-10", "rubber", Construction.HOSE)
LIMITS = Limits(0.0234, 0.168, 0.0468)
STRAIGHT = EndShape(0, 0.060, 0.0)
BENT = EndShape(90, 0.062, 0.034)
UNTURNED = rotation(0.0, 0.0, 0.0)


def _frame(x: float, out: tuple[float, float, float], z: float = 0.0) -> Frame:
    side = (0.0, 1.0, 0.0)
    return Frame((x, 0.0, z), out, side, spread=0.008, tilt=radians(5.0))


def _route(
    a: Frame, b: Frame, shape: EndShape = STRAIGHT, turns: tuple[float, float] = (0, 0)
) -> Route:
    one, two = collar(a, shape, turns[0]), collar(b, shape, turns[1])
    leave = [(-s.n[0], -s.n[1], -s.n[2]) for s in (one, two)]
    path = shortest(one.collar, leave[0], two.collar, leave[1], LIMITS.bend_radius, LIMITS.straight)
    assert path is not None
    return Route("L01", one, two, path, length(path), None, 0.0, None)


def _facing(run: float) -> Route:
    """A straight hose between two ports that look at each other."""
    return _route(_frame(0.0, (1.0, 0.0, 0.0)), _frame(run + 0.12, (-1.0, 0.0, 0.0)))


# -- how far a hose gives --------------------------------------------------------------------


def test_a_straight_hose_gives_sidewise_what_two_arcs_give() -> None:
    # Laid out by the router: collars offset by that much need the whole hose, no less.
    hose = Limits(0.0234, 0.168, 0.0)
    takes = gives(0.150, hose)
    forward = 2.0 * 0.168 * sin(0.150 / 2 / 0.168)
    path = shortest(
        (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (forward, takes.aside, 0.0), (-1.0, 0.0, 0.0), 0.168, 0.0
    )

    assert path is not None
    assert length(path) == pytest.approx(0.150, abs=1e-6)


def test_a_hose_that_is_all_straights_gives_nothing() -> None:
    takes = gives(0.090, LIMITS)

    assert (takes.aside, takes.angle) == (0.0, 0.0)
    assert bows(0.090, LIMITS) == 0.0


def test_a_hose_bows_by_four_arcs_of_a_quarter_each() -> None:
    # Against an independent count: integrate the heading of the bow numerically.
    run, radius = 0.4, 0.168
    s = np.linspace(0.0, run, 200_001)
    q = run / 4
    heading = np.interp(s, [0, q, 3 * q, run], [0.0, q / radius, -q / radius, 0.0])
    chord = np.trapezoid(np.cos(heading), s)

    assert bows(run, Limits(0.0234, radius, 0.0)) == pytest.approx(run - chord, rel=1e-6)


# -- travel ----------------------------------------------------------------------------------


def test_a_short_hose_between_facing_ports_cannot_be_drawn_back() -> None:
    (finding,) = travel(CAR, "L01", LINE, _facing(0.20), LIMITS, 0.0)

    assert finding.code == "no-travel"
    assert finding.severity is Severity.WARN
    assert finding.reason == (
        "L01 is 200 mm long between its collars and cannot be drawn back 12 mm at either end to "
        "put its last nut on: 11.1 mm are in the way."
    )


def test_facing_ports_need_as_much_hose_as_bows_by_the_travel() -> None:
    # By hand: 4 R sin(b / 4R) = b − 12 mm with R = 0.7 · 168 mm, and the two straights.
    radius = 0.7 * 0.168
    lengths = np.linspace(0.05, 0.6, 100_001)
    bowed = lengths - 4 * radius * np.sin(lengths / 4 / radius)
    bent = float(lengths[np.searchsorted(bowed, 0.012)])
    enough = bent + 2 * LIMITS.straight

    assert travel(CAR, "L01", LINE, _facing(enough + 0.002), LIMITS, 0.0) == ()
    assert travel(CAR, "L01", LINE, _facing(enough - 0.012), LIMITS, 0.0) != ()


def test_a_short_hose_with_elbows_swings_aside_instead() -> None:
    # Two 90s on ports that look up: drawn back, an end only moves up, square to the hose.
    up = (0.0, 0.0, 1.0)
    a, b = _frame(0.0, up), _frame(0.5, up)
    hose = _route(a, b, BENT, (-pi / 2, pi / 2))

    assert hose.length == pytest.approx(0.5 - 2 * 0.062, abs=1e-6)
    assert short_of_travel(hose, LIMITS, "B", 0.012, slack=0.06 * hose.length) == 0.0


def test_a_taut_hose_that_would_have_to_stretch_is_told() -> None:
    up = (0.0, 0.0, 1.0)
    hose = _route(_frame(0.0, up), _frame(0.5, up), BENT, (-pi / 2, pi / 2))

    assert short_of_travel(hose, LIMITS, "B", 0.012) > 0.0


# -- short hoses -----------------------------------------------------------------------------


def test_a_hose_of_five_diameters_is_not_short() -> None:
    ports = (_frame(0.0, (1.0, 0.0, 0.0)), _frame(0.3, (-1.0, 0.0, 0.0)))

    assert short(CAR, "L01", LINE, _facing(0.118), LIMITS, ports) == ()


def test_a_short_hose_states_what_it_takes_and_asks_to_measure() -> None:
    ports = (_frame(0.0, (1.0, 0.0, 0.0)), _frame(0.3, (-1.0, 0.0, 0.0)))
    (finding,) = short(CAR, "L01", LINE, _facing(0.110), LIMITS, ports)

    assert finding.code == "hose-stiff"
    assert finding.severity is Severity.WARN
    assert finding.reason == (
        "L01 has 110 mm of free hose, under five times its diameter: bent no tighter than it may "
        "be it takes 0.4 mm sidewise or 6°. Its ports are known to 22 mm and 14° (95 %)."
    )
    assert "coupler or a swivel" in finding.remedy


def test_a_short_hose_between_ports_that_are_known_that_well_is_a_note() -> None:
    sharp = [replace(_frame(x, (1.0, 0.0, 0.0)), spread=0.0001, tilt=0.001) for x in (0.0, 0.3)]
    (finding,) = short(CAR, "L01", LINE, _facing(0.110), LIMITS, (sharp[0], sharp[1]))

    assert finding.severity is Severity.NOTE


# -- spanners --------------------------------------------------------------------------------


def _post(turn: float, away: float, radius: float) -> Solid:
    """A round post beside a nut that looks along x at the origin."""
    y, z = away * np.cos(radians(turn)), away * np.sin(radians(turn))
    return Solid(
        f"post{turn:.0f}",
        Shape.CYLINDER,
        (0.0, float(y), float(z)),
        rotation(0.0, pi / 2, 0.0),
        (2 * radius, 2 * radius, 0.4),
    )


def test_free_space_lets_a_spanner_go_round() -> None:
    end = collar(_frame(0.0, (1.0, 0.0, 0.0)), STRAIGHT, 0.0)
    has = swing(end, 0.0254, 0.15, 0.020, Scene.build([]), ())

    assert (has.spanner, has.fingers) == (360.0, 360.0)


def test_two_posts_leave_the_swing_between_them() -> None:
    # A post of 10 mm 100 mm away covers asin((10 + 8)/100) to both sides of it.
    end = collar(_frame(0.0, (1.0, 0.0, 0.0)), STRAIGHT, 0.0)
    posts = [_post(turn, 0.10, 0.010) for turn in (0.0, 180.0)]
    has = swing(end, 0.0254, 0.15, 0.020, Scene.build(posts), ())
    by_hand = 180.0 - 2.0 * degrees(np.arcsin(0.018 / 0.10))

    assert has.spanner == pytest.approx(by_hand, abs=10.0)
    assert has.spanner <= by_hand
    assert has.fingers == 360.0


def test_a_nut_among_posts_has_no_room_for_a_spanner() -> None:
    posts = [_post(turn, 0.09, 0.012) for turn in range(0, 360, 40)]
    scene = Scene.build(posts)
    told = room(CAR, "L01", LINE, _facing(0.4), ("T.out", "E.in"), scene)
    (finding,) = told

    assert finding.code == "spanner-room"
    assert finding.about == ("L01", "T.out")
    assert finding.severity is Severity.WARN
    assert finding.limit == "30°"


def test_a_little_more_room_does_with_the_spanner_turned_over() -> None:
    posts = [_post(turn, 0.12, 0.006) for turn in range(0, 360, 40)]
    (finding,) = room(CAR, "L01", LINE, _facing(0.4), ("T.out", "E.in"), Scene.build(posts))

    assert finding.severity is Severity.NOTE
    assert "turned over each time" in finding.reason


def test_a_nut_in_a_slot_cannot_be_started_by_hand() -> None:
    # Two walls 18 mm to each side: fingers only reach from above and below.
    walls = [
        Solid(name, Shape.BOX, (0.0, y, 0.0), UNTURNED, (0.4, 0.02, 0.4))
        for name, y in (("left", -0.028), ("right", 0.028))
    ]
    told = room(CAR, "L01", LINE, _facing(0.4), ("T.out", "E.in"), Scene.build(walls))

    assert "hand-room" in [each.code for each in told]


def test_the_face_that_a_nut_stands_on_takes_no_room() -> None:
    face = Solid("tank", Shape.BOX, (-0.05, 0.0, 0.0), UNTURNED, (0.1, 0.4, 0.4))
    told = room(
        CAR, "L01", replace(LINE, size="-4"), _facing(0.4), ("T.out", "E.in"), Scene.build([face])
    )

    assert told == ()


def test_an_outline_round_the_nut_itself_counts_for_nothing() -> None:
    big = Solid("engine", Shape.BOX, (0.0, 0.0, 0.0), UNTURNED, (0.4, 0.4, 0.4))

    told = room(CAR, "L01", LINE, _facing(0.6), ("T.out", "E.in"), Scene.build([big]))

    assert [each.about for each in told] == []


def test_a_size_whose_nut_is_not_in_the_data_is_not_judged() -> None:
    line = replace(LINE, size="-20")

    assert room(CAR, "L01", line, _facing(0.4), ("T.out", "E.in"), Scene.build([])) == ()


# -- last nut --------------------------------------------------------------------------------


def _end(side: str, end: End) -> Termination:
    grip = End(Family.HOSE, "-10", Gender.MALE, kind="rubber")
    name = "swivel hose end" if end.swivel else "male hose end"
    part = Part("e", name, "hose end", (end, grip))
    return Termination("L01", "L01", side, f"T.{side}", Chain(end, (part,), (), None, 1.0, 0.0, ()))


NPT = End(Family.NPT, "1/2", Gender.MALE)
NUT = End(Family.FLARE_37, "-10", Gender.FEMALE, swivel=True)


def test_two_ends_that_are_screwed_in_with_the_hose_twist_it() -> None:
    (finding,) = last_nut("L01", LINE, (_end("A", NPT), _end("B", NPT)))

    assert finding.code == "last-nut"
    assert finding.severity is Severity.STOP
    assert finding.reason == (
        "L01 has a male hose end and a male hose end: both are screwed in with the hose, and the "
        "last one twists it."
    )


@pytest.mark.parametrize(
    "other", [NUT, End(Family.BANJO, "M14x1.5", Gender.MALE), End(Family.BEAD, "38", Gender.MALE)]
)
def test_one_end_that_turns_alone_is_enough(other: End) -> None:
    assert last_nut("L01", LINE, (_end("A", NPT), _end("B", other))) == ()


def test_an_end_that_nothing_is_chosen_for_is_not_judged() -> None:
    empty = Termination("L01", "L01", "B", "E.in", None)

    assert last_nut("L01", LINE, (_end("A", NPT), empty)) == ()
