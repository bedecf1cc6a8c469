# SPDX-License-Identifier: Apache-2.0
"""What a search saw is what can change its answer."""

from dataclasses import replace

import numpy as np
import pytest

from linewright.car.model import Body, Place, Shape
from linewright.joints.termination import offer
from linewright.routes._courses import note
from linewright.routes.lay_space import lay_all
from linewright.routes.looks import Looks, nothing_seen
from linewright.routes.remembered import Kept, Memo
from linewright.space.outlines import Tube
from linewright.space.path import point
from tests.grown import grown

ALONG = np.column_stack([np.linspace(0.0, 0.8, 81), np.zeros(81), np.zeros(81)])


def looks() -> Looks:
    """Along the x axis to 0.8 m, by a hose of 20 mm."""
    seen, made = nothing_seen(), Looks()
    note(ALONG, len(ALONG), seen)
    made.note(seen, 0.010)
    return made


def test_each_point_of_a_course_lies_in_one_of_its_boxes() -> None:
    boxes = looks().boxes()
    inside = (boxes[:, None, :3] <= ALONG) & (boxes[:, None, 3:] >= ALONG)

    assert len(boxes) == 8
    assert inside.all(axis=2).any(axis=0).all()


@pytest.mark.parametrize(
    ("off", "clearance", "moved", "is_seen"),
    [
        (0.020, 0.0, 0.0, False),
        (0.014, 0.0, 0.0, True),
        (0.020, 0.006, 0.0, True),
        (0.020, 0.0, 0.006, True),
    ],
)
def test_a_hose_is_seen_within_its_clearance_and_movement(
    off: float, clearance: float, moved: float, is_seen: bool
) -> None:
    other = Tube("O2", ((0.4, off, -0.5), (0.4, off, 0.5)), 0.004, clearance)

    assert looks().meet(other, moved) is is_seen


def test_what_lies_between_a_bent_course_and_its_chord_is_not_seen() -> None:
    seen, made = nothing_seen(), Looks()
    turn = np.linspace(0.0, np.pi, 81)
    arc = np.column_stack([np.cos(turn), np.sin(turn), np.zeros(81)])
    note(arc, len(arc), seen)
    made.note(seen, 0.010)

    assert not made.meet(Tube("O2", ((0.0, 0.2, -0.5), (0.0, 0.2, 0.5)), 0.004, 0.0), 0.0)
    assert made.meet(Tube("O2", ((0.0, 1.0, -0.5), (0.0, 1.0, 0.5)), 0.004, 0.0), 0.0)


def test_a_body_that_no_search_saw_changes_only_how_near_it_is_told_to_be() -> None:
    car = grown(5)
    memo: dict[str, Kept] = {}
    before = {route.id: route for route in lay_all(car, offer(car), memo).routes}
    x, y, z = point(before["O004"].path, before["O004"].length / 2.0)
    body = Body("box", Place((x, y, z + 0.12)), Shape.BOX, (0.03, 0.03, 0.03))
    other = replace(car, bodies={**car.bodies, "box": body})
    # As if nothing had been seen on the way: then nothing is searched again.
    blind: Memo = {name: replace(kept, looks=Looks()) for name, kept in memo.items()}
    laid = lay_all(other, offer(other), blind)
    after = {route.id: route for route in laid.routes}
    told = after["O004"].clearance

    assert "O004" not in laid.searched
    assert told is not None
    assert told.from_what == "box"
    assert after["O004"] == replace(before["O004"], clearance=told)
