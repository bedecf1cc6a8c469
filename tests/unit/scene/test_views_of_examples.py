# SPDX-License-Identifier: Apache-2.0
"""The views of every example that has a place for anything: no name lies on another or is lost."""

from itertools import combinations
from pathlib import Path

import pytest

from linewright.faces.files.views import space_of
from linewright.scene.drawing import Box, Polyline, Text
from linewright.scene.spatial import View, draw_view
from tests.expected import EXAMPLES, planned


@pytest.mark.parametrize("folder", EXAMPLES, ids=[folder.name for folder in EXAMPLES])
def test_no_two_labels_of_an_example_overlap_and_none_is_lost(folder: Path) -> None:
    plan = planned(folder)
    space = space_of(plan)
    drawn = [draw_view(space, view, car_name=plan.car.name, show=plan.car.show) for view in View]

    assert all(drawing is None for drawing in drawn) is space.is_empty
    for drawing in drawn:
        if drawing is None:
            continue
        groups = [g for g in drawing.groups if g.about.startswith("label-")]
        boxes = [m.box for g in groups for m in g.marks if isinstance(m, Text)]
        leaders = [
            (number, mark.points)
            for number, group in enumerate(groups)
            for mark in group.marks
            if isinstance(mark, Polyline)
        ]

        assert drawing.lost == ()
        assert {f"label-{hose.id}" for hose in space.hoses} <= {g.about for g in groups}
        assert not [(a, b) for a, b in combinations(boxes, 2) if a.meets(b)]
        for number, (start, end) in leaders:
            crossed = [b for i, b in enumerate(boxes) if i != number and b.cut_by(start, end)]
            assert not crossed
        sheet = Box(8.0, 8.0, drawing.width - 8.0, drawing.height - 33.0)
        assert all(sheet.holds(box) for box in boxes)
