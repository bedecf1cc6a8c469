# SPDX-License-Identifier: Apache-2.0
"""Clock angles: the convention, and 10,000 random hoses against an independent method.

Outside: the convention of MIL-DTL-83796/5, as relayed (near elbow at six
o'clock, counter-clockwise, the same whichever end is called near).
"""

from math import tan

import numpy as np
import pytest
from numpy.typing import NDArray

from linewright.base.vectors import Vector, between
from linewright.space.clock import clock, far_elbow, mirror, said
from linewright.space.path import Path, directions, fits

HOSES = 10_000
Floats = NDArray[np.float64]


def _unit(rows: Floats) -> Floats:
    unit: Floats = rows / np.linalg.norm(rows, axis=-1, keepdims=True)
    return unit


def _hoses(count: int, seed: int) -> list[tuple[Path, Vector, Vector]]:
    """Hoses bent in two planes, with the ways their ends bend, square to the hose.

    An end of 180° differs from one of 90° only in that its outlet does not show its side, so
    the side is drawn and nothing is taken from the outlet.
    """
    draws = np.random.default_rng(seed)
    made: list[tuple[Path, Vector, Vector]] = []
    while len(made) < count:
        corners = draws.uniform(-0.5, 0.5, (4, 3))
        legs = _unit(np.diff(corners, axis=0))
        turns = [float(np.arccos(legs[i] @ legs[i + 1])) for i in range(2)]
        if max(turns) > 2.8:
            continue
        radius = 0.45 * float(np.linalg.norm(np.diff(corners, axis=0), axis=1).min())
        path = Path(
            tuple((float(x), float(y), float(z)) for x, y, z in corners),
            tuple(min(radius, radius / tan(turn / 2)) for turn in turns),
        )
        sides = []
        for leg in (legs[0], legs[-1]):
            x, y, z = _unit(np.cross(leg, draws.normal(size=3)))
            sides.append((float(x), float(y), float(z)))
        made.append((path, sides[0], sides[1]))
    return made


def _apart(a: float, b: float) -> float:
    return abs((a - b + 180.0) % 360.0 - 180.0)


ALL = _hoses(HOSES, 83796)
CLOCKS = [clock(*hose) for hose in ALL]


def test_all_random_hoses_can_be_made() -> None:
    assert all(fits(path) is None for path, _, _ in ALL)
    assert all(0.0 <= value < 360.0 for value in CLOCKS)


def test_the_clock_is_the_same_whichever_end_is_called_a() -> None:
    for (path, a, b), value in zip(ALL, CLOCKS, strict=True):
        back = Path(path.corners[::-1], path.radii[::-1])

        assert _apart(clock(back, b, a), value) < 1e-6


def test_the_mirror_hose_has_360_less_its_clock() -> None:
    def flip(v: Vector) -> Vector:
        return (v[0], -v[1], v[2])

    for (path, a, b), value in zip(ALL, CLOCKS, strict=True):
        other = Path(tuple(flip(corner) for corner in path.corners), path.radii)

        assert _apart(clock(other, flip(a), flip(b)), mirror(value)) < 1e-6


def test_the_clock_is_unmoved_by_turning_the_car() -> None:
    draws = np.random.default_rng(7)
    for (path, a, b), value in zip(ALL, CLOCKS, strict=True):
        turn, _ = np.linalg.qr(draws.normal(size=(3, 3)))
        turn *= np.sign(np.linalg.det(turn))
        corners, sides = np.array(path.corners) @ turn.T, np.array([a, b]) @ turn.T
        other = Path(tuple(map(tuple, corners.tolist())), path.radii)
        a_turned, b_turned = map(tuple, sides.tolist())

        assert _apart(clock(other, a_turned, b_turned), value) < 1e-6


def _laid_straight() -> Floats:
    """Clock angles by another way: carry each side along points of the hose, lay it straight.

    The side is turned with the chord at each of 400 points, with no axis or angle of the bends;
    then the torsion angle of the four points tip, collar,
    collar, tip of the straight hose is taken. The clock is minus the usual torsion angle.
    """
    corners = np.array([path.corners for path, _, _ in ALL])
    radii = np.array([path.radii for path, _, _ in ALL])
    legs = _unit(np.diff(corners, axis=1))
    pieces = [corners[:, :1]]
    for i in range(2):
        turn = np.arccos(np.clip(np.sum(legs[:, i] * legs[:, i + 1], axis=1), -1, 1))[:, None]
        inward = _unit(legs[:, i + 1] - np.cos(turn) * legs[:, i])
        start = corners[:, i + 1] - (radii[:, i : i + 1] * np.tan(turn / 2)) * legs[:, i]
        for share in np.linspace(0.0, 1.0, 201):
            here = np.sin(share * turn) * legs[:, i] + (1 - np.cos(share * turn)) * inward
            pieces.append((start + radii[:, i : i + 1] * here)[:, None])
    pieces.append(corners[:, -1:])
    chords = _unit(np.diff(np.concatenate(pieces, axis=1), axis=1))
    side = np.array([a for _, a, _ in ALL])
    last = chords[:, 0]
    for i in range(1, chords.shape[1]):
        both = last + chords[:, i]
        share = np.sum(side * chords[:, i], axis=1) / (1.0 + np.sum(last * chords[:, i], axis=1))
        side, last = side - share[:, None] * both, chords[:, i]
    along, far = chords[:, -1], np.array([b for _, _, b in ALL])
    # Usual torsion: looking along the middle bond, clockwise from the near to the far one.
    n1, n2 = np.cross(-side, along), np.cross(along, far)
    torsion = np.arctan2(-np.sum(side * n2, axis=1), np.sum(n1 * n2, axis=1))
    turned: Floats = -np.degrees(torsion) % 360.0
    return turned


def test_an_independent_method_finds_the_same_clock() -> None:
    others = _laid_straight()
    worst = max(_apart(a, float(b)) for a, b in zip(CLOCKS, others, strict=True))

    assert worst < 1e-6


def test_projecting_on_the_chord_would_be_wrong() -> None:
    errors = []
    for (path, a, b), value in zip(ALL, CLOCKS, strict=True):
        chord = Path((path.corners[0], path.corners[-1]), ())
        along = directions(chord)[0]
        if min(between(along, side) for side in (a, b)) > 0.01:
            errors.append(_apart(clock(chord, a, b), value))

    assert np.median(errors) > 20.0


@pytest.mark.parametrize(
    ("far", "expected"),
    [
        ((0.0, 0.0, -1.0), 0.0),  # six o'clock
        ((1.0, 0.0, 0.0), 90.0),  # rearward is to the right of one who looks to the right: three
        ((0.0, 0.0, 1.0), 180.0),  # twelve
        ((-1.0, 0.0, 0.0), 270.0),  # nine
    ],
)
def test_the_far_elbow_is_counted_counter_clockwise_from_six(far: Vector, expected: float) -> None:
    hose = Path(((0.0, 0.0, 0.0), (0.0, 1.0, 0.0)), ())

    assert clock(hose, (0.0, 0.0, -1.0), far) == pytest.approx(expected)


def test_a_hair_below_nothing_is_nothing() -> None:
    hose = Path(((0.0, 0.0, 0.0), (0.0, 1.0, 0.0)), ())

    assert clock(hose, (0.0, 0.0, -1.0), (-1e-14, 0.0, -1.0)) == 0.0


def test_a_side_along_the_hose_has_no_clock() -> None:
    with pytest.raises(ValueError) as caught:
        clock(Path(((0.0, 0.0, 0.0), (0.0, 1.0, 0.0)), ()), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0))

    assert str(caught.value) == (
        "side (0.0, 1.0, 0.0) of end B: lies along the hose (0.0, 1.0, 0.0); a clock angle needs "
        "two bent ends"
    )


def test_only_0_and_180_are_their_own_mirror() -> None:
    assert [value for value in range(360) if mirror(float(value)) == value] == [0, 180]


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (
            209.6,
            "210°: near elbow at six o'clock, counter-clockwise, seen from end A (150° is its "
            "mirror: wrong)",
        ),
        (359.7, "0°: near elbow at six o'clock, seen from end A (either way round)"),
        (180.0, "180°: near elbow at six o'clock, seen from end A (either way round)"),
        # Within 10° of 0 or 180 the mirror is no other hose to the hand: practice.
        (359.0, "359°: near elbow at six o'clock, seen from end A (either way round)"),
        (1.0, "1°: near elbow at six o'clock, seen from end A (either way round)"),
        (171.0, "171°: near elbow at six o'clock, seen from end A (either way round)"),
        (
            11.0,
            "11°: near elbow at six o'clock, counter-clockwise, seen from end A (349° is its "
            "mirror: wrong)",
        ),
    ],
)
def test_a_clock_angle_is_said_with_its_wrong_twin(value: float, text: str) -> None:
    assert said(value) == text


@pytest.mark.parametrize(
    ("value", "hour"), [(0.0, "6:00"), (45.0, "4:30"), (180.0, "12:00"), (270.0, "9:00")]
)
def test_the_far_elbow_has_its_hour(value: float, hour: str) -> None:
    assert far_elbow(value) == hour
