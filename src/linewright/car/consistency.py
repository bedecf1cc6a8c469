# SPDX-License-Identifier: Apache-2.0
"""What must agree across the document before it is a car: ids, ports, panels, kinds."""

from collections.abc import Iterable, Mapping

from linewright.car import kinds
from linewright.car.line_index import Path
from linewright.car.lines import TypedLine
from linewright.car.model import Body, Closed, Component, Condition, Guide, Panel, System, Zone
from linewright.car.table import Log, Table, listed, nearest, said

Components = Mapping[str, Component]
Lines = Mapping[str, TypedLine]

_SECTIONS = ("systems", "panels", "bodies", "zones", "guides", "components", "lines", "parts")


def ids(root: Table, retired: Iterable[str]) -> None:
    """Refuse ids that collide but for case, across all sections, and retired ones.

    Parameters
    ----------
    root : Table
        The document.
    retired : Iterable of str
        Ids that are never used again.
    """
    log = root.log
    seen: dict[str, Path] = {}
    gone = {name.casefold(): name for name in retired}
    for section in _SECTIONS:
        table = root.values.get(section)
        for name in table if isinstance(table, dict) else ():
            path = (section, name)
            plain = name.replace("_", "-").casefold()
            if plain in seen:
                other = seen[plain]
                log.add(
                    path,
                    f'collides with {other[0]} "{other[1]}" (line {log.line(other)}); ids differ '
                    f"by more than case, in the whole document. Rename one.",
                )
            seen.setdefault(plain, path)
            if plain in gone:
                log.add(
                    path,
                    "is retired, and an id is never used again, so that old papers stay true. "
                    "Take a new one, or strike it from [retired].",
                )


def port_names(log: Log, components: Components) -> None:
    """Refuse ports of one component that collide but for case.

    Parameters
    ----------
    log : Log
        Where to note it.
    components : Mapping
        Components by id.
    """
    for each in components.values():
        seen: dict[str, str] = {}
        for name in each.ports:
            other = seen.setdefault(name.casefold(), name)
            if other != name:
                log.add(
                    _port_path(log, each.id, name),
                    f'collides with port "{other}" of {each.id}; names of ports differ by more '
                    f'than case. Write "{other}", or rename one.',
                )


def _port_path(log: Log, component: str, name: str) -> Path:
    """Tell where a port is described."""
    places: tuple[Path, ...] = (
        ("ports", f"{component}.{name}"),
        ("ports", component, name),
        ("components", component, "ports", name),
    )
    return next((path for path in places if path in log.lines), ("components", component))


def has_port(log: Log, path: Path, port_id: str, components: Components) -> bool:
    """Whether a port is there; notes a fault with the nearest right name if not.

    Parameters
    ----------
    log : Log
        Where to note it.
    path : tuple
        The key that speaks of the port.
    port_id : str
        Component, dot, name.
    components : Mapping
        Components by id.

    Returns
    -------
    bool
        True if it is.
    """
    component, dot, name = port_id.partition(".")
    owner = components.get(component)
    if owner is not None and name in owner.ports:
        return True
    if dot and component in log.of_no_kind:
        # Its ports come with its kind: the kind is the fault, and is noted.
        return False
    if not dot:
        example = f"{component}.in" if owner else "FH.in-L"
        log.add(
            path,
            f'{said(port_id)} is no id of a port; write component and port, as in "{example}".',
        )
    elif owner is None:
        log.add(path, f"{said(port_id)}: {_no_component(component, components)}")
    else:
        names = list(owner.ports)
        names += [p.name for p in kinds.kind(owner.kind).ports if p.name not in owner.ports]
        log.add(
            path,
            f'{said(port_id)}: {component} has no port "{name[:40]}".{nearest(name, names)} '
            f"Its ports: {listed(names)}. Another one is added under [ports].",
        )
    return False


def _no_component(name: str, components: Components) -> str:
    return (
        f'there is no component "{name[:40]}".{nearest(name, components)} '
        f"Components: {listed(components)}."
    )


def unknown_owners(
    log: Log, typed: Mapping[str, Mapping[str, tuple[Path, object]]], components: Components
) -> None:
    """Refuse ports that are described for a component that is not there.

    Parameters
    ----------
    log : Log
        Where to note it.
    typed : Mapping
        Ports as typed, by component.
    components : Mapping
        Components by id.
    """
    for component, ports in typed.items():
        if component in components:
            continue
        for path, _ in ports.values():
            log.add(path, _no_component(component, components))


def sound_lines(
    log: Log,
    lines: Lines,
    components: Components,
    systems: Mapping[str, System],
    panels: Mapping[str, Panel],
    guides: Mapping[str, Guide],
) -> dict[str, TypedLine]:
    """Return the lines that lead from a port that is there to another.

    Parameters
    ----------
    log : Log
        Where to note what is wrong with the others.
    lines : Mapping
        Lines as typed.
    components : Mapping
        Components by id.
    systems : Mapping
        Systems by id.
    panels : Mapping
        Panels by id.
    guides : Mapping
        Guides by id.

    Returns
    -------
    dict
        Lines by id.
    """
    sound = {}
    for line in lines.values():
        there = [
            bool(port) and has_port(log, (*line.path, key), port, components)
            for key, port in (("from", line.from_port), ("to", line.to_port))
        ]
        if line.from_port and line.from_port == line.to_port:
            log.add(
                line.path, f"leads from {line.from_port} to itself; write another port as its end."
            )
            continue
        if line.system and line.system not in systems:
            _missing(log, (*line.path, "system"), "system", line.system, systems)
            continue
        for panel in line.passes:
            if panel not in panels:
                _missing(log, (*line.path, "passes"), "panel", panel, panels)
            elif panels[panel].is_skin:
                log.add(
                    (*line.path, "passes"),
                    f'"{panel}" is the skin of the car and nothing is laid beyond it; name a panel '
                    f"that has two sides, or strike skin = true at {panel}.",
                )
        for other in line.follows:
            if other not in lines and other not in guides:
                where = (*line.path, "follows")
                if guides:
                    names = [*guides, *lines]
                    _missing(log, where, "guide or line", other, names, "Guides and lines")
                else:
                    _missing(log, where, "line", other, lines)
            elif other == line.id:
                log.add(
                    (*line.path, "follows"), f"{other} cannot follow itself; name another line."
                )
        if all(there):
            sound[line.id] = line
    return sound


def _missing(
    log: Log, path: Path, what: str, name: str, allowed: Iterable[str], plural: str = ""
) -> None:
    words = list(allowed)
    heading = plural or f"{what.capitalize()}s"
    way = f"{heading}: {listed(words)}." if words else f"Add [{what}s.{name[:40]}]."
    log.add(path, f"there is no {what} {said(name)}.{nearest(name, words)} {way}")


def run_in(
    log: Log,
    conditions: Mapping[str, Condition],
    components: Components,
    systems: Mapping[str, System],
) -> None:
    """Refuse conditions that name pumps and fans or fluids that are not there.

    Parameters
    ----------
    log : Log
        Where to note it.
    conditions : Mapping
        Conditions by name, as typed.
    components : Mapping
        Components by id.
    systems : Mapping
        Systems by id.
    """
    for name, condition in conditions.items():
        for number, owner in enumerate(condition.running.off):
            if owner not in components:
                path: Path = ("conditions", name, "off", number)
                _missing(log, path, "component", owner, components, "Components")
        for system in condition.running.start:
            if system not in systems:
                path = ("conditions", name, "start", system)
                _missing(log, path, "system", system, systems, "Systems")


def zoned(
    log: Log,
    zones: Mapping[str, Zone],
    components: Components,
    bodies: Mapping[str, Body],
) -> None:
    """Refuse zones of things that are not there, or that have no place.

    Parameters
    ----------
    log : Log
        Where to note it.
    zones : Mapping
        Zones by id.
    components : Mapping
        Components by id.
    bodies : Mapping
        Bodies by id.
    """
    for zone in zones.values():
        if zone.of is None or zone.of in bodies:
            continue
        path: Path = ("zones", zone.id, "of")
        owner = components.get(zone.of)
        if owner is None:
            names = [*components, *bodies]
            _missing(log, path, "component or body", zone.of, names, "Components and bodies")
        elif owner.place is None or owner.shape is None:
            log.add(
                path,
                f"{owner.id} has no {'place' if owner.place is None else 'size'}, so the zone has "
                f"none; add {'at' if owner.place is None else 'size'} to components.{owner.id}, or "
                f"give the zone a place and a size of its own.",
            )


def drilled(log: Log, panels: Mapping[str, Panel], lines: Lines) -> None:
    """Refuse holes for lines that are not there, or that pass elsewhere.

    Parameters
    ----------
    log : Log
        Where to note it.
    panels : Mapping
        Panels by id.
    lines : Mapping
        Lines by id.
    """
    for panel in panels.values():
        for number, hole in enumerate(panel.holes):
            if not hole.line:
                continue
            path: Path = ("panels", panel.id, "holes", number)
            if hole.line not in lines:
                _missing(log, path, "line", hole.line, lines)
            elif panel.id not in lines[hole.line].passes:
                log.add(
                    path,
                    f"is for {hole.line}, which does not pass {panel.id}; add "
                    f'passes = ["{panel.id}"] to the line, or name another.',
                )


def mounted(
    log: Log, components: Components, systems: Mapping[str, System], panels: Mapping[str, Panel]
) -> None:
    """Refuse components on ports, in panels or of systems that are not there, and rings of them.

    Parameters
    ----------
    log : Log
        Where to note it.
    components : Mapping
        Components by id.
    systems : Mapping
        Systems by id.
    panels : Mapping
        Panels by id.
    """
    sound: set[str] = set()
    for each in components.values():
        path = ("components", each.id)
        if each.system and each.system not in systems:
            _missing(log, (*path, "system"), "system", each.system, systems)
        if each.panel and each.panel not in panels:
            _missing(log, (*path, "panel"), "panel", each.panel, panels)
        if each.on is None or not has_port(log, (*path, "on"), each.on, components):
            continue
        chain, here = {each.id: None}, each
        while here.on and (owner := components.get(here.on.partition(".")[0])):
            if owner.id in sound:
                break
            if owner.id in chain:
                if owner.id == each.id and each.id == min(chain):
                    ring = " on ".join([*chain, owner.id])
                    log.add(
                        (*path, "on"),
                        f"{ring}: a component cannot sit on itself. Correct one of them.",
                    )
                break
            chain[owner.id] = None
            here = owner
        else:
            sound.update(chain)


def used_once(log: Log, lines: Lines, components: Components, closed: Mapping[str, Closed]) -> None:
    """Refuse ports that are asked to carry two things.

    Parameters
    ----------
    log : Log
        Where to note it.
    lines : Mapping
        Lines as typed.
    components : Mapping
        Components by id.
    closed : Mapping
        Answers by port or function.
    """
    uses: list[tuple[str, Path, str]] = []
    for line in lines.values():
        uses.append((line.from_port, (*line.path, "from"), f"line {line.id}"))
        uses.append((line.to_port, (*line.path, "to"), f"line {line.id}"))
    for each in components.values():
        if each.on:
            path: Path = ("components", each.id, "on")
            uses.append((each.on, path, each.id))
            uses.append((f"{each.id}.{each.mount}", path, f"its place on {each.on}"))
    for what, answer in closed.items():
        if answer.how != "none":
            uses.append((what, ("closed", what), f"[closed] ({answer.how})"))
    first: dict[str, str] = {}
    for port, where, who in uses:
        if port in first and port:
            log.add(
                where,
                f"{port} is used twice: by {first[port]} and by {who}. One port carries one thing; "
                f"lead one of them to another port, or put a tee between.",
            )
        first.setdefault(port, who)


def answers(log: Log, closed: Mapping[str, Closed], components: Components) -> None:
    """Refuse answers for what neither a component nor its kind has.

    Parameters
    ----------
    log : Log
        Where to note it.
    closed : Mapping
        Answers by port or function.
    components : Mapping
        Components by id.
    """
    for what, answer in closed.items():
        component, _, name = what.partition(".")
        owner = components.get(component)
        if owner is not None and answer.how == "none":
            kind = kinds.kind(owner.kind)
            if name in owner.ports or kind.knows(name) or component in log.of_no_kind:
                continue
            names = [*owner.ports, *(p.name for p in kind.ports), *(f.name for f in kind.functions)]
            log.add(
                ("closed", what),
                f'{component} has neither a port nor a function "{name[:40]}".'
                f"{nearest(name, names)} Allowed: {listed(dict.fromkeys(names), 40)}.",
            )
            continue
        has_port(log, ("closed", what), what, components)


def hung(log: Log, components: Components) -> None:
    """Refuse a tank that a pump module is said to hang in, and that is not there.

    Parameters
    ----------
    log : Log
        Where to note it.
    components : Mapping
        Components by id.
    """
    tanks = [c.id for c in components.values() if c.kind == "fuel cell"]
    for each in components.values():
        tank = each.traits.get("tank")
        if each.kind == "in-tank fuel pump" and tank is not None and tank not in tanks:
            log.add(
                ("components", each.id, "tank"),
                f"{said(tank)} is no fuel cell of this car; allowed: {listed(tanks)}.",
            )
