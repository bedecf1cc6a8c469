# SPDX-License-Identifier: Apache-2.0
"""Fuel: cells and pots, pumps at their pressure and voltage, filters, rails, regulators."""

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Component
from linewright.flow.behaviours.burning import fuel_now, full_fuel
from linewright.flow.behaviours.ways import centrifugal, electric_speed, level_of, rated, tank
from linewright.flow.defaults import number
from linewright.flow.draft import Draft
from linewright.flow.lines import inertial
from linewright.flow.network import Centrifugal, Reducing, Regulator
from linewright.flow.pumps import head_of
from linewright.tables.rules import rule

#: Flow at which fuel filters are rated. [m3/s]
_RATED = Figure(200e-3 / 3600.0, "m3/s", Grade.PRACTICE, "200 L/h")
_REGULATED = 300e-3 / 3600.0
#: What a float chamber takes that only fills: a regulator before it has to let something by, or
#: nothing tells the pressure behind it. [kg/s]
_WEEP = 1e-5


def cell(draft: Draft, component: Component) -> None:
    """An open cell at a low level.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    outs = draft.ports(component, "pick-up", "feed")
    ins = draft.ports(component, "return")
    tank(draft, component, draft.case.ambient, level_of(draft, component, "fuel-level"), outs, ins)


def pot(draft: Draft, component: Component) -> None:
    """A surge pot, full: all its ports meet; without an overflow it is open to the air.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    middle = f"{component.id}:pot"
    live = draft.ports(component, "lift-in", "out", "return", "overflow")
    draft.gather(component, live, middle)
    draft.marks["pot"] = middle
    if not draft.ports(component, "overflow") or not draft.ports(component, "lift-in"):
        draft.fix(middle, draft.case.ambient)


def wanted(draft: Draft) -> Figure:
    """Return the flow that the engine wants at full power. [m3/s]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.

    Returns
    -------
    Figure
        The flow that the engine wants at full power. [m3/s]
    """
    full = full_fuel(draft.car, draft.case, draft.ledger)
    dense = draft.fluid.density(293.15)
    return Figure(full.value / dense, "m3/s", full.grade, full.basis)


def _turns(draft: Draft, component: Component) -> float:
    if not draft.case.is_running:
        return 0.0
    return electric_speed(draft, component)


def pump(draft: Draft, component: Component) -> None:
    """A pressure pump: its flow at its rated pressure, less as the pressure rises.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "in"), draft.ports(component, "out")
    if not outs:
        return
    start = ins[0] if ins else _in_tank(draft, component)
    if component.kind == "in-tank fuel pump" and (back := draft.ports(component, "return")):
        tank(draft, component, draft.case.ambient, None, (), back)
    if "curve" in component.traits:
        free = Figure(1.0, "m3/s", Grade.STATED)
        centrifugal(draft, component, (start, outs[0]), free, free, _turns(draft, component))
        draft.marks.setdefault("pump inlet", draft.node(start))
        return
    if "rated-pressure" not in component.traits and _feeds_carburettors(draft):
        _soft(draft, component, (start, outs[0]))
        return
    at = draft.ledger.trait(component, "rated-pressure", "fuel-pump-pressure").value
    flow = _rated_flow(draft, component)
    give = f'curve = "300 L/h at 3 bar, 240 L/h at 5 bar" on {component.id}'
    fall = draft.ledger.note(component.id, rule("R80"), give).value
    dense = draft.fluid.density(293.15)
    shut = head_of(at + 1.0 / fall, dense)
    slope = head_of(1.0 / (fall * flow.value), dense)
    name = f"{component.id}:pump"
    speed = _turns(draft, component)
    # A little of the square, so that a pump at rest is still a way with a loss.
    law = (shut, -slope, -1e-3 * slope / flow.value)
    draft.join(Centrifugal(name, start, outs[0], law, speed), component.id)
    draft.doubt(f"{component.id} flow", name, flow)
    draft.marks.setdefault("pump inlet", draft.node(start))


def mechanical(draft: Draft, component: Component) -> None:
    """A diaphragm pump on the engine: its spring sets its pressure, whatever its speed.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "in"), draft.ports(component, "out")
    if ins and outs:
        _soft(draft, component, (ins[0], outs[0]), speed=float(draft.case.is_running))


def _feeds_carburettors(draft: Draft) -> bool:
    kinds = {c.kind for c in draft.car.components.values()}
    return "carburettor" in kinds and "fuel rail" not in kinds


def _soft(
    draft: Draft, component: Component, ends: tuple[str, str], speed: float | None = None
) -> None:
    """A pump for float chambers: no pressure to speak of, and no flow when that is reached."""
    typed = number(component, "flow")
    shut = draft.ledger.trait(component, "shut-pressure", "carburettor-pump-shut")
    if typed is not None:
        free = Figure(typed, "m3/s", Grade.STATED, "flow as typed", 0.9 * typed, 1.1 * typed)
    else:
        kinds = ("fuel pump", "in-tank fuel pump", "mechanical fuel pump")
        count = sum(c.kind in kinds for c in draft.car.components.values())
        value = 2.0 * wanted(draft).value / count
        basis = "free flow of a carburettor's pump that fits its engine"
        free = Figure(value, "m3/s", Grade.PRACTICE, basis, 0.7 * value, 1.5 * value)
        draft.ledger.note(component.id, free, f'flow = "{value * 3.6e6:.0f} L/h" on {component.id}')
    turns = _turns(draft, component) if speed is None else speed
    name = centrifugal(draft, component, ends, free, shut, turns)
    draft.doubt(f"{component.id} shut pressure", f"head {name}", shut)
    draft.marks.setdefault("pump inlet", draft.node(ends[0]))


def reducing(draft: Draft, component: Component) -> None:
    """A regulator before float chambers: it lets through what keeps the pressure behind it.

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
    holds = draft.ledger.trait(component, "setting", "carburettor-setting").value
    rise = draft.ledger.default(component.id, "regulator-rise").value * holds
    wide = draft.ledger.default(component.id, "regulator-open").value
    steep = wide / (0.5 * draft.fluid.density(293.15) * _REGULATED**2)
    before = f"{component.id}:in"
    draft.gather(component, ins, before)
    behind = f"{component.id}:out"
    draft.gather(component, outs, behind)
    name, air = f"{component.id}:valve", draft.case.ambient
    law = (holds, rise, _REGULATED, 0.0, steep)
    draft.join(Reducing(name, before, behind, *law, reference_pressure=air), component.id)


def _rated_flow(draft: Draft, component: Component) -> Figure:
    typed = number(component, "flow")
    if typed is not None:
        return Figure(typed, "m3/s", Grade.STATED, "flow as typed", 0.95 * typed, 1.05 * typed)
    kinds = ("fuel pump", "in-tank fuel pump")
    count = sum(c.kind in kinds for c in draft.car.components.values())
    more = rule("R79").value * 1.3
    value = wanted(draft).value * more / count
    figure = Figure(
        value,
        "m3/s",
        Grade.PRACTICE,
        "flow of a fuel pump that fits its engine",
        0.8 * value,
        1.3 * value,
    )
    give = f'flow = "{value * 3.6e6:.0f} L/h" on {component.id}'
    return draft.ledger.note(component.id, figure, give)


def _in_tank(draft: Draft, component: Component) -> str:
    owner = next((c for c in draft.car.components.values() if c.kind == "fuel cell"), component)
    level = level_of(draft, owner, "fuel-level")
    name = draft.fix(f"{component.id}:level", draft.case.ambient, level)
    draft.pools[name] = owner.id
    inner = f"{component.id}:inlet"
    k = draft.ledger.default(component.id, "screen-loss").value
    draft.through(f"{component.id}:sock", name, inner, (0.0, inertial(k, 0.012)), component.id)
    return inner


def lift(draft: Draft, component: Component) -> None:
    """A lift pump: much flow against little pressure.

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
    typed = number(component, "flow")
    if typed is None:
        value = 2.0 * wanted(draft).value
        free = Figure(
            value,
            "m3/s",
            Grade.PRACTICE,
            "free flow of a lift pump that fits its engine",
            0.7 * value,
            1.3 * value,
        )
        draft.ledger.note(component.id, free, f'flow = "{value * 3.6e6:.0f} L/h" on {component.id}')
    else:
        free = Figure(typed, "m3/s", Grade.STATED, "flow as typed", 0.9 * typed, 1.1 * typed)
    shut = draft.ledger.default(component.id, "lift-pump-shut")
    speed = _turns(draft, component)
    centrifugal(draft, component, (ins[0], outs[0]), free, shut, speed)
    draft.marks["lift inlet"] = draft.node(ins[0])


def filter_of(draft: Draft, component: Component) -> None:
    """A filter or strainer, clean.

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
    name = "fuel-strainer-drop" if component.kind == "fuel strainer" else "fuel-filter-drop"
    numbers = rated(draft, component, name, _RATED, 0.3)
    draft.through(f"{component.id}:element", ins[0], outs[0], numbers, component.id)


def rail(draft: Draft, component: Component) -> None:
    """A rail: the injectors draw from its middle.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    middle = f"{component.id}:rail"
    draft.gather(component, draft.ports(component, "in", "out"), middle)
    draft.marks["rail"] = middle
    _drawn(draft, component, middle)


def carburettor(draft: Draft, component: Component) -> None:
    """A float chamber, which takes what the engine burns.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    for port in draft.ports(component, "in"):
        _drawn(draft, component, port)
        draft.marks[f"carburettor {component.id}"] = draft.node(port)


def _drawn(draft: Draft, component: Component, node: str) -> None:
    count = sum(c.kind == component.kind for c in draft.car.components.values())
    burnt = fuel_now(draft.car, draft.case, draft.ledger)
    if burnt.value > 0.0:
        name = draft.demand(node, burnt.value / count)
        draft.doubt("fuel demand", f"node {name}", burnt)
    elif component.kind == "carburettor":
        draft.demand(node, _WEEP)


def setting(draft: Draft, component: Component) -> float:
    """Return what a regulator holds over its reference. [Pa]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.

    Returns
    -------
    float
        What a regulator holds over its reference. [Pa]
    """
    typed = number(component, "setting")
    if typed is not None:
        return typed
    give = f'setting = "3 bar" on {component.id}'
    return draft.ledger.note(component.id, rule("R83"), give).value


def reference(draft: Draft, component: Component) -> float:
    """Return the absolute pressure that a regulator refers to. [Pa]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.

    Returns
    -------
    float
        The absolute pressure that a regulator refers to. [Pa]
    """
    port = f"{component.id}.reference"
    joined = any(port in (line.from_port, line.to_port) for line in draft.car.lines.values())
    return draft.case.ambient + (draft.case.boost if joined else 0.0)


def regulator(draft: Draft, component: Component) -> None:
    """A return-type regulator: it holds the pressure before it by what it lets go.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "in"), draft.ports(component, "return", "out")
    if not ins or not outs:
        return
    before = f"{component.id}:in"
    draft.gather(component, ins, before)
    holds = setting(draft, component)
    rise = draft.ledger.default(component.id, "regulator-rise").value * holds
    wide = draft.ledger.default(component.id, "regulator-open").value
    dense = draft.fluid.density(293.15)
    steep = wide / (0.5 * dense * _REGULATED**2)
    name = f"{component.id}:valve"
    draft.join(
        Regulator(
            name,
            before,
            outs[0],
            holds,
            rise,
            _REGULATED,
            0.0,
            steep,
            reference_pressure=reference(draft, component),
        ),
        component.id,
    )
    draft.marks["regulator"] = component.id
    draft.marks["return"] = draft.node(outs[0])
    draft.marks["held"] = before
