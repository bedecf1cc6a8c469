# SPDX-License-Identifier: Apache-2.0
"""The car document, read: a car, or all that is wrong with the text."""

import hashlib
import tomllib
from pathlib import Path

from linewright.base.errors import DocumentError, Fault
from linewright.car import (
    bodies,
    components,
    conditions,
    consistency,
    decisions,
    held_parts,
    inference,
    movement,
    sections,
    surroundings,
    syntax,
)
from linewright.car.line_index import line_index
from linewright.car.lines import typed_lines
from linewright.car.model import Car
from linewright.car.ports import typed_ports
from linewright.car.table import Log, Table
from linewright.car.upgrade import upgraded

#: A document is typed by hand; more than this is some other file.
MOST_BYTES = 1_000_000

_SECTIONS = (
    "car",
    "systems",
    "panels",
    "bodies",
    "zones",
    "guides",
    "movement",
    "conditions",
    "components",
    "ports",
    "lines",
    "closed",
    "parts",
    "settings",
    "flow",
    "overruled",
    "retired",
)


def read(path: Path | str) -> Car:
    """Read a car document.

    Parameters
    ----------
    path : Path or str
        The file.

    Returns
    -------
    Car
        The car, with its defaults and the findings of reading.

    Raises
    ------
    DocumentError
        If the file cannot be read, or its text is not usable; all faults are listed.
    """
    file = Path(path)
    try:
        with file.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except IsADirectoryError as error:
        fault = Fault("is a folder. Name the document in it, for example car.toml.")
        raise DocumentError(str(path), [fault]) from error
    except FileNotFoundError as error:
        fault = Fault("there is no such file. Begin one with: linewright new car.toml")
        raise DocumentError(str(path), [fault]) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise DocumentError(str(path), [Fault(f"cannot be read: {reason}.")]) from error
    return read_bytes(data, str(path))


def read_bytes(data: bytes, file: str = "car.toml") -> Car:
    """Read a car document from its bytes.

    Parameters
    ----------
    data : bytes
        UTF-8.
    file : str
        Its name, for messages.

    Returns
    -------
    Car
        The car.

    Raises
    ------
    DocumentError
        If it is not UTF-8, or its text is not usable.
    """
    if len(data) > MOST_BYTES:
        fault = Fault(
            f"is larger than {MOST_BYTES // 1_000_000} MB; a car document is typed by hand."
        )
        raise DocumentError(file, [fault])
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        fault = Fault(
            f"byte {data[error.start]:#04x} is not UTF-8 text. Save the document as UTF-8.",
            "",
            line,
        )
        raise DocumentError(file, [fault]) from error
    return read_text(text, file)


def _parsed(text: str, file: str) -> tuple[dict[str, object], Log]:
    """Return the document as the standard reader gives it, with the lines of its keys."""
    try:
        document = tomllib.loads(text)
        return document, Log(file, line_index(text.replace("\r\n", "\n")))
    except RecursionError as error:
        fault = Fault("has lists or tables too deep in each other to be a car document.")
        raise DocumentError(file, [fault]) from error
    except ValueError as error:
        raise DocumentError(file, [syntax.fault(text, str(error))]) from error


def read_text(text: str, file: str = "car.toml") -> Car:
    """Read a car document from its text.

    Parameters
    ----------
    text : str
        TOML.
    file : str
        Its name, for messages.

    Returns
    -------
    Car
        The car.

    Raises
    ------
    DocumentError
        If the text is not usable; all faults are listed, in the order of the document.
    """
    document, log = _parsed(text, file)
    root = Table(upgraded(document, log), (), log, "car document")
    for section in _SECTIONS:
        root.raw(section)
    header = sections.header(root)
    systems = sections.systems(root)
    panels = sections.panels(root, header.placed)
    solids = bodies.bodies(root, header.placed)
    zones = bodies.zones(root, header.placed)
    guides = surroundings.guides(root)
    moves = movement.movement(root)
    down = surroundings.conditions(root)
    if solids or zones or guides or moves or down:
        for name, condition in conditions.of_use(header.use).items():
            if name not in down:
                log.assume(("conditions", name), conditions.shown(condition), condition.grade)
    typed = typed_ports(log, root)
    spoken = components.mentions(root)
    found = components.components(root, header, typed, spoken)
    found = components.riding(found, root)
    lines = typed_lines(root)
    closed = decisions.closings(root)
    retired = decisions.retired(root)
    parts = held_parts.parts(root)
    overruled = decisions.overrules(root)
    settings = sections.settings(root) | sections.flow(root)
    root.done()

    consistency.ids(root, retired)
    consistency.port_names(log, found)
    consistency.unknown_owners(log, typed, found)
    consistency.mounted(log, found, systems, panels)
    consistency.hung(log, found)
    consistency.zoned(log, zones, found, solids)
    consistency.run_in(log, down, found, systems)
    consistency.drilled(log, panels, lines)
    sound = consistency.sound_lines(log, lines, found, systems, panels, guides)
    consistency.used_once(log, sound, found, closed)
    consistency.answers(log, closed, found)

    of_ports = inference.port_systems(found, sound, systems)
    found = inference.with_systems(found, systems, of_ports)
    done = [inference.finished(log, line, found, systems, of_ports) for line in sound.values()]
    log.raise_if_any()
    return Car(
        name=header.name,
        datum=header.datum,
        use=header.use,
        show=header.show,
        note=header.note,
        seed=header.seed,
        ground=header.ground,
        systems=systems,
        components=found,
        lines={line.id: line for line in done if line},
        panels=panels,
        parts=parts,
        closed=closed,
        overrules=overruled,
        retired=retired,
        settings=settings,
        bodies=solids,
        zones=zones,
        guides=guides,
        movement=moves,
        conditions=down,
        findings=tuple(log.findings),
        assumed=tuple(log.assumed),
        sha256=hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest(),
        file=file,
    )
