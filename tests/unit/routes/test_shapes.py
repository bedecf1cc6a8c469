# SPDX-License-Identifier: Apache-2.0
"""Hose ends in space and what a centreline keeps."""

from dataclasses import replace
from math import cos, radians, sin

import pytest

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Car, Construction, Line, Medium
from linewright.catalogue import stock
from linewright.catalogue.figures import dash_figures
from linewright.ends.notation import read
from linewright.joints.chain import Options, join
from linewright.joints.model import Chain
from linewright.joints.side import hose_of
from linewright.routes.shapes import chain_shapes, end_shapes, limits

CAR = Car("a car")
LINE = Line("O01", "a.out", "b.in", None, Medium.OIL, "-10", "rubber braided", Construction.HOSE)
# The -10 row of SAE 100R5 in hose.csv: to the inside of the curve; outside diameter. [m]
PUBLISHED, OUTSIDE = 0.140, 0.0229
ANGLES = [0, 30, 45, 60, 90, 120, 150, 180]


@pytest.mark.parametrize("family", ["rubber", "PTFE"])
@pytest.mark.parametrize("dash", ["-4", "-6", "-8", "-10", "-12", "-16"])
def test_all_eight_angles_are_offered_by_their_true_legs(family: str, dash: str) -> None:
    shapes = end_shapes(family, dash)

    assert [shape.angle for shape in shapes] == ANGLES
    for shape in shapes[1:-1]:
        part = min(
            (p for p in stock.generic().hose_ends(family, dash) if p.angle == shape.angle),
            key=lambda p: (p.shape != "hose end", p.price_index),
        )
        leg, socket = part.legs
        assert shape.reach == pytest.approx(socket + leg * cos(radians(shape.angle)))
        assert shape.drop == pytest.approx(leg * sin(radians(shape.angle)))


def test_a_u_shaped_end_has_its_legs_a_centre_distance_apart() -> None:
    assert end_shapes("rubber", "-10")[-1].drop == dash_figures("-10").hose_end_u == 0.044


def test_a_full_swivel_turns_freely_and_costs_more() -> None:
    plain, swivel = end_shapes("PTFE", "-8")[4], end_shapes("PTFE", "-8", True)[4]

    assert (plain.turns, swivel.turns) == ("set", "free")
    assert swivel.price_index > plain.price_index


def test_a_hose_that_no_end_grips_has_no_shapes() -> None:
    assert end_shapes("rubber", "-2") == ()


def _chain(text: str, options: Options | None = None) -> Chain:
    chains = join(read(text).end, hose_of(LINE), stock.generic(), options=options or Options())
    return chains[0]


def test_an_adaptor_stands_the_hose_end_off_its_port() -> None:
    chain = _chain("-10 ORB female")
    (adaptor,) = chain.adaptors
    shapes = chain_shapes(chain, end_shapes("rubber", "-10"))

    assert [shape.stick_out for shape in shapes] == [sum(adaptor.legs)] * 8
    assert sum(adaptor.legs) == pytest.approx(0.0293)


def test_an_elbow_adaptor_under_a_straight_end_is_one_bent_end() -> None:
    chain = _chain("-10 ORB female")
    elbow = replace(chain.adaptors[0], angle=90, legs=(0.027, 0.029))
    (shape,) = chain_shapes(
        replace(chain, parts=(elbow, *chain.parts[1:])), end_shapes("rubber", "-10")
    )

    assert (shape.angle, shape.stick_out) == (90, 0.0)
    assert shape.reach == pytest.approx(0.060 + 0.029)
    assert shape.drop == pytest.approx(0.027)


def test_two_elbows_in_a_row_are_not_one_bent_end() -> None:
    chain = _chain("-10 ORB female")
    elbow = replace(chain.adaptors[0], angle=90, legs=(0.027, 0.029))

    assert chain_shapes(replace(chain, parts=(elbow, elbow, *chain.parts[1:])), ()) == ()


def test_the_least_radius_is_brought_to_the_centreline_of_rubber_hose() -> None:
    used = limits(CAR, LINE)

    assert used.bend_radius == pytest.approx(1.2 * PUBLISHED)
    assert used.straight == pytest.approx(2 * OUTSIDE)
    assert (used.clearance, used.most_bends) == (0.010, 6)


def test_the_published_radius_binds_where_no_factor_is_asked() -> None:
    car = replace(CAR, settings={"bend-radius-factor": Figure(1.0, "-", Grade.STATED)})

    assert limits(car, LINE).bend_radius == pytest.approx(PUBLISHED + OUTSIDE / 2)


def test_suction_and_movement_ask_for_wider_bends() -> None:
    suction, moving = replace(LINE, service="suction"), replace(LINE, crosses=True)

    assert limits(CAR, suction).bend_radius == pytest.approx(1.5 * PUBLISHED)
    assert limits(CAR, moving).bend_radius == pytest.approx(1.25 * 1.2 * PUBLISHED)


def test_what_the_builder_types_of_a_line_is_kept() -> None:
    typed = replace(LINE, clearance=Figure(0.02, "m", Grade.STATED), most_bends=3)

    assert (limits(CAR, typed).clearance, limits(CAR, typed).most_bends) == (0.02, 3)


def test_a_hose_without_a_published_radius_takes_so_many_bores() -> None:
    line = replace(LINE, hose="silicone", size="38", construction=Construction.CLAMPED)

    assert limits(CAR, line).bend_radius == pytest.approx(4 * 0.038)
    assert limits(CAR, line).straight == pytest.approx((0.038 + 0.010) / 2)
