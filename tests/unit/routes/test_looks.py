# SPDX-License-Identifier: Apache-2.0
"""Pairs of hose ends are asked again where something that they looked at changed, and only there."""

import numpy as np

from linewright.routes.looks import STRETCHES, Looks, nothing_seen
from linewright.space.outlines import Tube

#: Two hose ends at A, one at B, far from all courses. [m]
ENDS = (np.array([[-5.0, 0, 0, -4.9, 0.1, 0.1]] * 2), np.array([[5.0, 0, 0, 5.1, 0.1, 0.1]]))


def answers() -> "np.ndarray[tuple[int, int], np.dtype[np.float64]]":
    """Of two pairs: the course of one in the first metre of x, of the other in the third."""
    found = np.zeros((2, 5 + 6 * STRETCHES))
    for number, x in enumerate((0.0, 2.0)):
        found[number, 5:] = nothing_seen()
        found[number, 5:11] = (x, 0.0, 0.0, x + 1.0, 0.1, 0.1)
        found[number, :5] = (0.1, 0.2, 1.0 + number, 1.0, 7.0)
    return found


def kept() -> Looks:
    looks = Looks()
    looks.keep("asked", answers(), ("post", ""), 0.01, ENDS)
    return looks


def across(x: float) -> Tube:
    return Tube("O02", ((x, -1.0, 0.05), (x, 1.0, 0.05)), 0.01, 0.01)


def asked_again(body: Tube, moved: float = 0.0) -> list[int]:
    known = Looks(kept().pairs, [(body, moved)]).known("asked", lambda name: 3)
    assert known is not None
    return [int(number) for number in known[1]]


def test_only_the_pair_whose_course_met_what_changed_is_asked_again() -> None:
    assert asked_again(across(2.5)) == [1]


def test_a_body_beside_all_courses_asks_none_again_and_one_that_moves_to_them_does() -> None:
    assert asked_again(across(1.5)) == []
    assert asked_again(across(1.5), moved=0.6) == [0, 1]


def test_what_comes_near_a_hose_end_asks_its_pairs_again() -> None:
    assert asked_again(across(5.05)) == [0, 1]


def test_who_is_in_the_way_is_told_by_its_row_in_the_scene_of_now() -> None:
    known = Looks(kept().pairs).known("asked", {"post": 3}.__getitem__)

    assert known is not None
    assert known[0][:, 4].tolist() == [3.0, -1.0]


def test_nothing_is_known_of_another_question_nor_where_all_was_looked_at() -> None:
    looks = Looks(kept().pairs)
    other = looks.known("other", lambda name: 3)
    looks.everywhere = True

    assert other is None
    assert looks.known("asked", lambda name: 3) is None
