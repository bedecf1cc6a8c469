# SPDX-License-Identifier: Apache-2.0
"""From the car document to a network: one system in one condition."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import hypot, pi

from linewright.base.errors import LinewrightError
from linewright.base.evidence import Figure, Grade
from linewright.car.model import Car, Component, Medium, System
from linewright.flow.behaviours.kinds import behave
from linewright.flow.case import Case
from linewright.flow.defaults import Ledger, chosen
from linewright.flow.draft import Core, Doubt, Draft, Heat, Held, Thermostat
from linewright.flow.fittings import Coefficient
from linewright.flow.lines import lay, tube_bore
from linewright.flow.named_fluids import named_fluid
from linewright.flow.network import Network, State
from linewright.flow.properties import Fluid
from linewright.flow.waterway import Stretch, Waterway, waterway
from linewright.joints.model import Joints
from linewright.routes.model import Routes, Run

#: What stands as hot as a hard run left it, in conditions that follow one.
_STANDING = (Medium.OIL, Medium.COOLANT)
#: Services that nothing is pumped through.
_IDLE = {
    "reference": "it carries a pressure, and no flow",
    "vent": "it breathes",
    "drain": "gravity drains it part-full: see its capacity",
    "overflow": "nothing flows in it as a rule",
}


@dataclass(frozen=True, slots=True)
class Sealed:
    """A tank under a cap: its fixed nodes, coolant and air when cold [m3], and its cap [Pa].

    ``least`` and ``most`` are how far the air may be off, by what is assumed of the tank [m3].
    ``assumed`` is the volume that stands in where nobody typed that of the tank.
    """

    where: str
    nodes: tuple[str, ...]
    system: float
    gas: float
    cap: float
    least: float
    most: float
    assumed: Figure | None = None


@dataclass(frozen=True, slots=True)
class Built:
    """A system in a condition, ready to be solved.

    ``where`` has the ids that each link belongs to, ``runs`` the piece of line of each link
    that is one, ``ways`` their bores. ``marks`` name nodes and links by what they are.
    ``mixed`` are links that carry oil with air, and ``scavenged`` what their pumps displace
    [m3/s]. ``left_out`` says why lines are not in it. ``stands`` is the temperature at which all
    of it stands after a hard run, with its range [K]; None where it settles or is cold.
    """

    system: System
    case: Case
    fluid: Fluid
    network: Network
    start: float
    where: Mapping[str, tuple[str, ...]]
    runs: Mapping[str, Run]
    ways: Mapping[str, Waterway]
    heats: tuple[Heat, ...] = ()
    cores: tuple[Core, ...] = ()
    thermostats: tuple[Thermostat, ...] = ()
    held: tuple[Held, ...] = ()
    sinks: Mapping[str, float] = field(default_factory=dict)
    pools: Mapping[str, str] = field(default_factory=dict)
    pinned: Mapping[str, float] = field(default_factory=dict)
    doubts: tuple[Doubt, ...] = ()
    bores: Mapping[str, tuple[str, float, float]] = field(default_factory=dict)
    marks: Mapping[str, str] = field(default_factory=dict)
    mixed: frozenset[str] = frozenset()
    scavenged: float = 0.0
    sealed: Sealed | None = None
    left_out: Mapping[str, str] = field(default_factory=dict)
    volume: float = 0.0
    is_warming: bool = True
    stands: Figure | None = None
    nodes: Mapping[str, str] = field(default_factory=dict)  # port to node
    cut_off: tuple[str, ...] = ()  # ports that their kind does not know, and leads nowhere
    typed: Mapping[str, Figure] = field(default_factory=dict)  # figures of [flow]

    def node(self, port: str) -> str:
        """Return the node of a port."""
        return self.nodes.get(port, port)


@dataclass(frozen=True)
class Ways:
    """The ways of a car by piece, made once for all systems and conditions."""

    found: Mapping[str, Waterway | None]
    runs: Mapping[str, tuple[Run, ...]]
    losses: dict[str, tuple[Coefficient, float]] = field(default_factory=dict)  # as `lay` finds


def ways(car: Car, routes: Routes) -> Ways:
    """Follow all pieces of all lines.

    Parameters
    ----------
    car : Car
        The car document as read.
    routes : Routes
        Its pieces and their courses.

    Returns
    -------
    Ways
        None for a piece whose bore is not known.
    """
    courses = {r.id: r for r in routes.courses}
    by_system: dict[str, list[Run]] = {}
    for run in routes.runs:
        by_system.setdefault(run.system or "", []).append(run)
    found = {run.id: waterway(car, run, courses.get(run.id)) for run in routes.runs}
    return Ways(found, {key: tuple(value) for key, value in by_system.items()})


def build(
    car: Car, joints: Joints, known: Ways, system: System, case: Case, ledger: Ledger
) -> Built:
    """Draw up the network of a system.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What is screwed on what.
    known : Ways
        Of `ways`.
    system : System
        The system.
    case : Case
        The condition.
    ledger : Ledger
        Takes a note of all that stands in.

    Returns
    -------
    Built
        Its network is empty where nothing flows in the system; ``left_out`` says why.
    """
    fluid = named_fluid(system.medium.value, system.fluid)
    draft = Draft(car, system, case, fluid, ledger, losses=known.losses)
    draft.alias = {
        f.ports[0]: f.ports[1] for f in joints.fits if f.how == "on" and len(f.ports) > 1
    }
    pieces = _pieces(car, known, system, draft)
    draft.live = _live(draft, [e.port for run, _ in pieces for e in run.ends])
    volume = 0.0
    for run, way in pieces:
        lay(draft, way, run)
        volume += sum(0.25 * pi * s.bore.value**2 * s.length for s in way.stretches)
    for component in _parts(car, draft):
        behave(draft, component)
    nodes = {port: draft.node(port) for port in draft.live}
    _referred(draft)
    network = Network(draft.nodes(), tuple(draft.links), State(1000.0, 1e-6))
    sealed = _sealed(car, draft, volume)
    start = _start(draft)
    stands = start if case.is_after_run and system.medium in _STANDING else None
    return Built(
        system=system,
        case=case,
        fluid=fluid,
        network=network,
        start=start.value,
        stands=stands,
        where=draft.where,
        runs={run.id: run for run, _ in pieces},
        ways={run.id: way for run, way in pieces},
        heats=tuple(draft.heats),
        cores=tuple(draft.cores),
        thermostats=tuple(draft.thermostats),
        held=tuple(draft.held),
        sinks=draft.sinks,
        pools=draft.pools,
        pinned=draft.pinned,
        doubts=tuple(draft.doubts),
        bores={
            run.id: (draft.marks[run.id], *draft.bores[f"spread {run.id}"]) for run, _ in pieces
        },
        marks=draft.marks,
        mixed=_mixed(draft),
        scavenged=draft.scavenged,
        sealed=sealed,
        left_out=draft.left_out,
        volume=volume,
        is_warming=case.state != "cold"
        and case.is_running
        and system.medium is not Medium.FUEL
        and stands is None,
        nodes=nodes,
        cut_off=draft.cut_off(),
        typed=ledger.typed,
    )


def _pieces(car: Car, known: Ways, system: System, draft: Draft) -> list[tuple[Run, Waterway]]:
    found = []
    for run in known.runs.get(system.id, ()):
        line = car.lines[run.line]
        if line.service in _IDLE and not _overflows(car, line.from_port):
            draft.left_out[line.id] = _IDLE[line.service]
            continue
        way = known.found[run.id]
        if way is None:
            bore = tube_bore(draft, run)
            if bore is None:
                draft.left_out[line.id] = f"the bore of {run.hose} {run.size} is not known"
                continue
            whole = run.string or run.straight
            length = whole.value if whole is not None else 0.0
            way = Waterway(run.id, line.id, (Stretch("hose", (run.id,), bore, length),), whole)
        if way.length is None:
            draft.left_out[line.id] = "its length is not known"
            continue
        found.append((run, way))
    # A line of which one piece is missing carries nothing at all.
    return [(run, way) for run, way in found if run.line not in draft.left_out]


def _overflows(car: Car, port: str) -> bool:
    """Whether a port is the overflow of a pot that stands full, so that fuel flows from it."""
    owner, _, name = port.partition(".")
    return car.components[owner].kind == "surge pot" and name.startswith("overflow")


def _live(draft: Draft, ends: list[str]) -> tuple[str, ...]:
    """Ports that lines end at, and those by which what they end at is screwed on another."""
    live = dict.fromkeys(ends)
    for mount, host in draft.alias.items():
        owner = mount.partition(".")[0]
        if any(port.startswith(f"{owner}.") for port in ends):
            live |= {mount: None, host: None}
    return tuple(live)


def _parts(car: Car, draft: Draft) -> list[Component]:
    """Components that a line of the system ends at, the engine first."""
    touched = {port.partition(".")[0] for port in draft.live}
    if draft.medium is Medium.OIL:
        plates = [c for c in car.components.values() if c.id in touched and c.on]
        touched |= {c.on.partition(".")[0] for c in plates if c.on and "plate" in c.kind}
        engine = draft.case.engine.id
        if any(
            car.components[t].kind in ("sump", "dry-sump pump")
            for t in touched & set(car.components)
        ):
            touched |= {engine}
    found = [c for c in car.components.values() if c.id in touched]
    return sorted(found, key=lambda c: c.kind != "engine")


def _referred(draft: Draft) -> None:
    """Where a closed loop has no tank, its inlet of the pump stands at the cap's pressure."""
    if draft.medium not in (Medium.COOLANT, Medium.CHARGE_COOLANT) or draft.fixed:
        return
    inlet = draft.marks.get("pump inlet")
    if inlet is None:
        return
    give = 'a header tank with its cap = "1.1 bar"'
    cap = draft.ledger.note(draft.system.id, chosen(draft.ledger.typed, "cap"), give).value
    hot = draft.case.state != "cold"
    draft.fix(inlet, draft.case.ambient + (0.5 * cap if hot else 0.0))


def _sealed(car: Car, draft: Draft, lines: float) -> Sealed | None:
    name = draft.marks.get("header")
    if name is None:
        return None
    tank = car.components[name]
    cap = draft.ledger.trait(tank, "cap", "cap").value
    volume = tank.volume or draft.ledger.default(name, "header-volume")
    share = draft.ledger.default(name, "header-air")
    whole = volume.value
    air = whole * share.value
    under, over = _off(volume, share)
    other = draft.ledger.default(draft.case.engine.id or "engine", "engine-coolant").value
    for core in (c for c in car.components.values() if c.kind == "radiator"):
        other += draft.ledger.default(core.id, "radiator-coolant").value
    nodes = tuple(n for n, pool in draft.pools.items() if pool == name)
    system = lines + other + whole - air
    least, most = max(1.0 - under, 0.0) * air, (1.0 + over) * air
    assumed = volume if volume.grade is Grade.PRACTICE else None
    return Sealed(name, nodes, system, air, cap, least, most, assumed)


def _off(*figures: Figure) -> tuple[float, float]:
    """How far a product may be under and over, as shares of it, by the ranges of its figures."""
    low = [1.0 - (f.value if f.low is None else f.low) / f.value for f in figures]
    high = [(f.value if f.high is None else f.high) / f.value - 1.0 for f in figures]
    return hypot(*low), hypot(*high)


def _mixed(draft: Draft) -> frozenset[str]:
    """Links between scavenge pumps and the fixed pressures beyond them."""
    found = set(draft.mixed)
    ends = {end for link in draft.links if link.id in found for end in (link.a, link.b)}
    while True:
        more = {
            link.id
            for link in draft.links
            if link.id not in found and {link.a, link.b} & {e for e in ends if e not in draft.fixed}
        }
        if not more:
            return frozenset(found)
        found |= more
        ends |= {end for link in draft.links if link.id in more for end in (link.a, link.b)}


def _start(draft: Draft) -> Figure:
    """Temperature of the fluid at the start. [K]"""
    case, system = draft.case, draft.system
    typed = case.start.get(system.id)
    if typed is not None:
        return typed
    medium = system.medium
    if case.is_after_run and medium is Medium.OIL:
        return draft.ledger.default(system.id, "hot-oil")
    if case.is_after_run and medium is Medium.COOLANT:
        return _open_wide(draft)
    if case.state == "cold":
        return _kelvin(case.air)
    if medium is Medium.FUEL:
        return _kelvin(case.air + draft.ledger.default(system.id, "fuel-warming").value)
    usual = {Medium.OIL: 373.15, Medium.COOLANT: 363.15, Medium.CHARGE_COOLANT: case.air + 15.0}
    return _kelvin(usual.get(medium, case.air))


def _kelvin(value: float) -> Figure:
    return Figure(value, "K", Grade.PRACTICE, "temperature at the start")


def _open_wide(draft: Draft) -> Figure:
    """Temperature at which the thermostat of the coolant is wide open. [K]"""
    kinds = draft.car.components.values()
    housing = next((c for c in kinds if c.kind == "coolant thermostat housing"), None)
    name, ledger = "coolant-thermostat-opens", draft.ledger
    where = draft.case.engine.id or "engine"
    opens = ledger.trait(housing, "opens", name) if housing else ledger.default(where, name)
    span = ledger.default(housing.id if housing else where, "thermostat-span")
    low, high = (
        (opens.value if end is None else end) + span.value for end in (opens.low, opens.high)
    )
    at = opens.value + span.value
    return Figure(at, "K", opens.grade, "coolant with its thermostat wide open", low, high)


def failed(error: LinewrightError) -> str:
    """Return what stands in the way of a network, on one line.

    Parameters
    ----------
    error : LinewrightError
        What was raised.

    Returns
    -------
    str
        What stands in the way of a network, on one line.
    """
    return " ".join(str(error).split("\n"))
