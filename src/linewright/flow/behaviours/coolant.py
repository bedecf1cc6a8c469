# SPDX-License-Identifier: Apache-2.0
"""Coolant and charge coolant: pumps, jackets, cores, thermostats, header tanks, reservoirs."""

from dataclasses import replace

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Component, Medium
from linewright.flow.behaviours.burning import full_air
from linewright.flow.behaviours.oil import load, share_of_speed
from linewright.flow.behaviours.oil_water import water_core
from linewright.flow.behaviours.ways import (
    centrifugal,
    core,
    electric_speed,
    level_of,
    rated,
    tank,
)
from linewright.flow.defaults import default, number
from linewright.flow.demand import compressed
from linewright.flow.draft import Core, Draft, Heat, Held, Thermostat
from linewright.flow.exchangers import Arrangement, Side, from_effectiveness
from linewright.flow.fluids import air as air_itself
from linewright.flow.holes import rated_loss
from linewright.tables.fluids import heat_figure
from linewright.tables.rules import rule

#: Flow at which parts of the loop are rated for each watt to the coolant. [m3/J]
_PER_WATT = 2.0e-3 / 60.0 / 1e3
_SMALL = Figure(10e-3 / 60.0, "m3/s", Grade.PRACTICE, "usual flow")
#: Flow at which charge-coolant parts are rated. [m3/s]
CHARGE = Figure(25e-3 / 60.0, "m3/s", Grade.PRACTICE, "usual flow")


def full_heat(draft: Draft) -> Figure:
    """Return the heat to the coolant at full power. [W]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.

    Returns
    -------
    Figure
        The heat to the coolant at full power. [W]
    """
    share = draft.ledger.default(draft.case.engine.id or "engine", "coolant-heat")
    power = draft.case.engine.power.value
    return replace(
        share,
        value=share.value * power,
        unit="W",
        low=(share.low or share.value) * power,
        high=(share.high or share.value) * power,
    )


def _rated_flow(draft: Draft) -> Figure:
    value = _PER_WATT * full_heat(draft).value
    return Figure(value, "m3/s", Grade.PRACTICE, "2 L/min for each kW to the coolant")


def engine(draft: Draft, component: Component) -> None:
    """The jacket: heat, and the pump that is in the engine where the car has no other.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    name = component.id
    start, middle, end = f"{name}:jacket-in", f"{name}:jacket", f"{name}:jacket-out"
    viscous, steep = rated(draft, component, "engine-coolant-drop", _rated_flow(draft), 0.0)
    first = draft.through(f"{name}:block", start, middle, (viscous / 2, steep / 2), name)
    draft.through(f"{name}:head", middle, end, (viscous / 2, steep / 2), name)
    draft.marks["coolant in"], draft.marks["coolant out"] = start, end
    heat = full_heat(draft)
    power = heat.value * load(draft)
    if power > 0.0:
        bounds = ((heat.low or heat.value) / heat.value, (heat.high or heat.value) / heat.value)
        draft.heats.append(Heat(first, name, power, *bounds))
    inlet = draft.ports(component, "coolant-in")
    has_pump = any("water pump" in c.kind for c in draft.car.components.values())
    if has_pump:
        draft.gather(component, inlet, start)
    else:
        suction = f"{name}:pump-in"
        draft.gather(component, inlet, suction)
        centrifugal(
            draft, component, (suction, start), *_mechanical(draft, name), share_of_speed(draft)
        )
        draft.marks["pump inlet"] = suction
    draft.gather(component, draft.ports(component, "coolant-out", "heater-out", "steam"), end)
    back = draft.marks.get("pump inlet") if not has_pump else start
    draft.gather(component, draft.ports(component, "heater-in"), back or start)
    draft.gather(component, draft.ports(component, "turbo-water-out"), start)
    draft.gather(component, draft.ports(component, "turbo-water-in"), end)
    typed = draft.ledger.default(name, "coolant-thermostat-opens").value
    draft.held.append(Held(end, typed, name))


def _mechanical(draft: Draft, name: str) -> tuple[Figure, Figure]:
    per = draft.ledger.default(name, "water-pump-flow")
    heat = full_heat(draft).value
    free = replace(
        per,
        value=per.value * heat,
        unit="m3/s",
        low=(per.low or per.value) * heat,
        high=(per.high or per.value) * heat,
    )
    return free, draft.ledger.default(name, "water-pump-shut")


def pump(draft: Draft, component: Component) -> None:
    """A water pump, driven by the engine or by a motor; its feed joins at its inlet.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    inlet = f"{component.id}:inlet"
    draft.gather(component, draft.ports(component, "in", "feed"), inlet)
    outs = draft.ports(component, "out")
    if not outs:
        outs = (draft.node(draft.marks.get("coolant in", f"{draft.case.engine.id}:jacket-in")),)
    draft.marks["pump inlet"] = inlet
    typed = number(component, "flow")
    if component.kind == "water pump":
        free, shut = _mechanical(draft, component.id)
        ratio = number(component, "ratio") or 1.0
        speed = 0.0 if component.id in draft.case.off else share_of_speed(draft) * ratio
    else:
        is_charge = draft.medium is Medium.CHARGE_COOLANT
        free = default("charge-pump-flow")
        if typed is None and "curve" not in component.traits:
            if is_charge:
                free = draft.ledger.default(component.id, "charge-pump-flow")
            else:
                free, _ = _mechanical(draft, component.id)
        name = "charge-pump-shut" if is_charge else "electric-pump-shut"
        shut = draft.ledger.default(component.id, name)
        speed = electric_speed(draft, component)
    if typed is not None:
        free = Figure(typed, "m3/s", Grade.STATED, f"flow of {component.id}", 0.9 * typed, typed)
    centrifugal(draft, component, (inlet, outs[0]), free, shut, speed)


def radiator(draft: Draft, component: Component) -> None:
    """A core in the air with a fan; it bleeds from its inlet side.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    before = f"{component.id}:in"
    draft.gather(component, draft.ports(component, "in", "bleed", "fill"), before)
    outs = draft.ports(component, "out")
    if not outs:
        return
    numbers = rated(draft, component, "radiator-drop", _rated_flow(draft), 0.1)
    link = draft.through(f"{component.id}:core", before, outs[0], numbers, component.id)
    core(
        draft,
        component,
        link,
        heat=full_heat(draft).value,
        difference="coolant-difference",
        flow=_rated_flow(draft).value,
        area="radiator-area",
        split="split-radiator",
        power="power-turbulent",
        has_fan=True,
    )


def housing(draft: Draft, component: Component) -> None:
    """A thermostat: in one way only the control of a temperature, with a bypass two ways.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "in"), draft.ports(component, "out")
    start = ins[0] if ins else draft.node(f"{draft.case.engine.id}:jacket-out")
    if not outs:
        return
    numbers = rated(draft, component, "coolant-thermostat-drop", _rated_flow(draft), 0.0)
    warm = draft.through(f"{component.id}:open", start, outs[0], numbers, component.id)
    bypass = draft.ports(component, "bypass")
    if bypass:
        cold = draft.through(f"{component.id}:past", start, bypass[0], numbers, component.id)
        opens = draft.ledger.trait(component, "opens", "coolant-thermostat-opens").value
        span = draft.ledger.default(component.id, "thermostat-span").value
        least = draft.ledger.default(component.id, "thermostat-leak").value
        draft.thermostats.append(Thermostat(component.id, start, warm, cold, opens, span, least))
        draft.held.clear()


def heater(draft: Draft, component: Component) -> None:
    """A small core in the cabin; its heat is left out, on the safe side.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "in"), draft.ports(component, "out")
    if ins and outs:
        numbers = rated(draft, component, "heater-drop", _SMALL, 0.1)
        draft.through(f"{component.id}:core", ins[0], outs[0], numbers, component.id)


def turbo(draft: Draft, component: Component) -> None:
    """The water way of a turbo.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "water-in"), draft.ports(component, "water-out")
    if not ins or not outs:
        return
    drop = draft.ledger.default(component.id, "turbo-water-drop").value
    at = draft.fluid
    numbers = rated_loss(drop, 6e-3 / 60.0, at.density(363.15), at.viscosity(363.15), 0.1)
    link = draft.through(f"{component.id}:water", ins[0], outs[0], numbers, component.id)
    share = draft.ledger.default(component.id, "turbo-water-heat")
    if draft.case.is_running:
        power = share.value * draft.case.engine.power.value * load(draft)
        draft.heats.append(Heat(link, component.id, power, 0.5, 2.0))


def header(draft: Draft, component: Component) -> None:
    """A header tank under its cap: it feeds from its level, and bleeds end in it.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    outs = draft.ports(component, "feed")
    ins = draft.ports(component, "bleed", "in")
    place, size = component.place, component.size
    level = None
    share = 1.0 - draft.ledger.default(component.id, "header-air").value
    if place is not None and size is not None:
        x, y, z = place.at
        level = draft.up((x, y, z + (share - 0.5) * size[2]))
    tank(draft, component, draft.case.ambient, level, outs, ins)
    draft.marks["header"] = component.id


def reservoir(draft: Draft, component: Component) -> None:
    """A reservoir that breathes.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    outs = draft.ports(component, "out")
    ins = draft.ports(component, "in", "bleed")
    level = level_of(draft, component, "reservoir-level")
    cap = number(component, "cap") or 0.0
    pressure = draft.case.ambient + (0.0 if draft.case.state == "cold" else 0.2 * cap)
    tank(draft, component, pressure, level, outs, ins)


def exchanger(draft: Draft, component: Component) -> None:
    """The core in the air that cools the charge coolant; it bleeds from its inlet side.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    before = f"{component.id}:in"
    draft.gather(component, draft.ports(component, "in", "bleed"), before)
    outs = draft.ports(component, "out")
    if not outs:
        return
    numbers = rated(draft, component, "charge-water-drop", CHARGE, 0.2)
    link = draft.through(f"{component.id}:core", before, outs[0], numbers, component.id)
    core(
        draft,
        component,
        link,
        heat=charge_heat(draft),
        difference="exchanger-difference",
        flow=CHARGE.value,
        area="radiator-area",
        split="split-radiator",
        power="power-turbulent",
    )


def charge_heat(draft: Draft) -> float:
    """Return the heat of the charge at full power over what it is cooled to. [W]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.

    Returns
    -------
    float
        The heat of the charge at full power over what it is cooled to. [W]
    """
    case = draft.case
    flow = full_air(draft.car, case, draft.ledger)
    boost = case.boost or draft.ledger.default("full-power", "boost").value
    good = rule("R64").value
    hot = compressed(308.15, 1.0 + boost / case.ambient, good)
    return flow * 1006.0 * rule("R67").value * max(5.0, hot - 333.15)


def oil_cooler(draft: Draft, component: Component) -> None:
    """The coolant side of a cooler of oil.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "water-in"), draft.ports(component, "water-out")
    if not ins or not outs:
        return
    drop = draft.ledger.default(component.id, "oil-exchanger-drop").value
    at = draft.fluid
    numbers = rated_loss(drop, 20e-3 / 60.0, at.density(363.15), at.viscosity(363.15), 0.2)
    link = draft.through(f"{component.id}:water", ins[0], outs[0], numbers, component.id)
    draft.cores.append(water_core(draft, component, link, is_first=True))


def charge_cooler(draft: Draft, component: Component) -> None:
    """The water side of a charge cooler; it bleeds from its outlet side.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins = draft.ports(component, "water-in")
    after = f"{component.id}:water-side"
    draft.gather(component, draft.ports(component, "water-out", "bleed"), after)
    if not ins:
        return
    numbers = rated(draft, component, "charge-water-drop", CHARGE, 0.2)
    link = draft.through(f"{component.id}:water", ins[0], after, numbers, component.id)
    made_core = charge_core(draft, component, link, is_first=False)
    draft.cores.append(made_core)


def charge_core(draft: Draft, component: Component, link: str, is_first: bool) -> Core:
    """Return one side of a charge cooler, whose other side is in another system.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    link : str
        The link that flows through it.
    is_first : bool
        Whether it is the air side.

    Returns
    -------
    Core
        One side of a charge cooler, whose other side is in another system.
    """
    flow = full_air(draft.car, draft.case, draft.ledger)
    cp = air_itself().heat_capacity(330.0)
    gas = Side(flow, cp, 420.0, heat_figure("power-air").value)
    water = Side(CHARGE.value * 1030.0, 3600.0, 320.0, heat_figure("power-turbulent").value)
    give = 'effectiveness = "85 %" on the charge cooler'
    good = draft.ledger.note(component.id, rule("R67"), give)
    typed = number(component, "effectiveness")
    if typed is not None:
        good = Figure(typed, "-", Grade.STATED, "effectiveness as typed")
    made = from_effectiveness(
        good, Arrangement.CROSS, gas, water, heat_figure("split-charge-to-water").value
    )
    return Core(link, component.id, made, None, draft.case.air, is_first)
