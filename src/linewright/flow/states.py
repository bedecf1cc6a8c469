# SPDX-License-Identifier: Apache-2.0
"""What a solved system shows: the state of its ports, its lines, and where pressure is lost."""

from collections.abc import Mapping
from math import pi

import numpy as np
from numpy.typing import NDArray

from linewright.flow import laws
from linewright.flow.bands import Study, spread
from linewright.flow.model import Band, LineState, Loss, PortState, SystemState
from linewright.flow.network import Centrifugal, Displacement, Line, Regulator, Relief
from linewright.routes.model import Run

Values = NDArray[np.float64]

#: Between these Reynolds numbers flow is neither laminar nor turbulent for sure.
BETWEEN = (2000.0, 4000.0)
_ACTIVE = (Centrifugal, Displacement, Relief, Regulator)


def state_of(study: Study) -> SystemState:
    """Return the state of a system, without judgement.

    Parameters
    ----------
    study : Study
        Solved with all its doubts.

    Returns
    -------
    SystemState
        Ports, lines and heats.
    """
    built = study.state.built
    ports: dict[str, PortState] = {}
    for run in built.runs.values():
        for sign, end in ((-1.0, run.ends[0]), (1.0, run.ends[1])):
            if end.port in ports or end.is_bulkhead:
                continue
            node = built.node(end.port)
            flow = spread(sign * study.flows[:, study.state.packed.link[run.id]])
            ports[end.port] = PortState(
                end.port, flow, study.pressure(node), study.temperature(node)
            )
    powers = _powers(study)
    whole = sum(powers.values()) or 1.0
    lines: dict[str, LineState] = {}
    pieces: dict[str, list[Run]] = {}
    for run in built.runs.values():
        pieces.setdefault(run.line, []).append(run)
    for line, runs in pieces.items():
        lines[line] = _line(study, line, runs, whole)
    at = built.stands
    stands = None
    if at is not None:
        low, high = (at.value if end is None else end for end in (at.low, at.high))
        stands = Band(at.value, low, high)
    return SystemState(
        built.system.id,
        built.case.name,
        ports=ports,
        lines=lines,
        heat=_heats(study),
        stands=stands,
    )


def _powers(study: Study) -> dict[str, float]:
    """Power that each passive link takes from the flow. [W]"""
    found = {}
    for i, link in enumerate(study.state.built.network.links):
        if not isinstance(link, _ACTIVE):
            drop = abs(study.lost(link.id).value)
            flow = abs(study.flows[0, i]) / study.state.packed.density[i]
            found[link.id] = float(drop * flow)
    return found


def losses(study: Study, link: str) -> Values:
    """Return the drop of a link in every row, without height. [Pa]

    Parameters
    ----------
    study : Study
        Solved.
    link : str
        Its id.

    Returns
    -------
    array
        From its first to its second node.
    """
    packed = study.state.packed
    i = packed.link[link]
    a, b = packed.topology.first[i], packed.topology.second[i]
    rise = packed.density[i] * laws.GRAVITY * (packed.height[a] - packed.height[b])
    return np.asarray(study.pressures[:, a] - study.pressures[:, b] + rise)


def _line(study: Study, line: str, runs: list[Run], whole: float) -> LineState:
    packed, built = study.state.packed, study.state.built
    names = {run.id for run in runs}
    fitted = [
        link.id
        for link in built.network.links
        if link.id.partition(":")[0] in names and link.id not in names
    ]
    drops = np.zeros(len(study.flows))
    told: list[Loss] = []
    first = packed.link[runs[0].id]
    for run in runs:
        i = packed.link[run.id]
        one = losses(study, run.id)
        drops = drops + one
        told += _parts(study, run, i, one, whole)
    for name in fitted:
        one = losses(study, name)
        drops = drops + one
        told.append(
            _loss(name.split(":")[1], built.where[name], one, study, packed.link[name], whole)
        )
    flow = float(study.flows[0, first])
    dense, bore = packed.density[first], packed.bore[first]
    speed = abs(flow) / dense / (0.25 * pi * bore * bore)
    reynolds = speed * bore / packed.viscosity[first]
    return LineState(
        line,
        spread(study.flows[:, first]),
        spread(drops),
        float(speed),
        float(reynolds),
        BETWEEN[0] < reynolds < BETWEEN[1],
        tuple(told),
        float(dense),
    )


def _loss(
    what: str, where: tuple[str, ...], drops: Values, study: Study, i: int, whole: float
) -> Loss:
    flow = abs(study.flows[0, i]) / study.state.packed.density[i]
    return Loss(what, where, spread(drops), float(abs(drops[0]) * flow / whole))


def _parts(study: Study, run: Run, i: int, drops: Values, whole: float) -> list[Loss]:
    """What of a piece is lost in its hose, and what in its ends and adaptors."""
    packed, built = study.state.packed, study.state.built
    link = built.network.links[i]
    assert isinstance(link, Line)
    way = built.ways[run.id]
    flow = abs(float(study.flows[0, i])) / packed.density[i]
    if flow <= 0.0:
        return []
    speed = flow / (0.25 * pi * link.bore**2)
    reynolds = speed * link.bore / packed.viscosity[i]
    head = 0.5 * packed.density[i] * speed**2
    lost = (link.k + link.k_laminar / max(reynolds, 1e-3)) * head
    total = max(abs(float(drops[0])), 1e-9)
    in_hose = max(0.0, total - lost) * min(1.0, way.hose.length / link.length)
    share = min(1.0, in_hose / total)
    ids = tuple(w for s in way.stretches if s.what not in ("hose", "port") for w in s.where[:1])
    return [
        _loss("hose", (run.id,), drops * share, study, i, whole),
        _loss("hose ends and adaptors", ids or (run.id,), drops * (1.0 - share), study, i, whole),
    ]


def _heats(study: Study) -> Mapping[str, Band]:
    state = study.state
    if state.warmth is None:
        return {}
    low = min((h.low for h in state.built.heats), default=1.0)
    high = max((h.high for h in state.built.heats), default=1.0)
    return {
        name: Band(value, *sorted((value * low, value * high)))
        for name, value in state.warmth.given.items()
    }
