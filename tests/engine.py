# SPDX-License-Identifier: Apache-2.0
"""A general-purpose pipe network engine, to compare flows and speed with: wntr's, in memory."""

import ctypes
from collections.abc import Sequence
from pathlib import Path
from types import TracebackType

from wntr.epanet.toolkit import ENepanet

from linewright.flow.laws import GRAVITY
from linewright.flow.network import Line, Network

_DIAMETER, _LENGTH, _FLOW = 0, 1, 8  # EN_DIAMETER, EN_LENGTH, EN_FLOW of its toolkit
_FRESH, _KEPT = 10, 0  # EN_initH: begin with usual flows, or with those before; save nothing


def _text(network: Network) -> str:
    """The network in the engine's own words: lines, demands and one fixed pressure, all level."""
    fluid = network.fluid
    head = fluid.density * GRAVITY
    fixed = [n for n in network.nodes if n.pressure is not None]
    free = [n for n in network.nodes if n.pressure is None]
    out = ["[TITLE]", "network", "[JUNCTIONS]"]
    out += [f"{n.id} 0 {1000.0 * n.demand / fluid.density!r}" for n in free]
    out += ["[RESERVOIRS]", *(f"{n.id} {n.pressure / head!r}" for n in fixed if n.pressure)]
    out += ["[PIPES]"]
    for k in network.links:
        assert isinstance(k, Line)
        sizes = (k.length, 1000.0 * k.bore, 1000.0 * k.roughness)
        out.append(f"{k.id} {k.a} {k.b} {' '.join(repr(s) for s in sizes)} {k.k!r} Open")
    out += ["[OPTIONS]", "Units LPS", "Headloss D-W", f"Viscosity {fluid.viscosity!r}"]
    out += ["Accuracy 0.00001", "Trials 200", "[TIMES]", "Duration 0", "[END]"]
    return "\n".join(out)


class Engine:
    """The engine with a network loaded."""

    def __init__(self, network: Network, folder: Path) -> None:
        model = folder / "model.inp"
        model.write_text(_text(network), encoding="utf-8")
        self._density = network.fluid.density
        self._engine = ENepanet()
        self._engine.ENopen(str(model), str(folder / "model.rpt"), str(folder / "model.bin"))
        self._engine.ENopenH()
        self._links = [self._engine.ENgetlinkindex(k.id) for k in network.links]
        self._library, self._project = self._engine.ENlib, self._engine._project
        self._time = ctypes.byref(ctypes.c_long())

    def __enter__(self) -> "Engine":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        self._engine.ENcloseH()
        self._engine.ENclose()

    def run(self, is_fresh: bool = True) -> int:
        """Solve once, from usual flows or those before; 0 if the engine has nothing to say."""
        self._library.EN_initH(self._project, _FRESH if is_fresh else _KEPT)
        return int(self._library.EN_runH(self._project, self._time))

    def change(self, lengths: Sequence[float], bores: Sequence[float]) -> None:
        """Give every line another length and bore. [m]"""
        for i, length, bore in zip(self._links, lengths, bores, strict=True):
            self._engine.ENsetlinkvalue(i, _LENGTH, length)
            self._engine.ENsetlinkvalue(i, _DIAMETER, 1000.0 * bore)

    def flows(self) -> list[float]:
        """Flow of each link from a to b. [kg/s]"""
        found = (self._engine.ENgetlinkvalue(i, _FLOW) for i in self._links)
        return [0.001 * self._density * q for q in found]
