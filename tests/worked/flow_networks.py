# SPDX-License-Identifier: Apache-2.0
"""How the rows on networks in the worked examples are computed, by the solver."""

from collections.abc import Callable
from math import pi

import numpy as np

from linewright.base.dimensions import (
    FOOT,
    GALLON_US,
    GRAVITY,
    INCH,
    POUND,
    POUND_FORCE,
    PSI,
)
from linewright.flow.friction import colebrook
from linewright.flow.network import (
    Centrifugal,
    Displacement,
    FrictionLaw,
    Line,
    Link,
    Loss,
    Network,
    Node,
    State,
)
from linewright.flow.pack import pack
from linewright.flow.solve import solve
from tests.worked.flow_lines import Given

WATER = State(998.2, 1.0034e-6)


def _fixed(name: str, a: str, b: str, length: float, bore: float, factor: float) -> Loss:
    """A pipe of a friction factor that does not change, as books have it."""
    area = 0.25 * pi * bore**2
    return Loss(name, a, b, viscous=0.0, inertial=factor * length / bore / area**2)


def _loops(i: Given, factors: list[float]) -> list[float]:
    demand = {k: v * WATER.density for k, v in i["node_demand_m3s"].items()}
    nodes = [Node("0", pressure=1e6)]
    nodes += [Node(k, demand=v) for k, v in demand.items() if k != "0"]
    links = tuple(
        _fixed(f"P{n}", str(a), str(b), i["L_m"][n], i["D_m"][n], factors[n])
        for n, (a, b) in enumerate(i["pipe_nodes"])
    )
    found = solve(pack(Network(tuple(nodes), links, WATER)))
    return [found.flow(link.id) / WATER.density for link in links]


def _n02(i: Given) -> list[float]:
    flows = [0.01] * len(i["D_m"])
    for _ in range(60):
        factors = [
            colebrook(max(4.0 * abs(q) / (pi * d * i["nu"]), 4000.0), i["ks_m"] / d)
            for q, d in zip(flows, i["D_m"], strict=True)
        ]
        flows = _loops(i, factors)
    return flows[:8]


def _n03(i: Given) -> list[float]:
    nodes = [Node("X")]
    nodes += [Node(n, height=z * FOOT, pressure=1e5) for n, z in zip("ABC", i["z_ft"], strict=True)]
    links = tuple(
        _fixed(n, n, "X", length * FOOT, i["D_ft"] * FOOT, i["f"])
        for n, length in zip("ABC", i["L_ft"], strict=True)
    )
    found = solve(pack(Network(tuple(nodes), links, WATER)))
    out, into_b, into_c = (found.flow(n) / WATER.density / FOOT**3 for n in "ABC")
    return [out, -into_b, -into_c]


def _swamee(i: Given) -> list[float]:
    fluid = State(i["rho"], i["mu"] / i["rho"])
    fixed = {int(k): v * 1e5 for k, v in i["fixed_head_bar"].items()}
    sinks = {int(k): v for k, v in i["sink_kg_s"].items()}
    nodes = tuple(
        Node(str(n), pressure=fixed.get(n), demand=0.0 if n in fixed else sinks.get(n, 0.0))
        for n in range(i["n"])
    )
    links: tuple[Link, ...] = tuple(
        Line(f"P{n}", str(a), str(b), length, bore, rough, k, law=FrictionLaw.GENERAL)
        for n, (a, b, bore, length, rough, k) in enumerate(i["pipes"])
    )
    found = solve(pack(Network(nodes, links, fluid)))
    bores = [pipe[2] for pipe in i["pipes"]]
    return [
        found.flow(f"P{n}") / (fluid.density * 0.25 * pi * bore**2) for n, bore in enumerate(bores)
    ]


def _p11(i: Given) -> list[float]:
    # The book fits h = a + c q² to the three points; `pumps.curve` would go through all three.
    flows = np.array(i["curve_gpm"]) * GALLON_US / 60.0
    heads = np.array(i["curve_ft"]) * FOOT
    columns = np.stack([np.ones(3), flows**2], axis=1)
    a, c = np.linalg.lstsq(columns, heads, rcond=None)[0].tolist()
    fluid = State(998.2, i["nu_ft2s"] * FOOT**2)
    nodes = (
        Node("low", pressure=1e5),
        Node("pump"),
        Node("high", height=i["static_ft"] * FOOT, pressure=1e5),
    )
    rough, bore = i["roughness_ft"] * FOOT, i["D_in"] / 12.0 * FOOT
    # The book takes the friction factor at 1 ft³/s for all flows.
    slow = 4.0 * FOOT**3 / (pi * bore * fluid.viscosity)
    factor = colebrook(slow, rough / bore)
    links = (
        Centrifugal("pump", "low", "pump", (a, 0.0, c)),
        _fixed("pipe", "pump", "high", i["L_ft"] * FOOT, bore, factor),
    )
    flow = solve(pack(Network(nodes, links, fluid))).flow("pipe") / fluid.density
    return [flow / FOOT**3, (a + c * flow**2) / FOOT]


ANSWERS: dict[str, Callable[[Given], list[float]]] = {
    "N01": lambda i: _loops(i, i["f"]),
    "N02": _n02,
    "N03": _n03,
    "N04": _swamee,
    "N05": _swamee,
    "P11": _p11,
}


def _f12(i: Given) -> float:
    """A coefficient on a velocity head, as a line of no length that loses it. [m]"""
    bore = 0.06
    flow = i["V1_ms"] * 0.25 * pi * bore**2
    nodes = (Node("a", pressure=1e6), Node("b", demand=flow * WATER.density))
    line = Line("widens", "a", "b", 1e-6, bore, 0.0, i["K"])
    found = solve(pack(Network(nodes, (line,), WATER)))
    return (1e6 - found.pressure("b")) / (WATER.density * GRAVITY)


def _f18(i: Given) -> float:
    """Pressure below a tap on an upper floor, nothing lost but the head of what leaves it. [psi]"""
    dense = i["rho_slug_ft3"] * POUND * GRAVITY / FOOT / FOOT**3
    flow, tap = i["Q_ft3s"] * FOOT**3, i["Dfaucet_in"] * INCH
    state = State(dense, i["mu"] * POUND_FORCE / FOOT**2 / dense)
    nodes = (
        Node("below", pressure=1e6),
        Node("tap", height=i["dz_ft"] * FOOT),
        Node("out", height=i["dz_ft"] * FOOT, demand=flow * dense),
    )
    # The network is one of total pressures: what leaves has lost one velocity head of the tap.
    links = (
        Line("riser", "below", "tap", 1e-6, i["D_ft"] * FOOT, 0.0),
        Line("tap", "tap", "out", 1e-6, tap, 0.0, 1.0),
    )
    found = solve(pack(Network(nodes, links, state)))
    speed = flow / (0.25 * pi * (i["D_ft"] * FOOT) ** 2)
    return (1e6 - found.pressure("out") - 0.5 * dense * speed**2) / PSI


def _p05(i: Given) -> float:
    """What a positive displacement pump of next to no slip gives against a hose. [cm3/min]"""
    turn = 2 * i["lobes_volumes_per_half_turn"] * i["closed_volume_cm3"] * 1e-6
    nodes = (Node("tank", pressure=1e5), Node("out"), Node("back", pressure=1e5))
    links = (
        Displacement("pump", "tank", "out", turn, i["rpm"] / 60.0, 1e-16),
        Line("hose", "out", "back", 1.0, 0.01, 1e-5),
    )
    found = solve(pack(Network(nodes, links, WATER)))
    return found.flow("hose") / WATER.density * 6e7


#: Rows with one number as their answer.
NUMBERS: dict[str, Callable[[Given], float]] = {"F12": _f12, "F18": _f18, "P05": _p05}
