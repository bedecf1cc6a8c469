# SPDX-License-Identifier: Apache-2.0
"""The drawing board on which behaviours draw up the network of one system in one condition."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from linewright.base.evidence import Figure
from linewright.car.kinds import kind
from linewright.car.model import Car, Component, Medium, Role, System
from linewright.flow.case import Case
from linewright.flow.defaults import Ledger
from linewright.flow.exchangers import Exchanger
from linewright.flow.fittings import Coefficient
from linewright.flow.network import Line, Link, Loss, Node
from linewright.flow.properties import Fluid
from linewright.space.positions import position

#: What a port that its kind does not know is called, by its role.
_BY_ROLE: Mapping[Role | None, str] = MappingProxyType(
    {Role.IN: "in", Role.OUT: "out", Role.RETURN: "return"}
)


@dataclass(frozen=True, slots=True)
class Heat:
    """Heat that a link gives to what flows in it [W], with its bounds as factors."""

    link: str
    where: str
    power: float
    low: float = 1.0
    high: float = 1.0


@dataclass(frozen=True, slots=True)
class Core:
    """A link that gives its heat to a stream of air, or to the fluid of another system.

    The liquid is the second side of ``exchanger``. With ``air_flow`` [kg/s] the other side is
    air at ``air`` [K]; else it is the link of component ``where`` in another system.
    """

    link: str
    where: str
    exchanger: Exchanger
    air_flow: float | None
    air: float
    is_first: bool = False


@dataclass(frozen=True, slots=True)
class Thermostat:
    """Two ways that a temperature shifts between: ``warm`` opens, ``cold`` shuts.

    ``opens`` and ``span`` [K]; ``least`` is the share of a way that stays open.
    """

    where: str
    node: str
    warm: str
    cold: str
    opens: float
    span: float
    least: float


@dataclass(frozen=True, slots=True)
class Held:
    """A temperature under which a control lets cores give less, at a node [K]."""

    node: str
    temperature: float
    where: str


@dataclass(frozen=True, slots=True)
class Doubt:
    """How far what a link passes may be from what is reckoned with, as factors on its flow."""

    name: str
    link: str
    low: float
    high: float


@dataclass
class Draft:
    """A network that is being drawn up; behaviours add to it.

    ``live`` are the ports that lines of the system end at. ``pools`` says which nodes share one
    temperature (a tank and its returns), ``pinned`` which have one given [K]. ``losses`` keeps
    what stands beside the hose of each piece, the same in all conditions.
    """

    car: Car
    system: System
    case: Case
    fluid: Fluid
    ledger: Ledger
    live: tuple[str, ...] = ()
    alias: Mapping[str, str] = field(default_factory=dict)
    heights: dict[str, float | None] = field(default_factory=dict)
    fixed: dict[str, float] = field(default_factory=dict)
    demands: dict[str, float] = field(default_factory=dict)
    links: list[Link] = field(default_factory=list)
    where: dict[str, tuple[str, ...]] = field(default_factory=dict)
    mixed: dict[str, float] = field(default_factory=dict)
    heats: list[Heat] = field(default_factory=list)
    cores: list[Core] = field(default_factory=list)
    thermostats: list[Thermostat] = field(default_factory=list)
    held: list[Held] = field(default_factory=list)
    sinks: dict[str, float] = field(default_factory=dict)
    pools: dict[str, str] = field(default_factory=dict)
    pinned: dict[str, float] = field(default_factory=dict)
    doubts: list[Doubt] = field(default_factory=list)
    marks: dict[str, str] = field(default_factory=dict)
    bores: dict[str, tuple[float, float]] = field(default_factory=dict)
    left_out: dict[str, str] = field(default_factory=dict)
    drawn: set[str] = field(default_factory=set)
    losses: dict[str, tuple[Coefficient, float]] = field(default_factory=dict)
    scavenged: float = 0.0

    @property
    def medium(self) -> Medium:
        """What flows."""
        return self.system.medium

    def up(self, at: tuple[float, float, float]) -> float:
        """Height of a place as the condition has it. [m]"""
        down = self.case.down
        return -sum(a * b for a, b in zip(at, down, strict=True))

    def height(self, port: str) -> float | None:
        """Height of a port, where its place is typed. [m]"""
        found = position(self.car, port)
        return self.up(found.at) if found is not None else None

    def node(self, name: str) -> str:
        """Return the node of a port, or an inner one, and remember it."""
        name = self.alias.get(name, name)
        if name not in self.heights:
            self.heights[name] = self.height(name) if self.car.port(name) else None
        return name

    def fix(self, name: str, pressure: float, height: float | None = None) -> str:
        """Give a node a fixed pressure [Pa], and a height [m] where it has its own."""
        name = self.node(name)
        self.fixed[name] = pressure
        if height is not None:
            self.heights[name] = height
        return name

    def demand(self, name: str, flow: float) -> str:
        """Draw a flow at a node [kg/s]."""
        name = self.node(name)
        self.demands[name] = self.demands.get(name, 0.0) + flow
        return name

    def join(self, link: Link, *where: str) -> str:
        """Add a link, with the ids that it belongs to."""
        for end in (link.a, link.b):
            self.node(end)
        a, b = self.node(link.a), self.node(link.b)
        if a == b:
            return link.id
        self.links.append(replace(link, a=a, b=b))
        self.where[link.id] = where
        return link.id

    def ports(self, component: Component, *names: str) -> tuple[str, ...]:
        """Live ports of a component that are called so, by the builder or by its kind.

        A port that the kind does not know is what its role says: "in", "out" or "return".
        """
        known = kind(component.kind)
        found = []
        for port in component.ports.values():
            like = known.port(port.name)
            called = like.name if like else _BY_ROLE.get(port.role, "")
            if port.id in self.live and (port.name in names or called in names):
                found.append(port.id)
        return tuple(found)

    def cut_off(self) -> tuple[str, ...]:
        """Ports of lines that their kind does not know, and that lead nowhere in it."""
        reached = set(self.fixed) | set(self.demands)
        runs = {link.id for link in self.links if self.where[link.id][0] in self.car.lines}
        reached |= {n for k in self.links if k.id not in runs for n in (k.a, k.b)}
        found = []
        for port in self.live:
            owner, _, name = port.partition(".")
            part = self.car.components.get(owner)
            known = kind(part.kind) if part is not None else None
            # Of what has no names of its own the builder gives all, and none is wrong.
            if known is None or not known.ports or known.port(name) is not None:
                continue
            if self.node(port) not in reached:
                found.append(port)
        return tuple(found)

    def through(self, name: str, a: str, b: str, loss: tuple[float, float], *where: str) -> str:
        """Add a loss of a viscous and an inertial part."""
        return self.join(Loss(name, a, b, *loss), *where)

    def small(self, name: str, a: str, b: str, bore: float, k: float, *where: str) -> str:
        """Add a short way of a bore [m] with a loss coefficient on it."""
        return self.join(Line(name, a, b, bore, bore, 1e-5, k, 100.0), *where)

    def gather(self, component: Component, ports: tuple[str, ...], middle: str) -> str:
        """Join ports of a component to its middle by short ways of their own bores."""
        k = self.ledger.default(component.id, "part-loss").value
        for port in ports:
            self.small(f"{port}:way", port, middle, self.bore_at(port), k, component.id)
        return middle

    def bore_at(self, port: str) -> float:
        """Bore of a port: as typed or usual for its end, else that of the lines at it. [m]"""
        found = self.bores.get(port)
        if found is not None:
            return found[0]
        return self.ledger.default(port.partition(".")[0], "part-bore").value

    def doubt(self, name: str, link: str, figure: Figure) -> None:
        """Note that what a link passes is known as well as a figure that it goes with."""
        if figure.low is None or figure.high is None or figure.value == 0.0:
            return
        self.doubts.append(Doubt(name, link, figure.low / figure.value, figure.high / figure.value))

    def nodes(self) -> tuple[Node, ...]:
        """All nodes; where no height is known, that of the nearest node where one is."""
        near: dict[str, list[str]] = defaultdict(list)
        for link in self.links:
            near[link.a].append(link.b)
            near[link.b].append(link.a)
        known = {name: z for name, z in self.heights.items() if z is not None}
        ahead = list(known)
        for name in ahead:
            for other in near[name]:
                if other not in known:
                    known[other] = known[name]
                    ahead.append(other)
        used = {end for link in self.links for end in (link.a, link.b)}
        return tuple(
            Node(name, known.get(name, 0.0), self.fixed.get(name), self.demands.get(name, 0.0))
            for name in self.heights
            if name in used
        )
