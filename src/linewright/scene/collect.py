# SPDX-License-Identifier: Apache-2.0
"""From a plan to one system as drawn: which components, which of their ports, which links."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from linewright.base.ids import natural_key
from linewright.car.model import Car, Component, Construction, Line, Medium, Port, Role
from linewright.plan.model import Plan
from linewright.scene.network import (
    CAP,
    MISSING,
    OPEN,
    PLUG,
    SCREWED_ON,
    SENSOR,
    UNKNOWN,
    Link,
    Network,
    Node,
    Pin,
    owner,
)
from linewright.space.positions import position

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
                owners.setdefault(owner(port), []).append(line.system or "")
    for component in car.components.values():
        if component.system in car.systems:
            owners.setdefault(component.id, []).append(component.system or "")
    chosen = []
    for line in car.lines.values():
        home = line.system
        if home not in car.systems:
            near = owners.get(owner(line.to_port)) or owners.get(owner(line.from_port))
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
    home = car.components[port.component]
    if home.system is not None and (port.medium is None or home.system in of_medium):
        return home.system
    if of_medium:
        return of_medium[0]
    if port.medium is not None:
        return None
    mates = {lined[p] for p in (q.id for q in home.ports.values()) if p in lined}
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


@dataclass(frozen=True, slots=True)
class _Mounts:
    """What is screwed on what: rider by host port, and the rider's own port."""

    riders: Mapping[str, str]
    own: Mapping[str, str]


def _mounts(car: Car, lined: frozenset[str]) -> _Mounts:
    riders, own = {}, {}
    for component in car.components.values():
        if component.on is not None and car.port(component.on) is not None:
            riders[component.on] = component.id
            mount = _mount(component, lined)
            if mount is not None:
                own[component.id] = mount
    return _Mounts(riders, own)


def _pieces(line: Line, letter: str) -> tuple[list[Link], list[Node]]:
    """A line as links, with nodes for the panels it passes and what is fitted at its ends."""
    note = "" if line.service == "pressure" else line.service
    flows = line.service != "reference"
    stops: list[tuple[str, str, bool]] = []  # kind, name, is a panel
    stops += [(fit, fit, False) for fit in line.ends[0].fit]
    stops += [("bulkhead", panel, True) for panel in line.passes]
    stops += [(fit, fit, False) for fit in reversed(line.ends[1].fit)]
    nodes, links = [], []
    at = line.from_port
    piece = 0
    main = len(line.ends[0].fit)  # the first stretch that gets a number

    def link(number: int, start: str, end: str) -> Link:
        name = line.id + (chr(ord("a") + piece) if line.passes else "")
        is_main = number - main == piece
        return Link(
            name if is_main else f"{name}/{number}",
            start,
            end,
            letter,
            name if is_main else "",
            _size_shown(line) if is_main else "",
            note if is_main else "",
            has_arrow=flows,
        )

    for number, (kind, name, is_panel) in enumerate(stops):
        key = f"{line.id}/{number + 1}"
        pins = (
            Pin(f"{key}.in", "in", Role.IN, True, flows_in=True),
            Pin(f"{key}.out", "out", Role.OUT, True, flows_in=False),
        )
        nodes.append(Node(key, kind, name, pins, in_line=True))
        links.append(link(number, at, pins[0].id))
        at = pins[1].id
        piece += is_panel
    links.append(link(len(stops), at, line.to_port))
    return links, nodes


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
    mounts = _mounts(car, frozenset(lined))
    here: dict[str, list[str]] = {}
    for port in car.ports:
        home = _port_system(plan, port, lined)
        if home is None and port.id in mounts.riders:
            rider = car.components[mounts.riders[port.id]]
            rides = {lined[p.id] for p in rider.ports.values() if p.id in lined}
            home = system_id if system_id in rides else rider.system
        if home == system_id or port.id in flows:
            here.setdefault(port.component, []).append(port.id)
    drawn = _drawn(car, system_id, {owner(port) for port in flows}, mounts, frozenset(here))
    names = {c.id for c in drawn}
    links: list[Link] = []
    in_line: list[Node] = []
    for line in lines:
        more, nodes = _pieces(line, letter_of(line, letter))
        links += more
        in_line += nodes
    fits: dict[str, str] = {}
    for host, screwed in mounts.riders.items():
        own = mounts.own.get(screwed)
        if screwed in names and owner(host) in names and own is not None:
            fits[host], fits[own] = own, host
            links.append(Link(f"{host}={own}", host, own, letter, is_fit=True, has_arrow=False))

    sides = _sides(car, links)
    made = []
    for component in drawn:
        wanted = {*here.get(component.id, ()), *(p for p in fits if owner(p) == component.id)}
        pins = []
        for port in component.ports.values():
            if port.id not in wanted:
                continue
            pin = Pin(port.id, port.name, port.role, port.id in flows or port.id in fits)
            pin = replace(pin, side=sides.get(port.id), flows_in=flows.get(port.id))
            if not pin.linked:
                ended = _ended(plan, port, mounts, pin)
                if ended is None:
                    continue
                pin = ended
            pins.append(pin)
        made.append(
            Node(
                component.id,
                component.kind,
                component.name or component.kind,
                tuple(_opposite(pins)),
                component.panel or "",
                _height(car, component, tuple(pins)),
            )
        )
    fluid = car.systems[system_id].fluid
    return Network(system_id, letter, fluid, (*made, *in_line), tuple(links))


def _drawn(
    car: Car, system_id: str, with_lines: set[str], mounts: _Mounts, here: frozenset[str]
) -> list[Component]:
    """Components with a box of their own; a sensor on a port is drawn at that port instead."""
    hosts = {owner(host) for host, rider in mounts.riders.items() if rider in with_lines}
    leaves = {
        rider
        for rider in mounts.riders.values()
        if rider not in with_lines
        and not any(p.id in mounts.riders for p in car.components[rider].ports.values())
    }
    return [
        c
        for c in car.components.values()
        if c.id not in leaves
        and (c.id in with_lines or c.id in hosts or (c.system == system_id and c.id in here))
    ]


def _ended(plan: Plan, port: Port, mounts: _Mounts, pin: Pin) -> Pin | None:
    """A port without a line, with what ends it; None where it is not there at all."""
    rider = plan.car.components.get(mounts.riders.get(port.id, ""))
    if rider is not None:
        is_sensor = any(word in rider.kind for word in ("sensor", "sender", "gauge"))
        return replace(
            pin,
            leaf=SENSOR if is_sensor else SCREWED_ON,
            leaf_id=rider.id,
            leaf_kind=rider.kind,
            leaf_name=rider.name or rider.kind,
        )
    closing = _closing(plan, port)
    return None if closing is None else replace(pin, leaf=closing)


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


def _sides(car: Car, links: Iterable[Link]) -> dict[str, int]:
    """Sides that the mate decides: signals come from above, what is screwed on stands opposite."""
    sides: dict[str, int] = {}
    for link in links:
        if link.is_fit:
            host = car.port(link.source)
            up = host is not None and host.role in (Role.VENT, Role.FILL, Role.SENSOR)
            sides[link.source], sides[link.target] = (3, 1) if up else (0, 2)
        elif link.letter == "R":
            for port_id in (link.source, link.target):
                port = car.port(port_id)
                if port is None or port.role not in (Role.IN, Role.OUT):
                    sides[port_id] = 3
    return sides


def _size_shown(line: Line) -> str:
    """Size as it stands behind the number of a line."""
    if line.size in ("", "auto"):
        return ""
    if line.construction in (Construction.CLAMPED, Construction.PIPE) and "mm" not in line.size:
        return f"{line.size} mm"
    return line.size
