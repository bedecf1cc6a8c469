# SPDX-License-Identifier: Apache-2.0
"""Ports: what the kind brings along, overridden by what the builder says."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from linewright.base import units
from linewright.base.codes import RULES
from linewright.base.errors import AmbiguousEndError, EndError
from linewright.base.evidence import Grade, Known, Placed
from linewright.base.finding import Finding
from linewright.base.places import direction
from linewright.car.kinds import Kind, KindPort
from linewright.car.line_index import Path
from linewright.car.model import Medium, Port, Role
from linewright.car.positions import port_place
from linewright.car.table import Log, Table, listed, said
from linewright.ends import notation
from linewright.ends.end import UNKNOWN, End, Gender

_ROLES = [role.value for role in Role]
_MEDIA = [medium.value for medium in Medium]
_KNOWN = [known.value for known in Known]
_PLACED = [placed.value for placed in Placed]
_GENDERS = {Gender.MALE: "male", Gender.FEMALE: "female", Gender.NONE: "neither"}


@dataclass(frozen=True, slots=True)
class Reading:
    """The text of an end, read; ``wrong`` says why it cannot be."""

    end: End = UNKNOWN
    readings: tuple[End, ...] = ()
    is_gender_assumed: bool = False
    wrong: str = ""
    is_ambiguous: bool = False
    said: str = ""


@lru_cache(maxsize=4096)
def read_end(text: str) -> Reading:
    """Read the end of a port; what is ambiguous stays unknown with its readings.

    Parameters
    ----------
    text : str
        As the trade writes it.

    Returns
    -------
    Reading
        The end, or what the text may mean, or why it means nothing.
    """
    try:
        got = notation.read(text, on_component=True)
    except AmbiguousEndError as error:
        return Reading(readings=error.readings, wrong=str(error), is_ambiguous=True)
    except EndError as error:
        return Reading(wrong=str(error))
    return Reading(got.end, (), got.is_gender_assumed, said=got.said)


def from_kind(component: str, name: str, like: KindPort, kind: Kind, size: str) -> Port:
    """Return a port as its kind brings it along: all of it a guess.

    Parameters
    ----------
    component : str
        Id of the component.
    name : str
        Name of the port.
    like : KindPort
        What the kind says of it.
    kind : Kind
        The kind.
    size : str
        The component's own dash, for ends that follow it.

    Returns
    -------
    Port
        Marked as brought by the kind.
    """
    text = like.end.replace("{size}", size) if size or "{size}" not in like.end else ""
    read = read_end(text) if text else Reading()
    # What follows the component's own size is as well known as that: the builder typed it.
    known = Known.READ if "{size}" in like.end and size else Known.GUESS
    return Port(
        id=f"{component}.{name}",
        component=component,
        name=name,
        end=read.end,
        typed=text,
        role=like.role,
        medium=like.medium or kind.medium,
        known=known if text else Known.UNKNOWN,
        points=direction(like.points) if like.points else None,
        from_kind=True,
        points_from_kind=bool(like.points),
    )


def _ambiguous(log: Log, port: Port, read: Reading) -> None:
    log.findings.append(
        Finding(
            code="ambiguous-end",
            severity=RULES["ambiguous-end"],
            about=(port.id,),
            reason=read.wrong,
            remedy=f"Measure {port.id}, then write its end as one of: "
            f"{listed(notation.show(end) for end in read.readings)}.",
            value=port.typed,
            grade=Grade.STATED,
        )
    )


def _gender(log: Log, port: Port) -> None:
    word = _GENDERS[port.end.gender]
    log.findings.append(
        Finding(
            code="gender-assumed",
            severity=RULES["gender-assumed"],
            about=(port.id,),
            reason=f'"{port.typed}" does not say male or female; {port.id} is taken as {word}, '
            f"as the trade means it on a component.",
            remedy=f'Look at it, and write end = "{port.typed} {word}" or the other.',
            value=port.typed,
            grade=Grade.PRACTICE,
        )
    )


def _with_end(log: Log, path: Path, base: Port, text: str, known: Known) -> Port:
    """Return a port with the end that was typed for it."""
    read = read_end(text)
    port = replace(
        base,
        end=read.end,
        typed=text,
        readings=read.readings,
        is_gender_assumed=read.is_gender_assumed,
        known=Known.UNKNOWN if read.end.is_unknown else known,
        from_kind=False,
    )
    if read.is_ambiguous:
        _ambiguous(log, port, read)
    elif read.wrong:
        log.add(path, read.wrong)
        return port
    if read.said:
        log.assume((*path, "reading"), read.said, Grade.DERIVED)
    if read.is_gender_assumed:
        log.assume((*path, "gender"), _GENDERS[read.end.gender], Grade.PRACTICE)
        if not known.is_confirmed:
            _gender(log, port)
    if read.said:
        log.assume(path, read.said, Grade.STATED)
    return port


def port(log: Log, path: Path, value: object, base: Port, known: Known) -> Port:
    """Read one port over what its kind says of it.

    Parameters
    ----------
    log : Log
        Where to note what is wrong.
    path : tuple
        Where the port stands in the document.
    value : object
        A table, or a text: its end alone.
    base : Port
        What the kind brings, or an empty port.
    known : Known
        How an end is known where nothing is said.

    Returns
    -------
    Port
        The port.
    """
    base = replace(base, line_number=log.line(path))
    if isinstance(value, str):
        return _with_end(log, path, base, value.strip(), known)
    table = Table(value, path, log, "port")
    if not isinstance(value, dict):
        return base
    text = table.text("end")
    typed_known = Known(table.choice("known", _KNOWN, known))
    places = port_place(table)
    role = table.choice("role", _ROLES, "")
    medium = table.choice("medium", _MEDIA, "")
    placed = table.choice("placed", _PLACED, "")
    depth, spot_face, room, bore = (
        table.figure(key, units.length, "m", above=0)
        for key in ("depth", "spot-face", "room", "bore")
    )
    found = replace(
        base,
        role=Role(role) if role else base.role,
        medium=Medium(medium) if medium else base.medium,
        at=places["at"] or base.at,
        at_car=places["at_car"],
        points=None if places["points_car"] else places["points"] or base.points,
        points_car=places["points_car"],
        points_from_kind=base.points_from_kind
        and places["points"] is None
        and places["points_car"] is None,
        placed=Placed(placed) if placed else None,
        material=table.text("material"),
        depth=depth.value if depth else None,
        spot_face=spot_face.value if spot_face else None,
        room=room.value if room else None,
        bore=bore.value if bore else None,
        note=table.text("note", most=2000),
    )
    table.done()
    if table.has("end"):
        return _with_end(log, (*path, "end"), found, text, typed_known)
    if table.has("known") and not found.end.is_unknown:
        # The builder has looked, and found what the kind says.
        return replace(found, known=typed_known, from_kind=False)
    return found


def typed_ports(log: Log, root: Table) -> Mapping[str, dict[str, tuple[Path, object]]]:
    """Collect ``[ports]`` and ``[components.X.ports]`` by component.

    Parameters
    ----------
    log : Log
        Where to note what is wrong.
    root : Table
        The document.

    Returns
    -------
    dict
        Component id to port name to where it stands and what stands there.
    """
    found: dict[str, dict[str, tuple[Path, object]]] = {}
    top = root.table("ports", "list of ports")
    for key, value in top.items() if top else ():
        component, dot, name = key.partition(".")
        if not dot and isinstance(value, dict) and not {"end", "known", "role"} & set(value):
            # FC.pick-up without quotes: TOML reads a table in a table.
            for inner, port_value in value.items():
                _enter(log, found, (key, inner), ("ports", key, inner), port_value)
            continue
        if not dot:
            log.add(
                ("ports", key),
                f'{said(key)} is no id of a port; write component and port, as in "FH.in-L".',
            )
            continue
        _enter(log, found, (component, name), ("ports", key), value)
    components = root.values.get("components")
    for component, value in components.items() if isinstance(components, dict) else ():
        inner = value.get("ports") if isinstance(value, dict) else None
        for name, port_value in inner.items() if isinstance(inner, dict) else ():
            path = ("components", component, "ports", name)
            _enter(log, found, (component, name), path, port_value)
    return found


def _enter(
    log: Log,
    found: dict[str, dict[str, tuple[Path, object]]],
    key: tuple[str, str],
    path: Path,
    value: object,
) -> None:
    component, name = key
    ports = found.setdefault(component, {})
    if name in ports:
        log.add(path, f"is described twice; the other place is line {log.line(ports[name][0])}.")
        return
    ports[name] = (path, value)
