# SPDX-License-Identifier: Apache-2.0
"""What many kinds share: tanks, rated losses, pump curves, cores in air, small parts."""

from linewright.base import units
from linewright.base.dimensions import GRAVITY
from linewright.base.errors import FlowError
from linewright.base.evidence import Figure, Grade
from linewright.car.kinds import kind
from linewright.car.model import Component, Medium
from linewright.flow.defaults import number
from linewright.flow.draft import Core, Draft
from linewright.flow.exchangers import Arrangement, Exchanger, Side, from_test
from linewright.flow.fluids import air as air_itself
from linewright.flow.holes import rated_loss
from linewright.flow.lines import inertial
from linewright.flow.network import Centrifugal, Check, Orifice
from linewright.flow.pumps import curve, head_of
from linewright.tables.fluids import heat_figure, loss

#: Temperature at which drops of oil parts are rated. [K]
HOT_OIL = 373.15
_WARM = 363.15


def rated(
    draft: Draft, component: Component, drop: str, flow: Figure | str, share: float
) -> tuple[float, float]:
    """Return the loss of a part by its rated drop and flow.

    Parameters
    ----------
    draft : Draft
        The network.
    component : Component
        May say ``rated-drop`` and ``rated-flow``.
    drop : str
        Name of the default drop.
    flow : Figure or str
        Flow that the default drop is at, or its name. [m3/s]
    share : float
        Of the drop that grows with viscosity. [-]

    Returns
    -------
    tuple of float
        Viscous [1/m3] and inertial [1/m4].
    """
    lost = draft.ledger.trait(component, "rated-drop", drop).value
    typed = number(component, "rated-flow")
    if typed is None:
        usual = draft.ledger.default(component.id, flow) if isinstance(flow, str) else flow
        typed = usual.value
    at = HOT_OIL if draft.medium is Medium.OIL else min(_WARM, 293.15 if _is_fuel(draft) else _WARM)
    fluid = draft.fluid
    pressure = 101325.0 + draft.case.boost if fluid.is_gas else 101325.0
    return rated_loss(
        lost, typed, fluid.density(at, pressure), fluid.viscosity(at, pressure), share
    )


def _is_fuel(draft: Draft) -> bool:
    return draft.medium is Medium.FUEL


def tank(
    draft: Draft,
    component: Component,
    pressure: float,
    level: float | None,
    outs: tuple[str, ...],
    ins: tuple[str, ...],
) -> None:
    """Add a tank: its outlets draw from its level, its inlets end above or under it.

    Parameters
    ----------
    draft : Draft
        The network.
    component : Component
        The tank.
    pressure : float
        Over its fluid, absolute. [Pa]
    level : float or None
        Height of the fluid as the condition has it [m]; None where it is not known, and then
        outlets stand at it.
    outs, ins : tuple of str
        Ports of both kinds.
    """
    dense = draft.fluid.density(_usual(draft))
    k_out, k_in = loss("entry-sharp").value, loss("exit").value
    for port in outs:
        name = draft.fix(f"{port}:level", pressure, draft.height(port) if level is None else level)
        draft.pools[name] = component.id
        bore = draft.bore_at(port)
        draft.through(f"{port}:entry", name, port, (0.0, inertial(k_out, bore)), component.id)
    for port in ins:
        own = draft.height(port)
        depth = max(0.0, level - own) if level is not None and own is not None else 0.0
        name = draft.fix(f"{port}:level", pressure + dense * GRAVITY * depth, own)
        draft.pools[name] = component.id
        bore = draft.bore_at(port)
        draft.through(f"{port}:exit", port, name, (0.0, inertial(k_in, bore)), component.id)


def _usual(draft: Draft) -> float:
    limits = draft.fluid.limits
    return min(max(draft.case.air, limits.coldest), limits.hottest)


def level_of(draft: Draft, component: Component, name: str) -> float | None:
    """Return the height of the fluid in a tank. [m]

    Parameters
    ----------
    draft : Draft
        The network.
    component : Component
        The tank; ``level`` is the height in the car.
    name : str
        Default share of its height that is full.

    Returns
    -------
    float or None
        None where the tank has no place.
    """
    typed = number(component, "level")
    place, size = component.place, component.size
    if typed is not None:
        at = place.at if place is not None else (0.0, 0.0, 0.0)
        return draft.up((at[0], at[1], typed))
    if place is None or size is None:
        return None
    share = draft.ledger.default(component.id, name).value
    x, y, z = place.at
    floor = {"foot": z, "top": z - size[2]}.get(place.anchor, z - 0.5 * size[2])
    return draft.up((x, y, floor + share * size[2]))


def points(text: str, where: str) -> list[tuple[float, float]]:
    """Read the curve of a pump: flows [m3/s] and rises [Pa].

    Parameters
    ----------
    text : str
        E.g. ``0 L/min at 0.6 bar, 60 L/min at 0.4 bar, 110 L/min at 0 bar``.
    where : str
        Whose it is, for what is said of it.

    Returns
    -------
    list of tuple
        Flow and rise of each point.

    Raises
    ------
    FlowError
        If it cannot be read.

    Examples
    --------
    >>> [(round(q * 6e4), p) for q, p in points("0 L/min at 1 bar, 60 L/min at 0.5 bar", "pump")]
    [(0, 100000.0), (60, 50000.0)]
    """
    found = []
    for item in text.split(","):
        flow, _, rise = item.partition(" at ")
        try:
            found.append((units.flow(flow.strip()), units.pressure_difference(rise.strip())))
        except ValueError as error:
            raise FlowError(
                f'{where}: "{item.strip()}" is no point of a pump curve. Write each as a flow at a '
                'pressure, as in "0 L/min at 0.6 bar, 60 L/min at 0.4 bar, 110 L/min at 0 bar".'
            ) from error
    return found


def centrifugal(
    draft: Draft,
    component: Component,
    ends: tuple[str, str],
    free: Figure,
    shut: Figure,
    speed: float,
) -> str:
    """Add a pump that throws, by its curve or by its free flow and its shut pressure.

    Parameters
    ----------
    draft : Draft
        The network.
    component : Component
        May say ``curve``.
    ends : tuple of str
        Its inlet and outlet.
    free, shut : Figure
        Flow against nothing [m3/s], rise without flow [Pa].
    speed : float
        Over that of its curve. [-]

    Returns
    -------
    str
        The link.
    """
    typed = component.traits.get("curve")
    dense = draft.fluid.density(min(max(333.15, draft.fluid.limits.coldest), 373.15))
    if isinstance(typed, str):
        given = points(typed, component.id)
    else:
        half = 0.5 * free.value
        given = [(0.0, shut.value), (half, 0.75 * shut.value), (free.value, 0.0)]
    fitted = curve([(q, head_of(p, dense)) for q, p in given], component.id)
    name = f"{component.id}:pump"
    draft.join(Centrifugal(name, *ends, (fitted.a0, fitted.a1, fitted.a2), speed), component.id)
    if not isinstance(typed, str):
        draft.doubt(f"{component.id} free flow", name, free)
    return name


def electric_speed(draft: Draft, component: Component) -> float:
    """Return the speed of an electric pump over its rated one, by the voltage. [-]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.

    Returns
    -------
    float
        The speed of an electric pump over its rated one, by the voltage. [-]
    """
    if component.id in draft.case.off:
        return 0.0
    return draft.case.voltage / draft.ledger.trait(component, "rated-voltage", "pump-voltage").value


def core_air(draft: Draft, component: Component, area: str, has_fan: bool) -> tuple[float, float]:
    """Return the air that goes through a core: in the condition, and rated [kg/s].

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part.
    area : str
        Name of the default of its face.
    has_fan : bool
        Whether such cores have a fan.

    Returns
    -------
    tuple[float, float]
        The air that goes through a core: in the condition, and rated [kg/s].
    """
    case = draft.case
    size = component.size
    if size is not None:
        widest = sorted(size)
        face = widest[1] * widest[2]
    else:
        face = draft.ledger.default(component.id, area).value
    share = draft.ledger.default(component.id, "core-speed").value
    driven = share * case.car_speed
    fan = has_fan and component.traits.get("fan") is not False and component.id not in case.off
    still = draft.ledger.default(component.id, "fan-speed" if fan else "still-speed").value
    dense = air_itself().density(case.air, case.ambient)
    rated_speed = share * 40.0
    return face * max(driven, still) * dense, face * rated_speed * 1.15


def core(
    draft: Draft,
    component: Component,
    link: str,
    *,
    heat: float,
    difference: str,
    flow: float,
    area: str,
    split: str,
    power: str,
    has_fan: bool = False,
) -> None:
    """Make a link give off heat to the air that goes through a core.

    Parameters
    ----------
    draft : Draft
        The network.
    component : Component
        May say ``rated-heat`` with ``rated-difference`` of its inlets.
    link : str
        The link that flows through it.
    heat : float
        What one that fits its engine gives off. [W]
    difference : str
        Default difference of the inlets at which it does.
    flow : float
        Of the liquid at which it does. [m3/s]
    area : str
        Default of its face.
    split, power : str
        Share of the resistance on its air side, and power of the liquid's flow.
    has_fan : bool
        Whether such cores have a fan.
    """
    fluid, case = draft.fluid, draft.case
    apart = draft.ledger.trait(component, "rated-difference", difference).value
    gives = number(component, "rated-heat")
    if gives is None:
        figure = Figure(
            heat, "W", Grade.PRACTICE, f"heat that {component.id} gives off at {apart:.0f} K"
        )
        draft.ledger.note(
            component.id, figure, f'rated-heat = "{heat / 1e3:.0f} kW" on {component.id}'
        )
        gives = heat
    now, tested = core_air(draft, component, area, has_fan)
    at = min(max(case.air + apart, fluid.limits.coldest), fluid.limits.hottest)
    rate = number(component, "rated-flow") or flow
    cp = air_itself().heat_capacity(300.0)
    liquid = Side(
        rate * fluid.density(at), fluid.heat_capacity(at), 308.15 + apart, heat_figure(power).value
    )
    # A core that is too small for its heat at the usual air gets as much air as it needs.
    least = max(tested, 1.25 * gives / (cp * apart))
    gas = Side(least, cp, 308.15, heat_figure("power-air").value)
    made = _exchanger(gas, liquid, gives, heat_figure(split).value, component.id)
    air_flow = now * least / tested
    draft.cores.append(Core(link, component.id, made, air_flow, case.air))


def _exchanger(gas: Side, liquid: Side, heat: float, share: float, of: str) -> Exchanger:
    low = min(gas.rate, liquid.rate)
    apart = abs(gas.inlet - liquid.inlet)
    most = 0.9 * low * apart
    return from_test(Arrangement.CROSS, gas, liquid, min(heat, most), share, of)


def small_part(draft: Draft, component: Component) -> None:
    """Join all live ports of a part that does nothing but pass: unions, tees, blocks, sensors.

    Parameters
    ----------
    draft : Draft
        The network.
    component : Component
        The part.
    """
    ports = tuple(p for p in component.ports if f"{component.id}.{p}" in draft.live)
    if len(ports) < 2:
        return
    middle = f"{component.id}:middle"
    name = kind(component.kind).name
    for port in ports:
        full = f"{component.id}.{port}"
        if name in ("tee", "Y block"):
            k = loss("tee-branch" if port in ("branch", "out-2") else "tee-run").value
            k *= 0.5 if name == "Y block" else 1.0
        elif name == "bulkhead":
            k = 0.5 * loss("union").value
        else:
            k = draft.ledger.default(component.id, "part-loss").value
        draft.small(f"{full}:way", full, middle, draft.bore_at(full), k, component.id)


def check_valve(draft: Draft, component: Component) -> None:
    """Add a valve that lets nothing back.

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
    k = draft.ledger.default(component.id, "check-valve-loss").value
    opens = draft.ledger.default(component.id, "check-valve-opens").value
    law = inertial(k, draft.bore_at(ins[0]))
    draft.join(Check(f"{component.id}:valve", ins[0], outs[0], 0.0, law, opens), component.id)


def restrictor(draft: Draft, component: Component) -> None:
    """Add a hole of its own bore; without that it passes as a small part does.

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    component : Component
        The part; ``bore`` is that of its hole.
    """
    bore = number(component, "bore")
    ins, outs = draft.ports(component, "in"), draft.ports(component, "out")
    if bore is None or not ins or not outs:
        small_part(draft, component)
        return
    ratio = min(0.95, bore / draft.bore_at(ins[0]))
    rounded, slow = loss("hole-rounded").value, loss("hole-slow").value
    hole = Orifice(f"{component.id}:hole", ins[0], outs[0], bore, rounded, ratio, slow)
    draft.join(hole, component.id)
