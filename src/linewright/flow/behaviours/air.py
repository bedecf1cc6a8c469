# SPDX-License-Identifier: Apache-2.0
"""Charge air: filter, compressor, pipes, coolers, throttle."""

from math import inf

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Component
from linewright.flow.behaviours.burning import air_now, full_air
from linewright.flow.behaviours.coolant import charge_core
from linewright.flow.behaviours.ways import core, rated
from linewright.flow.demand import compressed
from linewright.flow.draft import Draft
from linewright.tables.rules import rule


def _full(draft: Draft, temperature: float, pressure: float) -> Figure:
    flow = full_air(draft.car, draft.case, draft.ledger)
    dense = draft.fluid.density(temperature, pressure)
    return Figure(flow / dense, "m3/s", Grade.PRACTICE, "air flow of full power")


def source(draft: Draft, component: Component) -> None:
    """A filter or an airbox that breathes from outside.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    outs = draft.ports(component, "out")
    if not outs:
        return
    outside = draft.fix(f"{component.id}:outside", draft.case.ambient, draft.height(outs[0]))
    draft.pinned[outside] = draft.case.air
    flow = _full(draft, draft.case.air, draft.case.ambient)
    numbers = rated(draft, component, "air-filter-drop", flow, 0.1)
    draft.through(f"{component.id}:filter", outside, outs[0], numbers, component.id)


def compressor(draft: Draft, component: Component) -> None:
    """A compressor takes the air of the engine on one side and gives it, hotter, on the other.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins = draft.ports(component, "compressor-in", "in")
    outs = draft.ports(component, "compressor-out", "out")
    flow = air_now(draft.car, draft.case, draft.ledger)
    if ins:
        name = draft.demand(ins[0], flow.value)
        draft.doubt("air demand", f"node {name}", flow)
        draft.marks["compressor in"] = name
        if not _fed(draft, ins[0]):
            draft.fix(f"{component.id}:outside", draft.case.ambient, draft.height(ins[0]))
            draft.small(f"{component.id}:mouth", f"{component.id}:outside", ins[0], 0.05, 0.1)
    if outs:
        name = draft.demand(outs[0], -flow.value)
        draft.doubt("air demand", f"node {name}", flow)
        draft.marks["compressor out"] = name
        good = draft.ledger.note(component.id, rule("R64"), "a measured temperature of the charge")
        ratio = (draft.case.ambient + draft.case.boost + 10e3) / draft.case.ambient
        is_boosting = draft.case.boost > 0.0
        hot = compressed(draft.case.air, ratio, good.value) if is_boosting else draft.case.air
        draft.pinned[name] = hot


def _fed(draft: Draft, port: str) -> bool:
    return any(port in (line.from_port, line.to_port) for line in draft.car.lines.values())


def charge_cooler(draft: Draft, component: Component) -> None:
    """The air side of a charge cooler, whose water side is another system.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "air-in"), draft.ports(component, "air-out")
    if not ins or not outs:
        return
    numbers = rated(draft, component, "charge-cooler-drop", _charged(draft), 0.1)
    link = draft.through(f"{component.id}:air", ins[0], outs[0], numbers, component.id)
    draft.cores.append(charge_core(draft, component, link, is_first=True))


def _charged(draft: Draft) -> Figure:
    return _full(draft, 340.0, draft.case.ambient + draft.case.boost)


def intercooler(draft: Draft, component: Component) -> None:
    """A core that air cools.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "in"), draft.ports(component, "out")
    if not ins or not outs:
        return
    numbers = rated(draft, component, "charge-cooler-drop", _charged(draft), 0.1)
    link = draft.through(f"{component.id}:air", ins[0], outs[0], numbers, component.id)
    flow = full_air(draft.car, draft.case, draft.ledger)
    heat = 0.7 * flow * 1006.0 * 100.0
    core(
        draft,
        component,
        link,
        heat=heat,
        difference="coolant-difference",
        flow=_charged(draft).value,
        area="radiator-area",
        split="split-charge-to-air",
        power="power-air",
    )


def pipe(draft: Draft, component: Component) -> None:
    """A pipe with beads, as short as its ports are near.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    middle = f"{component.id}:middle"
    for port in draft.ports(component, "in", "out"):
        draft.small(f"{port}:way", port, middle, draft.bore_at(port), 0.1, component.id)


def end(draft: Draft, component: Component) -> None:
    """A throttle or a manifold: the charge ends there, at its pressure, or is drawn.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins = draft.ports(component, "in")
    if not ins:
        return
    has_compressor = any(c.kind in ("turbo", "compressor") for c in draft.car.components.values())
    if has_compressor:
        draft.fix(ins[0], draft.case.ambient + draft.case.boost)
        draft.marks["manifold"] = draft.node(ins[0])
        return
    flow = air_now(draft.car, draft.case, draft.ledger)
    if flow.value < inf:
        draft.demand(ins[0], flow.value)
