# SPDX-License-Identifier: Apache-2.0
"""No hose is laid under the ground or outside the skin; a panel without room for a hole is told."""

from dataclasses import replace

import pytest

from linewright.base.errors import DocumentError
from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Severity
from linewright.car.document import document
from linewright.car.model import Car, Component, Line, Panel, Vector
from linewright.car.read import read_text
from linewright.joints.termination import offer
from linewright.routes.lay_space import lay_all
from linewright.space.path import sample
from tests.unit.routes.test_lay_space import car, component, line

SMALL = (
    'linewright = 1\n[car]\nname = "x"\n{car}\n[systems.oil]\nfluid = "10W-40"\n[components.CO]\n'
    'kind = "oil cooler"\n{more}\n'
)
MM = Figure(0.001, "m", Grade.STATED)


def loop(way: Vector, *, at: float = 0.5) -> tuple[Component, Component]:
    """Two blocks whose ports both look one way, so that their hose goes out that way."""
    side = (0.05 * way[0], 0.05 * way[1], 0.05 * way[2])
    a = component("A", (0.0, 0.0, at), {"p": (side, way)})
    b = component("B", (0.9, 0.0, at), {"p": (side, way)})
    return a, b


def laid(parts: tuple[Component, ...], made: Line, **more: object) -> Car:
    return replace(car(made), components={c.id: c for c in parts}, **more)  # type: ignore[arg-type]


def lowest(plan: Car) -> float:
    (route,) = lay_all(plan, offer(plan)).routes
    return min(float(p[2]) for p in sample(route.path, 0.002))


def test_a_hose_keeps_its_clearance_over_the_ground() -> None:
    down = laid(loop((0.0, 0.0, -1.0), at=0.28), line("O01", "A.p", "B.p"))
    radius = 0.5 * 0.0178

    free, over = lowest(down), lowest(replace(down, ground=0.0))
    eased = {"ground-clearance": Figure(0.03, "m", Grade.STATED)}
    near = lowest(replace(down, ground=0.0, settings=eased))

    assert over >= 0.08 + 0.8 * radius
    assert near >= 0.03 + 0.8 * radius
    assert free <= over + 1e-6


def test_nothing_is_laid_beyond_the_skin_nor_round_its_edge() -> None:
    up = laid(loop((0.0, 0.0, 1.0)), line("O01", "A.p", "B.p"))
    size = (0.4, 0.4)
    lid = Panel("lid", MM, at=(0.45, 0.0, 0.62), points=(0.0, 0.0, 1.0), size=size, is_skin=True)

    (route,) = lay_all(replace(up, panels={"lid": lid}), offer(up)).routes
    over = [p for p in sample(route.path, 0.002) if abs(p[0] - 0.45) < 0.2 and abs(p[1]) < 0.2]

    assert over
    assert max(float(p[2]) for p in over) < 0.62


def test_a_line_for_whose_hole_there_is_no_room_is_told() -> None:
    wall = Panel("wall", MM, at=(0.65, 0.0, 0.5), points=(1.0, 0.0, 0.0), size=(0.01, 0.01))
    plan = car(line("O01", "A.p0", "B.p0", passes=("wall",)), panels={"wall": wall})
    (told,) = lay_all(plan, offer(plan)).findings

    assert (told.code, told.severity, told.about) == ("no-route", Severity.STOP, ("O01",))
    assert told.reason == (
        "O01: no course was sought: no free place for its bulkhead fitting was found in wall, near "
        "the straight way between its ports."
    )
    assert told.remedy == (
        'Say where it goes through: `holes = [{ at = "x, y, z mm", for = "O01" }]` at wall.'
    )


def test_a_line_through_a_wall_without_a_place_is_asked_about() -> None:
    plan = car(line("O01", "A.p0", "B.p0", passes=("wall",)), panels={"wall": Panel("wall", MM)})
    (told,) = lay_all(plan, offer(plan)).findings

    assert (told.code, told.severity) == ("no-route", Severity.ASK)
    assert told.reason == "O01: no course was sought, for the place of wall is not said."


def test_a_line_with_a_port_that_has_no_place_is_left_in_peace() -> None:
    plan = car(line("O01", "A.p0", "B.p0", passes=("wall",)), panels={"wall": Panel("wall", MM)})
    a = replace(plan.components["A"], place=None)
    plan = replace(plan, components={**plan.components, "A": a})

    assert lay_all(plan, offer(plan)).findings == ()


def test_ground_and_skin_are_read_and_written() -> None:
    skin = '[panels.bonnet]\nskin = true\nat = "0, 0, 36 in"\npoints = "up"\nsize = "60 x 70 in"'
    read = read_text(SMALL.format(car='ground = "-310 mm"', more=skin))
    again = read_text(document(read))

    assert read.ground == pytest.approx(-0.31)
    assert read.panels["bonnet"].is_skin
    assert read.panels["bonnet"].thickness.value == 0.001
    assert ("panels.bonnet.thickness", "1 mm", Grade.PRACTICE) in read.assumed
    assert (again.ground, again.panels["bonnet"].is_skin) == (read.ground, True)
    assert read_text(SMALL.format(car="", more="")).ground is None


@pytest.mark.parametrize(
    ("panel", "words"),
    [
        (
            "skin = true",
            'needs the place of the skin; add at = "0, 0, 900 mm", a point of it, and the way '
            'outward, as points = "up".',
        ),
        (
            'skin = true\nat = "0, 0, 1 m"\npoints = "up"\nholes = ["0, 0, 1 m"]',
            "has no use in a skin: nothing is laid beyond it. End the line at a port inside, or "
            "strike skin.",
        ),
    ],
)
def test_what_cannot_be_a_skin_is_refused(panel: str, words: str) -> None:
    with pytest.raises(DocumentError) as caught:
        read_text(SMALL.format(car="", more=f"[panels.lid]\n{panel}"))

    assert words in str(caught.value)
