# SPDX-License-Identifier: Apache-2.0
"""Components: their kind, what may be said of them, and their ports."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from linewright.base import units
from linewright.base.evidence import Grade, Known
from linewright.base.ids import is_word
from linewright.car import kinds
from linewright.car.bodies import BODIES, solid
from linewright.car.kinds import Kind
from linewright.car.line_index import Path
from linewright.car.model import Component, Port, Shape
from linewright.car.ports import from_kind, port
from linewright.car.positions import place
from linewright.car.quantities import line_size
from linewright.car.sections import Header, word_id
from linewright.car.table import Log, Table, listed, said
from linewright.catalogue.stock import generic

_HAVE = ("yes", "posted", "no")

TypedPorts = Mapping[str, tuple[Path, object]]


@dataclass(frozen=True, slots=True)
class Mentions:
    """Ports that the rest of the document speaks of, by component."""

    ports: Mapping[str, tuple[str, ...]]

    def of(self, component: str) -> tuple[str, ...]:
        """Return the names of the ports of one component."""
        return self.ports.get(component, ())


def mentions(root: Table) -> Mentions:
    """Collect the ports that lines, answers and mounted components speak of.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    Mentions
        Whether these ports can be is looked at later.
    """
    said_of: list[object] = []
    for value in _tables(root.values.get("lines")):
        said_of += [value.get("from"), value.get("to")]
    for value in _tables(root.values.get("components")):
        said_of.append(value.get("on"))
    closed = root.values.get("closed")
    for key, value in closed.items() if isinstance(closed, dict) else ():
        # What is answered by "none" is not there.
        if isinstance(value, str) and not value.strip().lower().startswith("none"):
            said_of.append(key)
    found: dict[str, dict[str, None]] = {}
    for text in said_of:
        if isinstance(text, str) and "." in text:
            component, _, name = text.strip().partition(".")
            found.setdefault(component, {})[name] = None
    return Mentions({component: tuple(names) for component, names in found.items()})


def _tables(value: object) -> Iterable[dict[str, object]]:
    items = value.values() if isinstance(value, dict) else ()
    return [item for item in items if isinstance(item, dict)]


def _kind(table: Table) -> Kind:
    name = table.needed("kind", "fuel pump")
    if name:
        try:
            return kinds.kind(name)
        except LookupError as error:
            table.fault("kind", str(error))
    table.log.of_no_kind.add(str(table.path[-1]))
    return kinds.kind("component")


def _trait(table: Table, key: str, how: str) -> str | float | bool | None:
    """Read one trait as its kind says it is read."""
    if how == "flag":
        return table.flag(key)
    if how == "word":
        return table.text(key) or None
    if "|" in how:
        return table.choice(key, how.split("|"), "") or None
    figure = table.figure(key, units.READERS[how], "")
    return figure.value if figure else None


def _traits(table: Table, kind: Kind) -> dict[str, str | float | bool]:
    found: dict[str, str | float | bool] = {}
    for key, how in kind.traits.items():
        if key == "ports" and isinstance(table.values.get("ports"), dict):
            continue
        value = _trait(table, key, how)
        if value is not None:
            found[key] = value
    return found


def _part(table: Table) -> str:
    """Read the shape to buy a component as."""
    shape = table.text("part")
    if shape:
        shapes = {part.shape for part in generic().parts}
        shapes |= {kind.buy for kind in kinds.KINDS.values() if kind.buy}
        table.choice("part", sorted(shapes), "")
    return shape


def takes_dash(kind: Kind) -> bool:
    """Whether ``size`` of such a component is its dash, and not its body.

    Parameters
    ----------
    kind : Kind
        The kind.

    Returns
    -------
    bool
        True for parts of the trade, such as tees and bulkheads.
    """
    return kind.buy is not None or any("{size}" in port.end for port in kind.ports)


def _own_ports(
    log: Log,
    name: str,
    kind: Kind,
    dash: str,
    known: Known,
    typed: TypedPorts,
    spoken: Iterable[str],
) -> dict[str, Port]:
    """Return the ports of a component: the kind's, then those only typed or spoken of."""
    names = [p.name for p in kind.ports if not p.optional or p.name in typed or p.name in spoken]
    names += [n for n in typed if n not in names]
    names += [n for n in spoken if n not in names and kind.port(n) is not None]
    found: dict[str, Port] = {}
    for port_name in names:
        like = kind.port(port_name)
        base = (
            from_kind(name, port_name, like, kind, dash)
            if like
            else Port(id=f"{name}.{port_name}", component=name, name=port_name, medium=kind.medium)
        )
        if port_name in typed:
            path, value = typed[port_name]
            if not is_word(port_name):
                log.add(
                    path,
                    f"{said(port_name)} is no name of a port; allowed: letters, digits and single "
                    f"hyphens between them, at most 40, as in {_hyphened(port_name)}.",
                )
                continue
            base = port(log, path, value, base, known)
        found[port_name] = base
    return found


def _hyphened(name: str) -> str:
    """The name as it may stand, where only its signs are not allowed."""
    better = re.sub(r"[^0-9A-Za-z]+", "-", name).strip("-")
    return said(better if is_word(better) else "in-L")


def _mounted(table: Table, ports: dict[str, Port], busy: Iterable[str], known: Known) -> str | None:
    """Tell by which port a component is screwed on, and read its end."""
    on, has_end = table.text("on"), table.has("end")
    table.raw("end")
    if not on and not has_end:
        return None
    name = table.path[-1]
    if "mount" in ports or not ports:
        mount = "mount"
    else:
        taken = set(busy)
        mount = next((n for n in ("weld", *ports) if n in ports and n not in taken), "mount")
    base = ports.get(mount) or Port(id=f"{name}.{mount}", component=str(name), name=mount)
    if has_end:
        text = table.values["end"]
        # The end of a part that is screwed on is known as well as the part: typed by its builder.
        base = port(table.log, table.at("end"), text, base, known)
    ports[mount] = base
    return mount if on else None


def component(
    log: Log, name: str, value: object, header: Header, typed: TypedPorts, spoken: tuple[str, ...]
) -> Component | None:
    """Read one component.

    Parameters
    ----------
    log : Log
        Where to note what is wrong.
    name : str
        Its id.
    value : object
        What stands in the document.
    header : Header
        The defaults of the document.
    typed : Mapping
        Its ports as typed, wherever they stand.
    spoken : tuple of str
        Its ports that the rest of the document speaks of.

    Returns
    -------
    Component or None
        None where its table cannot be read at all.
    """
    path = ("components", name)
    if isinstance(value, str):
        value = {"kind": value}
    table = Table(value, path, log, "component")
    if not word_id(log, path, "component") or not isinstance(value, dict):
        return None
    kind = _kind(table)
    traits = _traits(table, kind)
    dash, extents, form, mesh = "", None, None, None
    if takes_dash(kind):
        dash = table.read("size", line_size) or ""
        if dash:
            traits["size"] = dash
    else:
        form, extents, mesh = solid(table)
    if (table.has("on") or table.has("end")) and kind.port("mount") is not None:
        spoken = ("mount", *spoken)
    ports = _own_ports(log, name, kind, dash, header.known, typed, spoken)
    mount = _mounted(table, ports, spoken, header.known)
    raw_ports = table.raw("ports")
    if raw_ports is not None and not isinstance(raw_ports, dict) and "ports" not in kind.traits:
        table.fault(
            "ports", f"{said(raw_ports)} is no list of ports; write [components.{name}.ports]."
        )
    rides, material = table.text("rides"), table.text("material")
    if rides and not is_word(rides):
        table.fault(
            "rides", f"{said(rides)} is no body; allowed: {listed(BODIES)}, or another word."
        )
    found = Component(
        id=name,
        kind=kind.name,
        name=table.text("name"),
        system=table.text("system") or None,
        place=place(table, header.placed, tuple(ports)),
        size=extents,
        round=form in (Shape.CYLINDER, Shape.CAPSULE),
        volume=table.figure("volume", units.volume, "m3", above=0),
        rides=rides or kind.rides,
        material=material or kind.material,
        on=table.text("on") or None,
        mount=mount,
        part=_part(table) or kind.buy,
        panel=table.text("panel") or None,
        origin=table.text("origin"),
        have=table.choice("have", _HAVE, "no"),
        mass=table.figure("mass", units.mass, "kg", above=0),
        ports=ports,
        traits=traits,
        line_number=log.line(path),
        shape=form,
        mesh=mesh,
    )
    table.text("note", most=2000)
    if name not in log.of_no_kind:
        # Which keys a component takes hangs on its kind.
        table.done()
    if not rides and not found.on:
        log.assume((*path, "rides"), kind.rides, Grade.PRACTICE)
    if not material and kind.material:
        log.assume((*path, "material"), kind.material, Grade.PRACTICE)
    for each in ports.values():
        if each.from_kind and each.typed:
            log.assume(("ports", each.id, "end"), each.typed, Grade.PRACTICE)
    return found


def components(
    root: Table, header: Header, typed: Mapping[str, TypedPorts], spoken: Mentions
) -> dict[str, Component]:
    """Read ``[components.X]``.

    Parameters
    ----------
    root : Table
        The document.
    header : Header
        The defaults of the document.
    typed : Mapping
        Ports as typed, by component.
    spoken : Mentions
        Ports that the rest of the document speaks of.

    Returns
    -------
    dict
        Components by id, in the order of the document.
    """
    table = root.table("components", "list of components")
    if table is None:
        root.fault("", "[components] is missing; write for example [components.FP] and its kind.")
        return {}
    read = [
        component(root.log, name, value, header, typed.get(name, {}), spoken.of(name))
        for name, value in table.items()
    ]
    return {each.id: each for each in read if each}


def riding(found: Mapping[str, Component], root: Table) -> dict[str, Component]:
    """Let what is screwed on a component ride with it, unless its builder says otherwise.

    Parameters
    ----------
    found : Mapping
        Components as read.
    root : Table
        The document.

    Returns
    -------
    dict
        The same components, in the same order.
    """
    raw = root.values.get("components")
    typed = {
        name
        for name, values in (raw.items() if isinstance(raw, dict) else ())
        if isinstance(values, dict) and "rides" in values
    }
    rides: dict[str, str] = {}
    for name, each in found.items():
        chain = {name: None}
        here = each
        while here.on and here.id not in typed and here.id not in rides:
            owner = found.get(here.on.partition(".")[0])
            if owner is None or owner.id in chain:
                break
            chain[owner.id] = None
            here = owner
        body = rides.get(here.id, here.rides)
        rides.update(dict.fromkeys(chain, body))
    return {name: replace(each, rides=rides[name]) for name, each in found.items()}
