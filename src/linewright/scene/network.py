# SPDX-License-Identifier: Apache-2.0
"""What belongs on the diagram of one system: components, their ports there, and the links."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from linewright.base.ids import natural_key
from linewright.car.model import Car, Component, Construction, Line, Medium, Port, Role
from linewright.plan.model import Plan
from linewright.routes.positions import position

#: Letter of each fluid (LOOK.md); vents, drains and references have letters of their own.
LETTERS: Mapping[Medium, str] = {
    Medium.OIL: "O",
    Medium.COOLANT: "C",
    Medium.CHARGE_COOLANT: "W",
    Medium.FUEL: "F",
    Medium.AIR: "A",
}

_SERVICE_LETTERS = {
    "vent": "V",
    "breather": "V",
    "bleed": "V",
    "overflow": "V",
    "drain": "D",
    "reference": "R",
}

#: What ends a port on the diagram without a line.
PLUG, CAP, OPEN, UNKNOWN, MISSING, SENSOR, SCREWED_ON = (
    "plug",
    "cap",
    "open",
    "unknown",
    "missing",
    "sensor",
    "on",
)


@dataclass(frozen=True, slots=True)
class Pin:
    """A port as drawn: its name, its role, and what ends it where no line does."""

    id: str
    name: str
    role: Role | None
    linked: bool
    leaf: str = ""
    leaf_id: str = ""  # component screwed on
    leaf_kind: str = ""
    leaf_name: str = ""
    side: int | None = None  # 0 right, 1 down, 2 left, 3 up, where what it mates with decides
    flows_in: bool | None = None  # by the line on it; None where it carries none


@dataclass(frozen=True, slots=True)
class Node:
    """A component as drawn, with the ports that belong to the system."""

    id: str
    kind: str
    name: str
    pins: tuple[Pin, ...]
    panel: str = ""
    height: float | None = None  # of its highest port or itself, in the car [m]
    remark: str = ""


@dataclass(frozen=True, slots=True)
class Link:
    """A line as drawn, or two ports screwed together (then ``is_fit``)."""

    id: str
    source: str  # port id
    target: str
    letter: str
    label: str = ""
    note: str = ""  # what stands behind the size: "suction", "return"
    is_fit: bool = False
    has_arrow: bool = True


@dataclass(frozen=True, slots=True)
class Network:
    """One system, ready to be laid out."""

    id: str
    letter: str
    fluid: str
    nodes: tuple[Node, ...]
    links: tuple[Link, ...]
    panels: Mapping[str, str] = field(default_factory=dict)


def letter_of(line: Line, system_letter: str) -> str:
    """Letter of the line type: what the line does first, else its fluid.

    Parameters
    ----------
    line : Line
        The line.
    system_letter : str
        Letter of its system.

    Returns
    -------
    str
        One capital letter of the legend.
    """
    return _SERVICE_LETTERS.get(line.service, system_letter)


def system_letter(car: Car, system_id: str) -> str:
    """Letter of a system: typed, or that of its fluid.

    Parameters
    ----------
    car : Car
        The car.
    system_id : str
        Which system.

    Returns
    -------
    str
        One capital letter.
    """
    system = car.systems[system_id]
    return system.letter or LETTERS[system.medium]


def _component(port_id: str) -> str:
    return port_id.partition(".")[0]


def lines_of(car: Car, system_id: str) -> tuple[Line, ...]:
    """Lines that are drawn with a system, in the order of their ids.

    A line of no system, a reference line for one, is drawn where the component at its end B
    has other lines, or that at its end A.

    Parameters
    ----------
    car : Car
        The car.
    system_id : str
        Which system.

    Returns
    -------
    tuple of Line
        The lines.
    """
    owners: dict[str, list[str]] = {}
    for line in car.lines.values():
        if line.system in car.systems:
            for port in (line.from_port, line.to_port):
                owners.setdefault(_component(port), []).append(line.system or "")
    for component in car.components.values():
        if component.system in car.systems:
            owners.setdefault(component.id, []).append(component.system or "")
    chosen = []
    for line in car.lines.values():
        home = line.system
        if home not in car.systems:
            near = owners.get(_component(line.to_port)) or owners.get(_component(line.from_port))
            home = near[0] if near else next(iter(car.systems), None)
        if home == system_id:
            chosen.append(line)
    return tuple(sorted(chosen, key=lambda line: natural_key(line.id)))


def _port_system(plan: Plan, port: Port, lined: Mapping[str, str]) -> str | None:
    """System that a port without a line in the asked system belongs to, if it can be told."""
    car = plan.car
    if port.id in lined:
        return lined[port.id]
    proof = next((p for p in plan.checked.proof if p.id == port.id and p.system), None)
    if proof is not None:
        return proof.system
    of_medium = [s.id for s in car.systems.values() if port.medium is s.medium]
    owner = car.components[port.component]
    if owner.system is not None and (port.medium is None or owner.system in of_medium):
        return owner.system
    if of_medium:
        return of_medium[0]
    if port.medium is not None:
        return None
    mates = {lined[p] for p in (q.id for q in owner.ports.values()) if p in lined}
    return mates.pop() if len(mates) == 1 else None


def _mount(component: Component, linked: frozenset[str]) -> str | None:
    """Port by which a component is screwed on: its first one that no line takes."""
    free = [p.id for p in component.ports.values() if p.id not in linked]
    return free[0] if free else None


def _closing(plan: Plan, port: Port) -> str | None:
    """How a port without line and without mate ends; None where it is answered by "none"."""
    closed = plan.car.closed.get(port.id)
    if closed is not None:
        return {"plug": PLUG, "cap": CAP, "open": OPEN}.get(closed.how)
    proof = next((p for p in plan.checked.proof if p.id == port.id), None)
    if proof is not None and proof.state in ("plugged", "capped", "open", "none"):
        return {"plugged": PLUG, "capped": CAP, "open": OPEN}.get(proof.state)
    if port.from_kind and port.role in (Role.FILL, Role.EMPTY, Role.SENSOR, Role.SPARE):
        return MISSING if proof is not None and proof.state == "missing" else None
    return UNKNOWN if proof is not None and proof.state == "unknown" else MISSING


def _height(car: Car, node: Component, pins: tuple[Pin, ...]) -> float | None:
    heights = [p.at[2] for p in (position(car, pin.id) for pin in pins) if p is not None]
    if heights:
        return max(heights)
    return node.place.at[2] if node.place is not None else None


def network(plan: Plan, system_id: str) -> Network:
    """Collect what one system's diagram shows.

    Parameters
    ----------
    plan : Plan
        The plan; only its car and its checks are read.
    system_id : str
        Which system.

    Returns
    -------
    Network
        Components, ports and links in the order of the document.

    Raises
    ------
    KeyError
        If the car has no such system.
    """
    car = plan.car
    letter = system_letter(car, system_id)
    lines = lines_of(car, system_id)
    lined = {
        port: home.id
        for home in car.systems.values()
        for line in lines_of(car, home.id)
        for port in (line.from_port, line.to_port)
    }
    flows = {line.to_port: True for line in lines} | {line.from_port: False for line in lines}
    all_linked = frozenset(lined)

    mounts: dict[str, str] = {}  # port of the host -> component screwed on
    mount_ports: dict[str, str] = {}  # that component -> its own port
    for component in car.components.values():
        if component.on is not None and car.port(component.on) is not None:
            mounts[component.on] = component.id
            own = _mount(component, all_linked)
            if own is not None:
                mount_ports[component.id] = own

    here: dict[str, list[str]] = {}
    for port in car.ports:
        home = _port_system(plan, port, lined)
        if home is None and port.id in mounts:
            screwed = car.components[mounts[port.id]]
            rides = {lined[p.id] for p in screwed.ports.values() if p.id in lined}
            home = system_id if system_id in rides else screwed.system
        if home == system_id or port.id in flows:
            here.setdefault(port.component, []).append(port.id)

    with_lines = {_component(port) for port in flows}
    # A screwed-on component with lines is a box of its own; without, it ends its host's port.
    leaves = {
        rider: host
        for host, rider in mounts.items()
        if rider not in with_lines
        and not any(p.id in mounts for p in car.components[rider].ports.values())
    }
    hosts = {_component(host) for host, rider in mounts.items() if rider in with_lines}
    drawn = [
        c
        for c in car.components.values()
        if c.id not in leaves
        and (c.id in with_lines or c.id in hosts or c.system == system_id)
        and (c.id in here or c.id in hosts)
    ]
    names = {c.id for c in drawn}
    links = [
        Link(
            line.id,
            line.from_port,
            line.to_port,
            letter_of(line, letter),
            _size_shown(line),
            "" if line.service == "pressure" else line.service,
            has_arrow=line.service != "reference",
        )
        for line in lines
    ]
    fits: dict[str, str] = {}
    for host, rider in mounts.items():
        own = mount_ports.get(rider)
        if rider in names and _component(host) in names and own is not None:
            fits[host], fits[own] = own, host
            links.append(Link(f"{host}={own}", host, own, letter, is_fit=True, has_arrow=False))

    sides = _sides(car, links)
    nodes = []
    for component in drawn:
        pins = []
        wanted = list(here.get(component.id, ()))
        wanted += [p for p in fits if _component(p) == component.id and p not in wanted]
        for port in component.ports.values():
            if port.id not in wanted:
                continue
            linked = port.id in flows or port.id in fits
            leaf = leaf_id = leaf_kind = leaf_name = ""
            if not linked and port.id in mounts:
                screwed = car.components[mounts[port.id]]
                leaf_id, leaf_kind = screwed.id, screwed.kind
                leaf_name = screwed.name or screwed.kind
                is_sensor = "sensor" in leaf_kind or "sender" in leaf_kind
                leaf = SENSOR if is_sensor else SCREWED_ON
            elif not linked:
                closing = _closing(plan, port)
                if closing is None:
                    continue
                leaf = closing
            pins.append(
                Pin(
                    port.id,
                    port.name,
                    port.role,
                    linked,
                    leaf,
                    leaf_id,
                    leaf_kind,
                    leaf_name,
                    sides.get(port.id),
                    flows.get(port.id),
                )
            )
        pins = _opposite(pins)
        nodes.append(
            Node(
                component.id,
                component.kind,
                component.name or component.kind,
                tuple(pins),
                component.panel or "",
                _height(car, component, tuple(pins)),
            )
        )
    system = car.systems[system_id]
    return Network(system_id, letter, system.fluid, tuple(nodes), tuple(links))


def _opposite(pins: list[Pin]) -> list[Pin]:
    """Give the closed end of a thing with one line in or out the side opposite that line."""
    flows = {pin.flows_in for pin in pins if pin.linked and pin.flows_in is not None}
    if len(flows) != 1:
        return pins
    side = 0 if flows == {True} else 2
    return [
        replace(pin, side=side)
        if pin.role is None and pin.side is None and pin.leaf in (PLUG, CAP, OPEN, UNKNOWN, MISSING)
        else pin
        for pin in pins
    ]


def _sides(car: Car, links: list[Link]) -> dict[str, int]:
    """Sides that the mate decides: signals come from above, what is screwed on stands opposite."""
    sides: dict[str, int] = {}
    for link in links:
        if link.is_fit:
            host = car.port(link.source)
            up = host is not None and host.role in (Role.VENT, Role.FILL, Role.SENSOR)
            sides[link.source], sides[link.target] = (3, 1) if up else (0, 2)
        elif link.letter == "R":
            sides[link.source] = sides[link.target] = 3
    return sides


def _size_shown(line: Line) -> str:
    """Size as it stands behind the number of a line."""
    if line.size in ("", "auto"):
        return ""
    if line.construction in (Construction.CLAMPED, Construction.PIPE) and "mm" not in line.size:
        return f"{line.size} mm"
    return line.size
