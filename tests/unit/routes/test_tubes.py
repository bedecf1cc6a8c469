# SPDX-License-Identifier: Apache-2.0
"""Hard tube and charge pipe laid in a car: stocked bends, ends, findings, order."""

from dataclasses import replace
from math import degrees, radians

import pytest

from linewright.base.vectors import Vector, between
from linewright.car.model import (
    Body,
    Car,
    Component,
    Construction,
    Guide,
    Line,
    LineEnd,
    Medium,
    Place,
    Port,
    Shape,
)
from linewright.ends.notation import read
from linewright.joints.termination import offer
from linewright.routes.lay_space import Laid, lay_all
from linewright.routes.route import Route
from linewright.routes.shapes import bent_outside
from linewright.routes.tubes import stock_of
from linewright.space.path import Path, Straight, bends, elements

FLARE = read("-6 flare male").end
BEAD = read("63 mm bead").end

TUBE = Line("F01", "A.p", "B.p", None, Medium.FUEL, "-6", "tube aluminium", Construction.TUBE)
PIPE = Line("A01", "A.p", "B.p", None, Medium.AIR, "63", "pipe aluminium", Construction.PIPE)


def placed(line: Line, b: Vector, way: Vector, *bodies: Body, rides: str = "chassis") -> Car:
    """A port at the origin that looks rearward, and one elsewhere."""
    end = BEAD if line.construction is Construction.PIPE else FLARE
    size = (0.05, 0.05, 0.05)
    made = []
    for name, at, out in (("A", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0)), ("B", b, way)):
        middle = (at[0] - 0.025 * out[0], at[1] - 0.025 * out[1], at[2] - 0.025 * out[2])
        port = Port(f"{name}.p", name, "p", end, at_car=at, points_car=out)
        made.append(
            Component(
                name,
                "tank",
                place=Place(middle),
                size=size,
                shape=Shape.BOX,
                rides=rides if name == "B" else "chassis",
                ports={"p": port},
            )
        )
    return Car(
        "x",
        components={each.id: each for each in made},
        lines={line.id: line},
        bodies={each.id: each for each in bodies},
    )


def laid(car: Car) -> Laid:
    return lay_all(car, offer(car))


def only(found: Laid) -> Route:
    assert [f.reason for f in found.findings] == []
    (route,) = found.routes
    return route


def straights(path: Path) -> list[float]:
    """Straights before, between and after the bends."""
    runs = [0.0]
    for piece in elements(path):
        if isinstance(piece, Straight):
            runs[-1] += piece.length
        else:
            runs.append(0.0)
    return runs


ENDS: tuple[tuple[Vector, Vector], ...] = (
    ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)),
    ((1.0, 0.5, 0.0), (0.0, -1.0, 0.0)),
    ((1.0, 0.5, 0.2), (0.0, -1.0, 0.0)),
    ((1.0, 0.5, 0.2), (-1.0, 0.0, 0.0)),
    ((-0.6, 0.5, 0.2), (1.0, 0.0, 0.0)),
    ((0.8, -0.3, 0.4), (0.0, 0.6, -0.8)),
)


@pytest.mark.parametrize("line", [TUBE, PIPE], ids=["tube", "pipe"])
@pytest.mark.parametrize(("b", "way"), ENDS)
def test_a_course_has_one_stocked_radius_and_the_straights_of_its_bench(
    line: Line, b: Vector, way: Vector
) -> None:
    stock = stock_of(line)
    path = only(laid(placed(line, b, way))).path

    assert stock is not None
    assert set(path.radii) <= {stock.radius.value}
    runs = straights(path)
    ends = [runs[0], runs[-1]] if path.radii else [runs[0] / 2.0]
    assert min(ends) >= stock.end - 1e-6
    assert min(runs[1:-1], default=1.0) >= stock.between - 1e-6


@pytest.mark.parametrize("line", [TUBE, PIPE], ids=["tube", "pipe"])
@pytest.mark.parametrize(("b", "way"), ENDS)
def test_a_course_leaves_both_ends_along_their_axes(line: Line, b: Vector, way: Vector) -> None:
    corners = only(laid(placed(line, b, way))).path.corners
    p, q, r, s = *corners[:2], *corners[-2:]
    first = (q[0] - p[0], q[1] - p[1], q[2] - p[2])
    last = (r[0] - s[0], r[1] - s[1], r[2] - s[2])

    lean = radians(3.0) if line is PIPE else 1e-6
    assert between(first, (1.0, 0.0, 0.0)) <= lean
    assert between(last, way) <= lean


def test_ports_that_look_at_each_other_have_a_straight_tube() -> None:
    route = only(laid(placed(TUBE, (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0))))

    assert bends(route.path) == ()


def test_axes_that_meet_have_a_tube_of_one_bend() -> None:
    route = only(laid(placed(TUBE, (1.0, 0.5, 0.0), (0.0, -1.0, 0.0))))

    assert [round(degrees(bend.angle), 6) for bend in bends(route.path)] == [90.0]


def test_a_tube_goes_round_a_body_in_its_way() -> None:
    block = Body("block", Place((0.5, 0.0, 0.0)), size=(0.1, 0.2, 0.2))
    route = only(laid(placed(TUBE, (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), block)))

    assert len(bends(route.path)) >= 2
    assert route.clearance is not None
    assert route.clearance.from_what == "block"
    assert 0.010 <= route.clearance.gap < 0.03


def test_the_same_car_is_laid_the_same_twice() -> None:
    block = Body("block", Place((0.5, 0.0, 0.0)), size=(0.1, 0.2, 0.2))
    car = placed(TUBE, (1.0, 0.2, 0.1), (-1.0, 0.0, 0.0), block)

    assert laid(car).routes == laid(car).routes


def test_a_pipe_keeps_its_gap_to_the_spigot_inside_the_coupler() -> None:
    route = only(laid(placed(PIPE, (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0))))

    # A coupler of 75 mm goes 30 mm over each bead.
    assert route.path.corners[0] == pytest.approx((0.015, 0.0, 0.0))
    assert route.length == pytest.approx(0.970)


def test_a_charge_pipe_is_laid_before_all_hoses() -> None:
    car = placed(PIPE, (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0))
    other = placed(replace(TUBE, hose="PTFE", construction=Construction.HOSE), *ENDS[1])
    ports = {
        name: replace(
            part,
            ports={
                **part.ports,
                "q": replace(other.components[name].ports["p"], id=f"{name}.q", name="q"),
            },
        )
        for name, part in car.components.items()
    }
    hose = replace(
        TUBE, id="F01", hose="PTFE", construction=Construction.HOSE, from_port="A.q", to_port="B.q"
    )
    both = replace(car, components=ports, lines={"F01": hose, "A01": PIPE})

    assert laid(both).order[0] == "A01"


def test_a_pipe_for_which_no_bend_is_stocked_is_told_the_nearest() -> None:
    line = replace(PIPE, size="64")
    found = laid(placed(line, (1.0, 0.5, 0.0), (0.0, -1.0, 0.0)))

    assert found.routes == ()
    assert [(f.code, f.reason, f.remedy) for f in found.findings] == [
        (
            "no-stocked-bend",
            "A01: no bend is stocked for charge pipe of 64 mm outside, so it has no course in "
            "space.",
            "The nearest that is stocked is 63 mm: take that size, or have hose.",
        )
    ]


def test_a_tube_whose_ends_are_too_near_for_a_bend_says_what_binds() -> None:
    found = laid(placed(TUBE, (0.09, 0.02, 0.01), (-1.0, 0.0, 0.0)))

    assert found.routes == ()
    assert [(f.code, f.reason, f.remedy) for f in found.findings] == [
        (
            "no-route",
            "F01: no course was found from A.p to B.p with hard tube of -6 (9.5 mm) in the "
            "bends that are stocked; what binds: bend radius 24 mm (the tightest "
            "bend that is stocked); straight 38 mm at each end.",
            "Tried in vain: 40 mm more room at each thing in the way, each port turned by 30°. "
            "Move a component, give the line a guide, or have hose.",
        )
    ]


def test_steel_is_bent_wider_than_aluminium() -> None:
    radii = [stock_of(replace(TUBE, hose=hose)) for hose in ("tube aluminium", "tube stainless")]

    assert [round(s.radius.value, 4) for s in radii if s] == [0.0238, 0.0349]


def test_a_size_that_is_open_has_no_outside() -> None:
    assert bent_outside(replace(TUBE, size="auto")) is None


def test_a_tube_follows_its_guide_and_leaves_it_by_one_bend() -> None:
    rail = Guide("rail", ((0.1, 0.0, 0.0), (0.9, 0.0, 0.0)))
    line = replace(TUBE, follows=("rail",))
    car = replace(placed(line, (1.0, 0.0, 0.4), (0.0, 0.0, -1.0)), guides={"rail": rail})
    route = only(laid(car))

    assert [round(degrees(bend.angle), 6) for bend in bends(route.path)] == [90.0]
    assert route.path.corners[1] == pytest.approx((1.0, 0.0, 0.0))
    assert route.follows == ("rail",)


def test_a_pipe_without_a_length_is_no_coupler_where_its_ports_are_far_apart() -> None:
    car = placed(PIPE, (1.0, 0.5, 0.0), (0.0, -1.0, 0.0))
    small = replace(car.components["B"].ports["p"], end=read("51 mm bead").end)
    part = replace(car.components["B"], ports={"p": small})
    reduced = replace(car, components={**car.components, "B": part})

    assert not any(end.chain and end.chain.is_whole_line for end in offer(reduced).terminations)
    assert len(bends(only(laid(reduced)).path)) == 1


def test_an_elbow_of_silicone_that_was_typed_stands_at_its_end_and_is_ordered() -> None:
    line = replace(PIPE, ends=(LineEnd(), LineEnd(angle=90)))
    car = placed(line, (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    joints = offer(car)
    route = only(lay_all(car, joints))

    assert [t.chain.parts[0].code for t in joints.terminations if t.chain] == [
        "coupler-hose-63-to-hose-63",
        "silicone-hose-63-to-hose-63-90",
    ]
    # Its leg of 102 mm is 30 mm over the bead, so its corner stands 72 mm off.
    assert (route.b.shape.angle, route.path.corners[-1][2]) == (90, pytest.approx(0.072))
