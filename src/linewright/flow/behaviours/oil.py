# SPDX-License-Identifier: Apache-2.0
"""Oil: pumps with their relief, filters with a bypass, thermostats, coolers, bearings, turbos."""

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Component
from linewright.flow.behaviours.ways import HOT_OIL, core, level_of, rated, tank
from linewright.flow.defaults import number
from linewright.flow.draft import Draft, Heat, Thermostat
from linewright.flow.holes import rated_loss
from linewright.flow.lines import inertial
from linewright.flow.network import Displacement, Orifice, Relief
from linewright.flow.pumps import slip
from linewright.tables.fluids import loss
from linewright.tables.rules import rule

#: What a usual oil has at 100 °C, for figures that no oil is said with. [kg/m3], [m2/s]
TEST = (830.0, 14e-6)


def demand(draft: Draft) -> Figure:
    """Return the oil that the engine takes at rated speed, hot. [m3/s]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.

    Returns
    -------
    Figure
        The oil that the engine takes at rated speed, hot. [m3/s]
    """
    engine = draft.case.engine
    found = draft.car.components.get(engine.id)
    typed = number(found, "oil-demand") if found else None
    if typed is not None:
        return Figure(typed, "m3/s", Grade.STATED, "oil-demand as typed")
    per = rule("R47")
    power = engine.power.value
    figure = Figure(
        per.value * power,
        "m3/s",
        per.grade,
        "oil that the engine takes at rated speed",
        (per.low or per.value) * power,
        (per.high or per.value) * power,
    )
    give = f'oil-demand = "{figure.value * 6e4:.0f} L/min" on the engine'
    return draft.ledger.note(engine.id or "engine", figure, give)


def working(draft: Draft) -> float:
    """Return the oil pressure over ambient that the engine is meant for. [Pa]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.

    Returns
    -------
    float
        The oil pressure over ambient that the engine is meant for. [Pa]
    """
    found = draft.car.components.get(draft.case.engine.id)
    typed = number(found, "oil-pressure") if found else None
    if typed is not None:
        return typed
    give = 'oil-pressure = "5 bar" on the engine'
    return draft.ledger.note(draft.case.engine.id or "engine", rule("R49"), give).value


def share_of_speed(draft: Draft) -> float:
    """Return the speed of the engine over its rated one. [-]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.

    Returns
    -------
    float
        The speed of the engine over its rated one. [-]
    """
    return draft.case.speed / draft.case.engine.rated.value


def heat(draft: Draft, name: str) -> Figure:
    """Return what the engine gives to its oil as a share of full power, noted. [-]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    name : str
        What the note is of.

    Returns
    -------
    Figure
        What the engine gives to its oil as a share of full power, noted. [-]
    """
    return draft.ledger.note(name, rule("R48"), "a measured oil temperature")


def load(draft: Draft) -> float:
    """Return the share of full power by which the engine heats. [-]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.

    Returns
    -------
    float
        The share of full power by which the engine heats. [-]
    """
    if not draft.case.is_firing:
        return 0.0
    return max(draft.case.load, draft.ledger.default("engine", "idle-heat").value)


def engine(draft: Draft, component: Component) -> None:
    """Gallery and bearings, from what feeds them to the sump; the engine's own pump.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    name = component.id
    feed = draft.ports(component, "oil-in", "oil-feed")
    outs = draft.ports(component, "oil-out")
    plates = [
        c
        for c in draft.car.components.values()
        if c.kind == "filter take-off plate" and c.on and c.on.startswith(f"{name}.")
    ]
    taken = [p for c in plates for p in draft.ports(c, "OUT")]
    given = [p for c in plates for p in draft.ports(c, "IN")]
    gallery = f"{name}:gallery"
    sump = draft.fix(f"{name}:sump", draft.case.ambient)
    draft.pools[sump] = f"{name}:sump"
    wants, holds = demand(draft), working(draft)
    dense, thick = draft.fluid.density(HOT_OIL), draft.fluid.viscosity(HOT_OIL)
    part = draft.ledger.default(name, "bearing-share").value
    numbers = rated_loss(holds, wants.value, dense, thick, part)
    bearings = draft.through(f"{name}:bearings", gallery, sump, numbers, name)
    draft.doubt("oil demand", bearings, wants)
    draft.marks["gallery"] = gallery
    draft.marks["bearings"] = bearings
    draft.ledger.default(name, "film-rise")
    share = heat(draft, name)
    power = draft.case.engine.power.value * share.value * load(draft)
    bounds = ((share.low or share.value) / share.value, (share.high or share.value) / share.value)
    if power > 0.0:
        draft.heats.append(Heat(bearings, name, power, *bounds))
    draft.sinks[sump] = draft.ledger.default(name, "sump-loss").value
    if outs or taken:
        source = f"{name}:oil-pump"
        _stage(draft, component, (sump, source), wants)
        draft.gather(component, (*outs, *taken), source)
    draft.gather(component, (*feed, *given), gallery)
    draft.gather(component, draft.ports(component, "turbo-feed"), gallery)
    # An engine whose sump is no component of its own is scavenged where its ports are.
    for port in draft.ports(component, "scavenge"):
        level = draft.fix(f"{port}:level", draft.case.ambient, draft.height(port))
        draft.pools[level] = f"{name}:sump"
        loss_in = (0.0, inertial(loss("entry-sharp").value, draft.bore_at(port)))
        draft.through(f"{port}:entry", level, port, loss_in, name)


def _stage(draft: Draft, owner: Component, ends: tuple[str, str], wants: Figure) -> None:
    """A pressure stage and its relief valve, back to its inlet."""
    name, ledger = owner.id, draft.ledger
    rated_speed = draft.case.engine.rated.value
    ratio = number(owner, "ratio") or (0.5 if owner.kind != "engine" else 1.0)
    per_turn = number(owner, "pressure-displacement")
    if owner.kind != "engine" and per_turn is None:
        per_turn = number(owner, "displacement")
    typed = number(owner, "flow") if owner.kind != "engine" else None
    if per_turn is not None:
        moved = Figure(per_turn * rated_speed * ratio, "m3/s", Grade.STATED, "as typed")
    elif typed is not None:
        moved = Figure(typed, "m3/s", Grade.STATED, f"flow of {name}")
    else:
        surplus = ledger.default(name, "oil-pump-surplus")
        value = surplus.value
        low, high = surplus.low or value, surplus.high or value
        moved = Figure(
            wants.value * value,
            "m3/s",
            Grade.PRACTICE,
            "displaced flow",
            (wants.low or wants.value) * low,
            (wants.high or wants.value) * high,
        )
    holds = working(draft)
    over = ledger.default(name, "relief-override").value
    opens = _opens(draft, owner, holds, over)
    good = ledger.default(name, "oil-pump-efficiency").value
    turns = rated_speed * ratio
    size = moved.value / turns
    fluid = draft.fluid
    mu = fluid.density(HOT_OIL) * fluid.viscosity(HOT_OIL)
    leak = slip(size, turns, good, holds, mu, name)
    pump = f"{name}:pressure-stage"
    turning = 0.0 if name in draft.case.off else draft.case.speed * ratio
    draft.join(Displacement(pump, *ends, size, turning, leak), name)
    # A wide demand and the pump that is made for it go together: one doubt for both.
    draft.doubt("oil demand", pump, wants if per_turn is None and typed is None else moved)
    relief = f"{name}:relief"
    draft.join(Relief(relief, ends[1], ends[0], opens, over * opens, moved.value), name)
    draft.marks["pump inlet"] = ends[0]
    draft.marks["pressure stage"] = pump
    draft.marks["relief"] = relief


def _opens(draft: Draft, owner: Component, holds: float, over: float) -> float:
    """Pressure at which the relief valve opens. [Pa]

    In an engine it is what the engine works at. On a pump outside it is set by hand, so that
    the highest pressure of the system, where it is typed, is what it holds when all goes by it.
    """
    typed = number(owner, "relief-opens")
    if typed is not None:
        return typed
    if owner.kind == "engine":
        return holds
    give = f'relief-opens = "6 bar" on {owner.id}'
    highest = draft.system.gauge_pressure
    if highest is not None:
        what = "opening of the relief valve, so that it holds the highest pressure as typed"
        figure = Figure(highest.value / (1.0 + over), "Pa", Grade.PRACTICE, what)
        return draft.ledger.note(owner.id, figure, give).value
    return draft.ledger.default(owner.id, "dry-sump-relief").value


def pump(draft: Draft, component: Component) -> None:
    """A dry-sump pump: one pressure stage, and scavenge stages that draw oil with air.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    inlet = draft.ports(component, "inlet")
    outlet = draft.ports(component, "pressure")
    wants = demand(draft)
    if inlet and outlet:
        _stage(draft, component, (inlet[0], outlet[0]), wants)
    ins = draft.ports(component, "scavenge", "scavenge-in")
    outs = draft.ports(component, "scavenge-out")
    if not ins or not outs:
        return
    give = "scavenge-displacement of the pump, in a turn of all stages"
    ratio = draft.ledger.note(component.id, rule("R40"), give)
    rated_speed = draft.case.engine.rated.value
    surplus = draft.ledger.default(component.id, "oil-pump-surplus").value
    turn = number(component, "scavenge-displacement")
    drive = number(component, "ratio") or 0.5
    whole = turn * drive * rated_speed if turn else ratio.value * surplus * wants.value
    turning = 0.0 if component.id in draft.case.off else draft.case.speed * drive
    speed = rated_speed * drive
    draft.scavenged = whole * share_of_speed(draft)
    for port in ins:
        size = whole / speed / len(ins)
        name = f"{port}:stage"
        mu = 0.5 * draft.fluid.density(HOT_OIL) * draft.fluid.viscosity(HOT_OIL)
        draft.join(
            Displacement(name, port, outs[0], size, turning, slip(size, speed, 0.95, 1e5, mu)),
            component.id,
        )
        draft.mixed[name] = 1.0


def dry_tank(draft: Draft, component: Component) -> None:
    """An open tank at its level.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    outs = draft.ports(component, "feed")
    ins = draft.ports(component, "return")
    level = level_of(draft, component, "oil-level")
    tank(draft, component, draft.case.ambient, level, outs, ins)


def sump(draft: Draft, component: Component) -> None:
    """What drains into a sump is drawn from it; it shares its oil with the engine.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    engine_id = draft.case.engine.id or component.id
    for port in draft.ports(component, "scavenge", "return"):
        name = draft.fix(f"{port}:level", draft.case.ambient, draft.height(port))
        draft.pools[name] = f"{engine_id}:sump"
        bore = draft.bore_at(port)
        if "return" in port:
            draft.through(f"{port}:exit", port, name, (0.0, inertial(1.0, bore)), component.id)
        else:
            draft.through(f"{port}:entry", name, port, (0.0, inertial(0.5, bore)), component.id)


def filter_of(
    draft: Draft, component: Component, whose: Component | None, before: str, after: str
) -> None:
    """An element with its bypass, between two nodes.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    whose : Component or None
        What has the element, where that is another part.
    before : str
        Node before it.
    after : str
        Node after it.
    """
    source = whose or component
    share = draft.ledger.default(source.id, "filter-share").value
    numbers = rated(draft, source, "oil-filter-drop", "oil-filter-flow", share)
    name = f"{source.id}:element"
    draft.through(name, before, after, numbers, source.id)
    draft.marks[f"filter {source.id}"] = name
    said = " ".join(str(c.traits.get("bypass", "")) for c in (component, source)).strip()
    if said.casefold().startswith("none"):
        return
    opens = draft.ledger.trait(source, "bypass-opens", "filter-bypass-opens").value
    flow = number(source, "rated-flow") or draft.ledger.default(source.id, "oil-filter-flow").value
    bypass = f"{source.id}:bypass"
    draft.join(Relief(bypass, before, after, opens, 0.5 * opens, flow), source.id)
    draft.marks[f"bypass {source.id}"] = bypass


def head(draft: Draft, component: Component) -> None:
    """A remote head: both inlets, the canister on its stud, both outlets.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    before, after = f"{component.id}:before", f"{component.id}:after"
    draft.gather(component, draft.ports(component, "in-L", "in-R", "in"), before)
    draft.gather(component, draft.ports(component, "out-L", "out-R", "out"), after)
    can = next(
        (
            c
            for c in draft.car.components.values()
            if c.kind == "filter canister" and c.on and c.on.startswith(f"{component.id}.")
        ),
        None,
    )
    filter_of(draft, component, can, before, after)


def inline_filter(draft: Draft, component: Component) -> None:
    """A filter in the line.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins, outs = draft.ports(component, "in"), draft.ports(component, "out")
    if ins and outs:
        filter_of(draft, component, None, ins[0], outs[0])


def thermostat(draft: Draft, component: Component) -> None:
    """Two ways: by the cooler when warm, past it when cold.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ends = [
        draft.ports(component, n) for n in ("engine-in", "engine-out", "cooler-out", "cooler-in")
    ]
    if not ends[0] or not ends[1]:
        return
    start, back = ends[0][0], ends[1][0]
    drop = draft.ledger.trait(component, "rated-drop", "oil-thermostat-drop").value
    numbers = rated_loss(drop, number(component, "rated-flow") or 40e-3 / 60.0, *TEST, 0.3)
    cold = draft.through(f"{component.id}:past", start, back, numbers, component.id)
    if not ends[2] or not ends[3]:
        return
    warm = draft.through(f"{component.id}:to-cooler", start, ends[2][0], numbers, component.id)
    draft.small(
        f"{component.id}:from-cooler",
        ends[3][0],
        back,
        draft.bore_at(ends[3][0]),
        0.5,
        component.id,
    )
    opens = draft.ledger.trait(component, "opens", "oil-thermostat-opens").value
    span = draft.ledger.default(component.id, "thermostat-span").value
    least = draft.ledger.default(component.id, "thermostat-leak").value
    draft.thermostats.append(Thermostat(component.id, start, warm, cold, opens, span, least))
    draft.marks[f"thermostat {component.id}"] = cold


def cooler(draft: Draft, component: Component) -> None:
    """A core in the air.

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
    share = draft.ledger.default(component.id, "core-share").value
    numbers = rated(draft, component, "oil-cooler-drop", "oil-cooler-flow", share)
    link = draft.through(f"{component.id}:core", ins[0], outs[0], numbers, component.id)
    core(
        draft,
        component,
        link,
        heat=draft.case.engine.power.value * heat(draft, draft.case.engine.id or "engine").value,
        difference="oil-difference",
        flow=demand(draft).value,
        area="cooler-area",
        split="split-oil-to-air",
        power="power-laminar",
    )


def screen(draft: Draft, component: Component) -> None:
    """A screen before a scavenge stage.

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
    k = draft.ledger.default(component.id, "screen-loss").value
    bore = draft.bore_at(ins[0])
    draft.small(f"{component.id}:screen", ins[0], outs[0], bore, k, component.id)


def turbo(draft: Draft, component: Component) -> None:
    """The oil way of a turbo, like a hole, into its drain, which is open to the crankcase.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    """
    ins = draft.ports(component, "oil-in")
    if not ins:
        return
    name = (
        "turbo-hole-journal" if component.traits.get("bearing") == "journal" else "turbo-hole-ball"
    )
    hole = draft.ledger.trait(component, "oil-hole", name).value
    out = draft.fix(f"{component.id}:drain", draft.case.ambient, draft.height(ins[0]))
    draft.pools[out] = f"{draft.case.engine.id or component.id}:sump"
    rounded, slow = loss("hole-rounded"), loss("hole-slow")
    link = f"{component.id}:bearing"
    draft.join(Orifice(link, ins[0], out, hole, rounded.value, 0.0, slow.value), component.id)
    draft.marks[f"turbo {component.id}"] = link
