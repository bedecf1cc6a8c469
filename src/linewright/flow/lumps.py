# SPDX-License-Identifier: Apache-2.0
"""What of a system holds heat: the fluid in lines and parts, their metal, engine, turbo, ice."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from math import pi

from linewright.car.model import Car, Component, Medium
from linewright.flow.build import Built
from linewright.flow.defaults import Ledger, number
from linewright.tables.fluids import heat_figure


@dataclass(frozen=True, slots=True)
class Metal:
    """Metal that a link's fluid cools: it is heated in place of the fluid.

    ``capacity`` [J/K], ``conductance`` to the fluid behind the link [W/K], ``to_air`` what it
    gives to the air at rest [W/K]. ``of`` says what it is of.
    """

    id: str
    link: str
    of: str
    capacity: float
    conductance: float
    to_air: float


@dataclass(frozen=True, slots=True)
class Ice:
    """Ice in a tank: its mass [kg], and what it takes up for each kelvin of the fluid [W/K]."""

    where: str
    mass: float
    conductance: float


@dataclass(frozen=True, slots=True)
class Masses:
    """All that holds heat in a system.

    ``volumes`` of fluid [m3] and ``solids``, metal as warm as it [J/K], by node; nodes of one
    pool count as one. ``metals`` have temperatures of their own. ``bridge`` is what passes from
    what the coolant of an engine warms to what its oil warms [W/K]. ``warms`` is what a node is
    given while the engine runs [W], ``sinks`` what it gives to the air [W/K], both by node.
    ``pump_good`` is the share of a pump's power that moves the fluid: the rest warms it [-].
    """

    volumes: Mapping[str, float]
    solids: Mapping[str, float]
    metals: tuple[Metal, ...]
    ice: tuple[Ice, ...] = ()
    bridge: float = 0.0
    warms: Mapping[str, float] = field(default_factory=dict)
    sinks: Mapping[str, float] = field(default_factory=dict)
    pump_good: float = 1.0


#: By kind of component and name of its link: fluid in it, the share of that link, and metal.
_LINKS: Mapping[tuple[str, str], tuple[str, float, str]] = {
    ("engine", "block"): ("engine-coolant", 0.5, ""),
    ("engine", "head"): ("engine-coolant", 0.5, ""),
    ("radiator", "core"): ("radiator-coolant", 1.0, "radiator-metal"),
    ("heater", "core"): ("heater-coolant", 1.0, ""),
    ("turbo", "water"): ("turbo-coolant", 1.0, ""),
    ("oil cooler", "core"): ("oil-cooler-oil", 1.0, "oil-cooler-metal"),
    ("oil-water exchanger", "oil"): ("oil-cooler-oil", 1.0, "oil-cooler-metal"),
    ("oil-water exchanger", "water"): ("oil-exchanger-coolant", 1.0, ""),
    ("inline oil filter", "element"): ("oil-filter-oil", 1.0, ""),
    ("remote filter head", "element"): ("oil-filter-oil", 1.0, ""),
    ("filter canister", "element"): ("oil-filter-oil", 1.0, ""),
    ("charge cooler", "water"): ("charge-cooler-water", 1.0, "charge-cooler-metal"),
    ("charge-coolant exchanger", "core"): ("exchanger-water", 1.0, "exchanger-metal"),
    ("intercooler", "air"): ("", 0.0, "intercooler-metal"),
}
#: By kind of tank: its volume where none is typed, and the share that is full.
_TANKS: Mapping[str, tuple[str, str]] = {
    "dry-sump tank": ("dry-tank-volume", "oil-level"),
    "header tank": ("header-volume", "header-air"),
    "charge-coolant reservoir": ("reservoir-volume", "reservoir-level"),
    "fuel cell": ("fuel-cell-volume", "fuel-level"),
    "in-tank fuel pump": ("fuel-cell-volume", "fuel-level"),
}


def lumps(car: Car, built: Built, ledger: Ledger) -> Masses:
    """Find what holds heat in a system.

    Parameters
    ----------
    car : Car
        The car document as read.
    built : Built
        The system at full power, so that all that is heated has its heat.
    ledger : Ledger
        Takes a note of what stands in.

    Returns
    -------
    Masses
        Walls of hoses and pipes are left out, which is on the safe side.
    """
    volumes: dict[str, float] = defaultdict(float)
    solids: dict[str, float] = defaultdict(float)
    light = heat_figure("aluminium-heat").value
    for link in built.network.links:
        volume = solid = 0.0
        if link.id in built.ways:
            stretches = built.ways[link.id].stretches
            volume = sum(0.25 * pi * s.bore.value**2 * s.length for s in stretches)
        owner = next((car.components[w] for w in built.where[link.id] if w in car.components), None)
        if owner is not None:
            name, share, metal = _LINKS.get((owner.kind, link.id.rpartition(":")[2]), ("", 0.0, ""))
            volume += share * _held(owner, name, ledger) if name else 0.0
            solid = ledger.default(owner.id, metal).value * light if metal else 0.0
        for end in (link.a, link.b):
            volumes[end] += 0.5 * volume
            solids[end] += 0.5 * solid
    ice = []
    for node in built.network.nodes:
        name = node.id.removesuffix(":pot")
        if name != node.id and name in car.components:
            volumes[node.id] += _held(car.components[name], "surge-pot-fuel", ledger)
    for pool in dict.fromkeys(built.pools.values()):
        first = next(n for n, p in built.pools.items() if p == pool)
        volumes[first] += _pool(car, built, pool, ledger)
        mass = number(car.components[pool], "ice") if pool in car.components else None
        if mass:
            ice.append(Ice(first, mass, ledger.default(pool, "ice-to-water").value))
    warms, sinks, good = _fuel(car, built, ledger)
    return Masses(
        volumes=volumes,
        solids=solids,
        metals=_metals(car, built, ledger),
        ice=tuple(ice),
        bridge=_bridge(built, ledger),
        warms=warms,
        sinks=sinks,
        pump_good=good,
    )


def _fuel(
    car: Car, built: Built, ledger: Ledger
) -> tuple[dict[str, float], dict[str, float], float]:
    """What warms fuel, and where it gives that off; no other fluid has it."""
    if built.system.medium is not Medium.FUEL:
        return {}, {}, 1.0
    warms = {}
    rail = built.marks.get("rail")
    if rail is not None:
        warms[rail] = ledger.default(rail.partition(":")[0], "rail-heat").value
    cells = {p: n for n, p in built.pools.items() if p in car.components}
    sinks = {node: ledger.default(cell, "cell-to-air").value for cell, node in cells.items()}
    return warms, sinks, ledger.default(built.system.id, "fuel-pump-good").value


def _held(component: Component, name: str, ledger: Ledger) -> float:
    if component.volume is not None:
        return component.volume.value
    return ledger.default(component.id, name).value


def _pool(car: Car, built: Built, pool: str, ledger: Ledger) -> float:
    """Fluid in a tank or a sump. [m3]"""
    tank = car.components.get(pool)
    if tank is None:
        whose = pool.partition(":")[0]
        return ledger.default(whose, "sump-rest" if built.mixed else "engine-oil").value
    volume, share = _TANKS.get(tank.kind, ("", ""))
    if not volume:
        return 0.0
    level = ledger.default(pool, share).value
    return _held(tank, volume, ledger) * (1.0 - level if share == "header-air" else level)


def _metals(car: Car, built: Built, ledger: Ledger) -> tuple[Metal, ...]:
    light, heavy = heat_figure("aluminium-heat").value, heat_figure("iron-heat").value
    rows = {
        ("engine", Medium.COOLANT): ("engine-metal-coolant", light, "metal-over-coolant"),
        ("engine", Medium.OIL): ("engine-metal-oil", heavy, "metal-over-oil"),
        ("turbo", Medium.COOLANT): ("turbo-metal", heavy, "turbo-over-water"),
    }
    found = []
    for heat in built.heats:
        owner = car.components.get(heat.where)
        kind = owner.kind if owner is not None else "engine"
        row = rows.get((kind, built.system.medium))
        if row is None or heat.power <= 0.0:
            continue
        mass, specific, over = row
        whose = heat.where or "engine"
        apart = ledger.default(whose, over).value
        # What the oil of an engine warms is inside of what its coolant warms.
        lost = "turbo-to-air" if kind == "turbo" else "engine-to-air"
        is_outside = kind == "turbo" or built.system.medium is Medium.COOLANT
        found.append(
            Metal(
                id=f"{whose} metal of {built.system.id}",
                link=heat.link,
                of=kind,
                capacity=ledger.default(whose, mass).value * specific,
                conductance=heat.power / apart,
                to_air=ledger.default(whose, lost).value if is_outside else 0.0,
            )
        )
    return tuple(found)


def _bridge(built: Built, ledger: Ledger) -> float:
    if built.system.medium is not Medium.OIL or not built.case.engine.id:
        return 0.0
    return ledger.default(built.case.engine.id, "block-to-sump").value
