# SPDX-License-Identifier: Apache-2.0
"""Clips: in straights only, within the spacing, at changes of plane, clear of moving ends."""

from itertools import pairwise
from math import pi, radians

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.finding import Severity
from linewright.car.model import Car, Construction, Line, Medium
from linewright.proofs.supports import Rules, hold, rules, supports
from linewright.space.path import Arc, Path, elements, fits, length

CAR = Car("x")
LINE = Line("L01", "T.out", "E.in", "s", Medium.OIL, "-10", "rubber", Construction.HOSE)


def _rules(run: float, spacing: float = 0.45) -> Rules:
    count = max(1, -int(-run / spacing // 1))
    return Rules(spacing, 0.008, 0.076, radians(5.0), count)


def _bent(path: Path) -> list[tuple[float, float]]:
    spans, here = [], 0.0
    for piece in elements(path):
        if isinstance(piece, Arc):
            spans.append((here, here + piece.length))
        here += piece.length
    return spans


# Two bends, the second square to the plane of the first.
TWO_PLANES = Path(
    ((0.0, 0.0, 0.0), (0.5, 0.0, 0.0), (0.5, 0.6, 0.0), (0.5, 0.6, 0.5)), (0.168, 0.168)
)
# The same two bends in one plane, one left and one right.
ONE_PLANE = Path(
    ((0.0, 0.0, 0.0), (0.5, 0.0, 0.0), (0.5, 0.6, 0.0), (1.0, 0.6, 0.0)), (0.168, 0.168)
)


def test_what_the_settings_say_holds() -> None:
    keep = rules(CAR, LINE, 0.95)

    assert (keep.spacing, keep.engine, keep.count) == (0.45, 0.076, 3)


def test_where_the_plane_of_bends_changes_there_is_a_clip() -> None:
    held = hold(TWO_PLANES, _rules(length(TWO_PLANES)))
    at_change = [clip for clip in held.clips if clip.why == "the plane of its bends changes"]

    # By symmetry it is half way up the middle side of the polyline.
    assert [clip.at for clip in at_change] == [pytest.approx((0.5, 0.3, 0.0))]


def test_an_s_in_one_plane_needs_none_for_that() -> None:
    held = hold(ONE_PLANE, _rules(length(ONE_PLANE)))

    assert all(clip.why == "the spacing" for clip in held.clips)
    assert held.twisted == ()


def test_two_planes_that_touch_leave_no_room_for_a_clip() -> None:
    tight = Path(
        ((0.0, 0.0, 0.0), (0.3, 0.0, 0.0), (0.3, 0.164, 0.0), (0.3, 0.164, 0.3)), (0.08, 0.08)
    )
    _, told = supports(CAR, "L01", LINE, tight, (False, False))

    assert [each.code for each in told] == ["clip-plane"]
    assert told[0].severity is Severity.WARN
    assert "(300, 82, 0) mm" in told[0].reason


@st.composite
def hoses(draw: st.DrawFn) -> Path:
    """Sides along the car's axes, each square to the one before and long enough for both bends."""
    corners = [(0.0, 0.0, 0.0)]
    axis = 0
    for _ in range(draw(st.integers(1, 5))):
        far = draw(st.floats(0.36, 1.2))
        x, y, z = corners[-1]
        step = [far if k == axis else 0.0 for k in range(3)]
        corners.append((x + step[0], y + step[1], z + step[2]))
        axis = (axis + draw(st.sampled_from([1, 2]))) % 3
    return Path(tuple(corners), (0.168,) * (len(corners) - 2))


@settings(max_examples=150)
@given(hoses(), st.booleans(), st.booleans())
def test_no_clip_is_in_a_bend_or_next_to_a_moving_end_and_spans_are_owned_up(
    path: Path, a: bool, b: bool
) -> None:
    assert fits(path) is None
    whole = length(path)
    held = hold(path, _rules(whole), (a, b))
    places = [clip.along for clip in held.clips]

    assert all(not begin - 0.007 < s < end + 0.007 for s in places for begin, end in _bent(path))
    assert not a or all(s >= 0.076 for s in places)
    assert not b or all(s <= whole - 0.076 for s in places)
    stops = [0.0, *places, whole]
    wide = [(x, y) for x, y in pairwise(stops) if y - x > 0.45 + 1e-6]
    assert list(held.unheld) == wide


def test_movement_is_left_to_the_first_bend() -> None:
    corner = Path(((0.0, 0.0, 0.0), (0.3, 0.0, 0.0), (0.3, 1.2, 0.0)), (0.168,))
    bend_end = 0.3 - 0.168 + 0.168 * pi / 2
    keep = _rules(length(corner))

    assert min(c.along for c in hold(corner, keep).clips) < 0.3 - 0.168
    assert min(c.along for c in hold(corner, keep, (True, False)).clips) >= bend_end


def test_a_long_bend_without_a_straight_is_unheld() -> None:
    side = 1.2
    bow = Path(((0.0, 0.0, 0.0), (side, 0.0, 0.0), (side, side, 0.0)), (side - 0.005,))
    _, told = supports(CAR, "L01", LINE, bow, (False, False))
    (finding,) = told

    assert finding.code == "clip-spacing"
    assert finding.limit == "450 mm"
    assert finding.measure == pytest.approx(length(bow) - 0.45)


def test_what_a_handbook_still_allows_is_a_note() -> None:
    # A bend of 0.35 m takes 550 mm of hose: over 450 mm, under 610 mm.
    bow = Path(((0.0, 0.0, 0.0), (0.37, 0.0, 0.0), (0.37, 0.37, 0.0)), (0.35,))
    _, (finding,) = supports(CAR, "L01", LINE, bow, (False, False))

    assert finding.code == "clip-spacing"
    assert finding.severity is Severity.NOTE


def test_a_reference_hose_is_tied_to_what_it_runs_along() -> None:
    line = Line(
        "L02", "T.a", "E.b", "s", Medium.AIR, "4", "silicone", Construction.CLAMPED, "reference"
    )
    held, told = supports(CAR, "L02", line, ONE_PLANE, (False, False))

    assert (held.clips, told) == ((), ())
