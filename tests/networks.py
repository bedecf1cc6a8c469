# SPDX-License-Identifier: Apache-2.0
"""Random networks for the tests of flow, each told by its seed; all in it is invented."""

import random

from linewright.flow.faults import faults
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
    Relief,
    State,
)

# Water, warm petrol, hot oil, cold oil.
FLUIDS = (State(998.0, 1e-6), State(740.0, 6e-7), State(830.0, 1.2e-5), State(880.0, 9e-4))
AMBIENT = 101_325.0
_WORK = {"demand": 0.35, "extra": 0.6, "valves": 0.35, "loops": 0.5}


def looped(pipes: int, seed: int) -> Network:
    """A looped network of lines and demands, of one fluid and one fixed pressure, all level."""
    draw = random.Random(seed)
    count = round(pipes * 2 / 3)
    nodes = [Node("N0", pressure=6e5)]
    nodes += [Node(f"N{i}", demand=draw.uniform(0.01, 0.06)) for i in range(1, count)]
    pairs = [(draw.randrange(max(0, i - 4), i), i) for i in range(1, count)]
    while len(pairs) < pipes:
        a = draw.randrange(count - 1)
        b = min(count - 1, a + draw.randrange(1, 6))
        if (a, b) not in pairs:
            pairs.append((a, b))
    lines = tuple(
        Line(
            f"L{i}",
            f"N{a}",
            f"N{b}",
            length=draw.uniform(0.5, 5.0),
            bore=draw.uniform(0.012, 0.030),
            roughness=1e-5,
            law=FrictionLaw.GENERAL,
        )
        for i, (a, b) in enumerate(pairs)
    )
    return Network(tuple(nodes), lines, State(998.0, 1e-6))


def _pipe(draw: random.Random, name: str, a: str, b: str) -> Link:
    what = draw.random()
    bore = draw.uniform(0.006, 0.035)
    if what < 0.12:
        area = 0.785 * bore * bore
        return Loss(name, a, b, draw.choice([0.0, 1e9, 1e11]), draw.uniform(0.5, 40) / area**2)
    if what < 0.2:
        return Orifice(name, a, b, draw.uniform(0.001, 0.010), slow=draw.choice([0.0, 10.0]))
    return Line(
        name,
        a,
        b,
        length=10 ** draw.uniform(-1.3, 1.0),
        bore=bore,
        roughness=draw.choice([0.0, 1.5e-6, 1e-4]),
        k=draw.choice([0.0, draw.uniform(0.1, 10.0)]),
        k_laminar=draw.choice([0.0, 800.0]),
    )


def _valve(draw: random.Random, name: str, a: str, b: str, references: list[str]) -> Link:
    rates = {"rise": 10 ** draw.uniform(2.5, 5), "flow": 10 ** draw.uniform(-4.5, -2.5)}
    area = 0.785 * draw.uniform(0.004, 0.025) ** 2
    losses = {"viscous": draw.choice([0.0, 1e9]), "inertial": draw.uniform(1, 10) / area**2}
    what = draw.random()
    if what < 0.3:
        return Check(name, a, b, **losses, opens=draw.choice([0.0, draw.uniform(0, 5e4)]))
    if what < 0.5:
        return Relief(name, a, b, opens=draw.uniform(2e4, 8e5), **rates)
    reference = draw.choice([None, *references])
    kind = Regulator if what < 0.75 else Reducing
    holds = draw.uniform(2e4, 6e5) + (AMBIENT if reference is None else 0.0)
    return kind(name, a, b, holds=holds, **rates, **losses, reference=reference)


def _pump(draw: random.Random, name: str, a: str, b: str) -> Link:
    if draw.random() < 0.5:
        head, flow = draw.uniform(3, 60), draw.uniform(2e-4, 3e-3)
        bent = draw.uniform(0, 1)
        curve = (head, -(1 - bent) * head / flow, -bent * head / flow**2)
        return Centrifugal(name, a, b, curve, speed=draw.uniform(0, 1.5))
    given = draw.uniform(1e-6, 4e-5)
    return Displacement(
        name, a, b, given, draw.uniform(0, 100), given * 10 ** draw.uniform(-9.5, -7)
    )


def _add_loops(
    draw: random.Random, nodes: list[Node], links: list[Link], names: list[str], fixed: list[str]
) -> None:
    """A pump whose surplus a boost-referenced regulator returns, and a reduced draw beyond it."""
    rail, tank = draw.choice([n for n in names if n not in fixed]), fixed[0]
    given = draw.uniform(5e-6, 4e-5)
    links.append(Displacement("supply", tank, rail, given, draw.uniform(20, 100), 1e-9 * given))
    losses = {"viscous": 1e9, "inertial": 10 ** draw.uniform(7.0, 9.0)}
    rates = {"rise": draw.uniform(5e3, 5e4), "flow": draw.uniform(2e-4, 2e-3)}
    boosted = {"holds": draw.uniform(1e5, 5e5), "reference": "manifold"}
    links.append(Regulator("return", rail, tank, **boosted, **rates, **losses))
    nodes.append(Node("drawn", demand=draw.uniform(0.0, 0.05)))
    reduced = {"holds": AMBIENT + draw.uniform(2e4, 3e5), "reference": None}
    links.append(Reducing("reducer", rail, "drawn", **reduced, **rates, **losses))


def _tried(draw: random.Random) -> Network:
    count = draw.randrange(3, 45)
    names = [f"N{i}" for i in range(count)]
    fixed = set(draw.sample(names, min(count - 1, draw.randrange(1, 4))))
    pressures = {n: AMBIENT + draw.choice([0.0, draw.uniform(-3e4, 4e5)]) for n in sorted(fixed)}
    nodes = [
        Node(
            n,
            height=draw.uniform(0, 1.2),
            pressure=pressures.get(n),
            demand=draw.uniform(-0.05, 0.15)
            if n not in fixed and draw.random() < _WORK["demand"]
            else 0.0,
        )
        for n in names
    ]
    nodes.append(Node("manifold", pressure=AMBIENT + draw.uniform(-6e4, 1.5e5)))
    pairs = [(draw.randrange(i), i) for i in range(1, count)]
    for _ in range(round(_WORK["extra"] * count)):
        a, b = draw.sample(range(count), 2)
        pairs.append((a, b))
    links: list[Link] = []
    for i, pair in enumerate(pairs):
        a, b = (names[j] for j in draw.sample(pair, 2))
        what = draw.random()
        if what < _WORK["valves"]:
            links.append(_valve(draw, f"V{i}", a, b, ["manifold", *sorted(fixed)]))
        elif what < _WORK["valves"] + 0.12:
            links.append(_pump(draw, f"P{i}", a, b))
        else:
            links.append(_pipe(draw, f"L{i}", a, b))
    if draw.random() < _WORK["loops"]:
        _add_loops(draw, nodes, links, names, sorted(fixed))
    fluid = draw.choice(FLUIDS)
    warmer = State(fluid.density * 0.97, fluid.viscosity * 0.6)
    states = {k.id: warmer for k in links if draw.random() < 0.2}
    return Network(tuple(nodes), tuple(links), fluid, states)


def well_posed(seed: int) -> Network:
    """A random network with pumps and valves of all kinds, drawn again until it has no fault.

    "manifold" is a fixed pressure that regulators refer to, and nothing else is joined to.
    """
    draw = random.Random(seed)
    while True:
        network = _tried(draw)
        if not faults(network):
            return network
