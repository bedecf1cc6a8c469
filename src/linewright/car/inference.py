# SPDX-License-Identifier: Apache-2.0
"""What the builder need not type: system, service, hose, size and length tier of a line."""

from collections import deque
from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

from linewright.base.evidence import Grade, Placed
from linewright.car.hose_names import PIPE, REFERENCE, USUAL, USUAL_CLAMPED, construction
from linewright.car.lines import TypedLine
from linewright.car.model import (
    AUTO,
    Component,
    Construction,
    Line,
    Medium,
    Port,
    Role,
    System,
    Tier,
)
from linewright.car.positions import is_placed
from linewright.car.table import Log, listed
from linewright.ends.end import Family

_CLAMPED = (Family.BEAD, Family.BARB)
_SIGNALS = ("reference", "wastegate", "brake")
_STORES = (
    "dry-sump tank",
    "sump",
    "fuel cell",
    "surge pot",
    "header tank",
    "swirl pot",
    "charge-coolant reservoir",
)
_STRAINERS = ("fuel strainer", "scavenge screen")

_FIXED = "fixed hose ends: the nut turns, the elbow does not"

Components = Mapping[str, Component]
Systems = Mapping[str, System]


def _ports(components: Components) -> dict[str, Port]:
    return {port.id: port for each in components.values() for port in each.ports.values()}


def _own_system(owner: Component, port: Port, systems: Systems) -> str | None:
    """Tell the system of a port from its component or its medium alone."""
    stated = systems.get(owner.system or "")
    if stated is not None and port.medium in (None, stated.medium):
        return stated.id
    fit = [s.id for s in systems.values() if s.medium is port.medium]
    return fit[0] if len(fit) == 1 else None


def port_systems(
    components: Components, lines: Mapping[str, TypedLine], systems: Systems
) -> dict[str, str]:
    """Tell the system of each port.

    A port has the system of its component or of its medium; what serves any fluid (a tee, a
    bulkhead, a sensor) takes it from what it is connected to.

    Parameters
    ----------
    components : Mapping
        Components by id.
    lines : Mapping
        Lines as typed.
    systems : Mapping
        Systems by id.

    Returns
    -------
    dict
        Port id to system id, as far as it can be told.
    """
    ports = _ports(components)
    found: dict[str, str] = {}
    for port in ports.values():
        own = _own_system(components[port.component], port, systems)
        if own is not None:
            found[port.id] = own
    links = [(line.from_port, line.to_port) for line in lines.values()]
    links += [(f"{c.id}.{c.mount}", c.on) for c in components.values() if c.on and c.mount]
    for each in components.values():
        links += pairwise(p.id for p in each.ports.values() if p.medium is None)
    beside: dict[str, list[str]] = {}
    for a, b in links:
        beside.setdefault(a, []).append(b)
        beside.setdefault(b, []).append(a)

    def give(port_id: str, system: str) -> bool:
        port = ports.get(port_id)
        if port is None or port_id in found:
            return False
        if port.medium not in (None, systems[system].medium):
            return False
        found[port_id] = system
        return True

    for line in lines.values():
        if line.system in systems:
            give(line.from_port, line.system)
            give(line.to_port, line.system)
    # Outwards from what is known, nearest first, in the order of the document.
    reached = deque(found)
    while reached:
        here = reached.popleft()
        reached.extend(there for there in beside.get(here, ()) if give(there, found[here]))
    if len(systems) == 1:
        (only,) = systems
        for port_id in ports:
            give(port_id, only)
    return found


def with_systems(
    components: Components, systems: Systems, of_ports: Mapping[str, str]
) -> dict[str, Component]:
    """Give components and ports the system and the medium that were inferred.

    Parameters
    ----------
    components : Mapping
        Components by id.
    systems : Mapping
        Systems by id.
    of_ports : Mapping
        Port id to system id.

    Returns
    -------
    dict
        The same components; one that serves several systems keeps none.
    """
    done = {}
    for each in components.values():
        ports = {
            name: replace(port, medium=systems[of_ports[port.id]].medium)
            if port.medium is None and port.id in of_ports
            else port
            for name, port in each.ports.items()
        }
        own = {of_ports.get(port.id, "") for port in each.ports.values()} - {""}
        system = each.system or (own.pop() if len(own) == 1 else None)
        done[each.id] = replace(each, ports=ports, system=system)
    return done


def _service(start: Port, finish: Port, components: Components) -> str:
    """Tell the service of a line from the roles and names of its ports."""
    names = [port.name.lower() for port in (start, finish)]
    if any(name.startswith(_SIGNALS) for name in names):
        return "reference"
    if any(name.startswith(("bleed", "steam")) for name in names):
        return "bleed"
    if Role.VENT in (start.role, finish.role):
        return "vent"
    if start.role in (Role.DRAIN, Role.EMPTY) or finish.role is Role.DRAIN:
        return "drain"
    source, sink = components[start.component].kind, components[finish.component].kind
    # All that leads to a pump is drawn, but for what another pump pushes there.
    is_drawn = "pump" in sink and "pump" not in source
    is_taken = sink in _STRAINERS and source in (*_STORES, *_STRAINERS)
    if finish.role is Role.IN and (is_drawn or is_taken):
        return "suction"
    if finish.role is Role.RETURN or start.name.lower().startswith("return"):
        return "return"
    return "pressure"


def _system_of(
    log: Log,
    line: TypedLine,
    service: str,
    of_ports: Mapping[str, str],
    ports: tuple[Port, Port],
    systems: Systems,
) -> System | None:
    if line.system:
        return systems.get(line.system)
    mine = [of_ports[port.id] for port in ports if port.id in of_ports]
    if service == "reference":
        # The signal is air, but the line belongs to what it steers.
        mine = [s for s in mine if systems[s].medium is not Medium.AIR] or mine
    both = list(dict.fromkeys(mine))
    if line.medium:
        both = [s for s in both if systems[s].medium == line.medium] or [
            s.id for s in systems.values() if s.medium == line.medium
        ]
    if len(both) == 1:
        return systems[both[0]]
    if not both and len(systems) == 1:
        return next(iter(systems.values()))
    if len(both) > 1:
        log.add(
            line.path,
            f"joins {line.from_port} of {both[0]} to {line.to_port} of {both[1]}; one line has one "
            f'fluid. Correct a port, or say system = "{both[0]}".',
        )
        return None
    media = [port.medium for port in ports if port.medium]
    why = f"its ports carry {media[0]}, and the car has " if media else "its ports carry any fluid"
    if media:
        count = sum(s.medium is media[0] for s in systems.values())
        why += "several systems of that" if count else "no system of that"
    log.add(line.path, f"its system cannot be told: {why}. Add system, one of: {listed(systems)}.")
    return None


def _hose(
    log: Log,
    line: TypedLine,
    system: System,
    service: str,
    ports: tuple[Port, Port],
    is_piece: bool,
) -> str:
    """Tell what a line is made of: typed, or what the trade runs there."""
    if line.hose:
        return line.hose
    is_clamped = all(port.end.family in _CLAMPED for port in ports)
    usual = (USUAL_CLAMPED if is_clamped else USUAL)[system.medium]
    if service == "reference":
        usual = REFERENCE
    elif system.hose and (
        not is_clamped or construction(system.hose) in (Construction.CLAMPED, Construction.PIPE)
    ):
        return system.hose
    elif system.medium is Medium.AIR and not is_piece:
        usual = PIPE
    log.assume((*line.path, "hose"), usual, Grade.PRACTICE)
    return usual


def _is_bore(size: str) -> bool:
    return bool(size) and size != AUTO and not size.startswith("-")


def _larger_first(a: Port, b: Port) -> tuple[Port, Port]:
    """The larger of two spigots first: which one is `from` makes no difference to the hose."""
    if a.end.family in _CLAMPED and b.end.family in _CLAMPED:
        return (b, a) if float(b.end.size) > float(a.end.size) else (a, b)
    return (a, b)


def _size(log: Log, line: TypedLine, system: System, made: Construction, a: Port, b: Port) -> str:
    """Tell the size of a line: typed, that of the spigots it goes on, or its system's."""
    if line.size == AUTO and made is Construction.TUBE:
        log.add(
            line.path,
            'its size is "auto", which is for hose; write the size of the tube, as in size = "-6".',
        )
        return ""
    # What is clamped or slid on takes the size of its spigots anyway.
    if line.size and (line.size != AUTO or made is Construction.HOSE):
        return line.size
    if made in (Construction.CLAMPED, Construction.PIPE):
        for port in _larger_first(a, b) if made is Construction.CLAMPED else (a, b):
            if port.end.family in _CLAMPED or port.end.family is Family.VBAND:
                log.assume((*line.path, "size"), f"{port.end.size} mm", Grade.DERIVED)
                return port.end.size
        fits = _is_bore(system.size)
    else:
        is_open = system.size == AUTO
        if is_open and made is Construction.HOSE:
            return AUTO
        fits = bool(system.size) and not is_open and not _is_bore(system.size)
    if fits:
        log.assume((*line.path, "size"), system.size, Grade.STATED)
        return system.size
    is_bore = made in (Construction.CLAMPED, Construction.PIPE)
    example = 'size = "38 mm"' if is_bore else 'size = "-10"'
    log.add(
        line.path,
        f"its size is missing, and systems.{system.id} has none for it; write for example "
        f"{example}.",
    )
    return ""


def _tier(line: TypedLine, a: Port, b: Port, components: Components) -> Tier:
    if line.tier is not Tier.UNKNOWN:
        return line.tier
    known = [is_placed(port, components[port.component].place) for port in (a, b)]
    if None in known:
        return Tier.UNKNOWN
    return Tier.GUESS if Placed.GUESS in known else Tier.PLACED


def finished(
    log: Log, line: TypedLine, components: Components, systems: Systems, of_ports: Mapping[str, str]
) -> Line | None:
    """Return a line with all that was inferred for it.

    Parameters
    ----------
    log : Log
        Where to note faults and defaults.
    line : TypedLine
        As typed; both its ports are there.
    components : Mapping
        Components by id.
    systems : Mapping
        Systems by id.
    of_ports : Mapping
        Port id to system id.

    Returns
    -------
    Line or None
        None where its system or its size cannot be told.
    """
    (one, _, name), (other, _, far) = line.from_port.partition("."), line.to_port.partition(".")
    owners = components[one], components[other]
    a, b = owners[0].ports[name], owners[1].ports[far]
    service = line.service
    if not service:
        service = _service(a, b, components)
        log.assume((*line.path, "service"), service, Grade.PRACTICE)
    system = _system_of(log, line, service, of_ports, (a, b), systems)
    if system is None:
        return None
    is_piece = "charge pipe" in (owners[0].kind, owners[1].kind)
    hose = _hose(log, line, system, service, (a, b), is_piece)
    made = construction(hose)
    crosses = line.crosses
    if crosses is None:
        crosses = owners[0].rides != owners[1].rides
        bodies = f"{owners[0].rides} to {owners[1].rides}"
        log.assume(
            (*line.path, "crosses"), f"{'yes' if crosses else 'no'}, {bodies}", Grade.DERIVED
        )
    if made is Construction.HOSE and any(end.angle and not end.swivel for end in line.ends):
        log.assume((*line.path, "ends"), _FIXED, Grade.PRACTICE)
    return Line(
        id=line.id,
        from_port=a.id,
        to_port=b.id,
        system=system.id,
        medium=Medium(line.medium) if line.medium else system.medium,
        size=_size(log, line, system, made, a, b),
        hose=hose,
        construction=made,
        service=service,
        ends=line.ends,
        tier=_tier(line, a, b, components),
        string=line.string,
        string_from=line.string_from,
        crosses=crosses,
        passes=line.passes,
        passes_at=line.passes_at,
        follows=line.follows,
        sleeve=line.sleeve,
        note=line.note,
        line_number=line.line_number,
        clearance=line.clearance,
        most_bends=line.most_bends,
        is_crimped=line.is_crimped,
    )
