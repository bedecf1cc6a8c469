# SPDX-License-Identifier: Apache-2.0
"""Each law of a link: worked by hand, rising everywhere, its slope and its inverse its own."""

from math import pi, sqrt

import numpy as np
import pytest

from linewright.flow import laws
from linewright.flow.laws import constants, smooth_drop, smooth_flow, valve_flow, wide_flow
from linewright.flow.network import (
    Centrifugal,
    Check,
    Displacement,
    FrictionLaw,
    Line,
    Link,
    Loss,
    Network,
    Node,
    Orifice,
    Reducing,
    Regulator,
    State,
)
from linewright.flow.pack import pack
from linewright.flow.solve import solve

WATER, OIL = State(998.0, 1.0e-6), State(840.0, 2.0e-5)
HIGH, LOW = Node("H", pressure=5e5), Node("L", pressure=1e5)
SMOOTH: list[Link] = [
    Line("x", "H", "L", 2.0, 0.0127, 1e-5),
    Line("x", "H", "L", 2.0, 0.0127, 1e-5, law=FrictionLaw.GENERAL),
    Line("x", "H", "L", 2.0, 0.0127, 1e-5, k=2.0, k_laminar=800.0, arc=0.7, bend_radius=0.1),
    Line("x", "H", "L", 2.0, 0.0127, 1e-5, pitch=0.003),
    Loss("x", "H", "L", viscous=1e9, inertial=1e9),
    Loss("x", "H", "L", viscous=0.0, inertial=1e9),
    Orifice("x", "H", "L", bore=0.003, ratio=0.3),
    Orifice("x", "H", "L", bore=0.003, slow=0.0),
    Centrifugal("x", "H", "L", (12.0, -2000.0, -3e6), speed=1.2),
    Centrifugal("x", "H", "L", (12.0, 0.0, -3e6)),
    Displacement("x", "H", "L", displacement=2e-5, speed=50.0, slip=1e-14),
]


def row_of(link: Link, fill: State) -> tuple[int, np.ndarray]:
    packed = pack(Network((HIGH, Node("L")), (link, Line("y", "H", "L", 1.0, 0.01)), fill))
    row = np.zeros(laws.CONSTANTS)
    kind = int(packed.topology.kinds[0])
    sizes = (packed.length[0], packed.bore[0], packed.speed[0])
    constants(kind, packed.numbers[0], *sizes, fill.density, fill.viscosity, 0.0, row)
    return kind, row


@pytest.mark.parametrize("fill", [WATER, OIL], ids=["water", "oil"])
@pytest.mark.parametrize("link", SMOOTH, ids=lambda k: type(k).__name__)
def test_every_drop_rises_with_flow_at_its_own_slope(link: Link, fill: State) -> None:
    kind, row = row_of(link, fill)
    flows = np.concatenate([-np.logspace(1, -9, 400), [0.0], np.logspace(-9, 1, 400)])
    drops = np.array([smooth_drop(kind, row, f)[0] for f in flows])

    # A flow far too small to be seen beside a pump's head may leave the drop as it is.
    assert (np.diff(drops) >= 0.0).all()
    assert all(smooth_drop(kind, row, f)[1] > 0.0 for f in flows)
    for flow in flows:
        # A step so small that no corner of a law lies within it but by ill luck.
        step = 1e-6 * abs(flow) + 1e-13
        up, down = smooth_drop(kind, row, flow + step)[0], smooth_drop(kind, row, flow - step)[0]
        noise = 1e-15 * (abs(up) + abs(smooth_drop(kind, row, 0.0)[0])) / step

        assert smooth_drop(kind, row, flow)[1] == pytest.approx(
            (up - down) / (2.0 * step), rel=1e-4, abs=10.0 * noise
        )


@pytest.mark.parametrize("link", SMOOTH, ids=lambda k: type(k).__name__)
def test_the_flow_at_a_drop_is_that_which_has_the_drop(link: Link) -> None:
    kind, row = row_of(link, OIL)
    for flow in (-3.0, -1e-4, 0.0, 2e-7, 0.05, 4.0):
        drop, slope = smooth_drop(kind, row, flow)
        found, growth = smooth_flow(kind, row, drop, 0.3)

        assert smooth_drop(kind, row, found)[0] == pytest.approx(drop, rel=1e-12, abs=1e-9)
        assert found == pytest.approx(flow, rel=1e-9, abs=1e-12 + 1e-14 * abs(drop) / slope)
        assert growth * smooth_drop(kind, row, found)[1] == pytest.approx(1.0, rel=1e-3)


def only(link: Link, fill: State) -> float:
    return solve(pack(Network((HIGH, LOW), (link,), fill))).flow("x")


def test_laminar_oil_flows_as_hagen_and_poiseuille_say() -> None:
    line = Line("x", "H", "L", length=40.0, bore=0.008)
    by_hand = pi * 0.008**4 / (128.0 * 2e-5 * 40.0) * 4e5

    assert by_hand * 4.0 / (pi * 0.008 * 840.0 * 2e-5) < 1000.0
    assert only(line, OIL) == pytest.approx(by_hand, rel=1e-9)


def test_laminar_loss_of_fittings_is_the_sum_over_reynolds() -> None:
    # 800 / Re of a velocity head is as much as 800 / 64 bores of straight line.
    plain = Line("x", "H", "L", length=40.0 + 800.0 / 64.0 * 0.008, bore=0.008)
    fitted = Line("x", "H", "L", length=40.0, bore=0.008, k_laminar=800.0)

    assert only(fitted, OIL) == pytest.approx(only(plain, OIL), rel=1e-9)


def test_loss_coefficients_alone_follow_the_velocity_head() -> None:
    flow = only(Line("x", "H", "L", length=1e-9, bore=0.01, k=3.0), WATER)
    speed = flow / 998.0 / (0.25 * pi * 0.01**2)

    assert 3.0 * 0.5 * 998.0 * speed**2 == pytest.approx(4e5, rel=1e-6)


def test_an_orifice_lets_by_what_its_area_and_coefficient_say() -> None:
    area = 0.25 * pi * 0.002**2
    by_hand = 0.61 * area * sqrt(2.0 * 998.0 * 4e5 / (1.0 - 0.4**4))

    assert only(Orifice("x", "H", "L", 0.002, ratio=0.4, slow=0.0), WATER) == pytest.approx(
        by_hand, rel=1e-6
    )


def test_a_centrifugal_pump_at_another_speed_keeps_the_affinity_laws() -> None:
    at_rest = (Node("H", pressure=1e5), Node("M"), Node("L", pressure=1e5))
    flows, rises = [], []
    for speed in (1.0, 1.5):
        pump = Centrifugal("x", "H", "M", (12.0, -2000.0, -3e6), speed=speed)
        core = Loss("y", "M", "L", viscous=0.0, inertial=2e9)
        found = solve(pack(Network(at_rest, (pump, core), WATER)))
        flows.append(found.flow("x"))
        rises.append(found.pressure("M") - 1e5)

    assert flows[1] / flows[0] == pytest.approx(1.5, rel=1e-6)
    assert rises[1] / rises[0] == pytest.approx(1.5**2, rel=1e-6)


def test_a_displacement_pump_slips_more_when_the_oil_is_thin() -> None:
    pump = Displacement("x", "L", "H", displacement=2e-5, speed=50.0, slip=2e-14)
    thick, thin = OIL, State(840.0, 5e-6)

    assert only_up(pump, thick) == pytest.approx(840.0 * (1e-3 - 2e-14 * 4e5 / (840.0 * 2e-5)))
    assert only_up(pump, thin) == pytest.approx(840.0 * (1e-3 - 2e-14 * 4e5 / (840.0 * 5e-6)))


def only_up(link: Link, fill: State) -> float:
    return solve(pack(Network((HIGH, LOW), (link,), fill))).flow("x")


@pytest.mark.parametrize(
    "valve",
    [
        Check("x", "H", "L", viscous=1e8, inertial=1e9, opens=2e4),
        Regulator("x", "L", "H", 2e5, 1e4, 1e-3, 0.0, 1e9),
        Reducing("x", "H", "L", 2e5, 1e4, 1e-3, 0.0, 1e9),
    ],
    ids=lambda k: type(k).__name__,
)
def test_a_valve_passes_more_the_higher_before_and_the_lower_after(valve: Link) -> None:
    kind, row = row_of(valve, WATER)
    pressures = np.linspace(0.0, 6e5, 61)
    found = np.array(
        [[valve_flow(kind, row, a, b, a - b)[0] for b in pressures] for a in pressures]
    )

    assert (np.diff(found, axis=0) > 0.0).all()
    assert (np.diff(found, axis=1) < 0.0).all()
    wide = np.array([[wide_flow(row, a - b)[0] for b in pressures] for a in pressures])
    assert (found <= wide + row[3] * 6e5).all()
