# SPDX-License-Identifier: Apache-2.0
"""The short sections of the document: car, systems, panels, parts, overrules, answers."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from linewright.base import units
from linewright.base.errors import UnitError
from linewright.base.evidence import Figure, Grade, Known, Placed
from linewright.base.ids import is_word
from linewright.base.places import height
from linewright.car.hose_names import hose_name
from linewright.car.model import Medium, Panel, System
from linewright.car.quantities import open_size
from linewright.car.table import Log, Table, listed, said
from linewright.car.walls import wall
from linewright.tables.load import rows

#: Letters of LOOK: the lines of a system, and what is drawn apart.
LETTERS: Mapping[Medium, str] = {
    Medium.OIL: "O",
    Medium.COOLANT: "C",
    Medium.CHARGE_COOLANT: "W",
    Medium.FUEL: "F",
    Medium.AIR: "A",
}
_MEDIA = [medium.value for medium in Medium]
_SHOW = ("metric", "inch")

#: How thick the skin of a car is where nobody says. [m]
_SKIN = 0.001


@dataclass(frozen=True, slots=True)
class Header:
    """What ``[car]`` says: the car's name, and the defaults for the rest."""

    name: str
    datum: str
    use: str
    show: str
    note: str
    known: Known
    placed: Placed
    seed: int = 1
    ground: float | None = None


def header(root: Table) -> Header:
    """Read ``[car]``.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    Header
        With defaults where nothing was typed.
    """
    table = root.table("car", "car")
    if table is None:
        root.fault("", '[car] is missing; write at least [car] and name = "Juniper".')
        return Header("", "", "", "metric", "", Known.GUESS, Placed.GUESS)
    found = Header(
        name=table.needed("name", "Juniper"),
        datum=table.text("datum"),
        use=table.text("use"),
        show=table.choice("show", _SHOW, "metric"),
        note=table.text("note", most=5000),
        known=Known(table.choice("known", [k.value for k in Known], Known.GUESS)),
        placed=Placed(table.choice("placed", [p.value for p in Placed], Placed.GUESS)),
        seed=_seed(table),
        ground=table.read("ground", height),
    )
    table.done()
    if not table.has("show"):
        root.log.assume(("car", "show"), "metric", Grade.PRACTICE)
    if not table.has("known"):
        root.log.assume(("car", "known"), "guess", Grade.PRACTICE)
    if not table.has("placed"):
        root.log.assume(("car", "placed"), "guess", Grade.PRACTICE)
    return found


def _seed(table: Table) -> int:
    """Where the draws of what is not known begin: 1 unless typed."""
    value = table.raw("seed")
    if value is None:
        return 1
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value < 2**32:
        table.fault("seed", f"{said(value)} is no seed; write a whole number from 0 on, as 1.")
        return 1
    return value


def word_id(log: Log, path: tuple[str, ...], what: str) -> bool:
    """Whether the last word of a path can be an id; notes a fault if not.

    Parameters
    ----------
    log : Log
        Where to note it.
    path : tuple
        Where the id stands.
    what : str
        The noun, as in "component".

    Returns
    -------
    bool
        True if it can.
    """
    if is_word(path[-1]):
        return True
    log.add(
        path,
        f"{said(path[-1])} is no id of a {what}; allowed: letters, digits and single hyphens "
        f'between them, at most 40, as in "oil-tank".',
    )
    return False


def _medium_of(words: str) -> Medium | None:
    """Tell the medium from the id and the fluid of a system."""
    text = words.lower().replace("-", " ").replace("_", " ")
    charge = re.search(r"\b(charge|intercooler|chargecooler)\b", text) is not None
    if charge and re.search(r"\b(coolant|cooler|water|glycol|intercooler|chargecooler)\b", text):
        return Medium.CHARGE_COOLANT
    if charge or re.search(r"\b(air|boost|intake)\b", text):
        return Medium.AIR
    if re.search(r"\b(fuel|petrol|gasoline|e\d{2,3}|ethanol|methanol|diesel)\b", text):
        return Medium.FUEL
    if re.search(r"\boil\b|\b\d{1,2}w\s?\d{2}\b|\batf\b", text):
        return Medium.OIL
    if re.search(r"\b(coolant|water|glycol|antifreeze)\b", text):
        return Medium.COOLANT
    return None


def _system(log: Log, name: str, value: object) -> System | None:
    path = ("systems", name)
    table = Table(value, path, log, "system")
    if not word_id(log, path, "system") or not isinstance(value, dict):
        return None
    fluid = table.needed("fluid", "15W-50")
    typed = table.choice("medium", _MEDIA, "")
    medium = Medium(typed) if typed else _medium_of(name) or _medium_of(fluid)
    if medium is None:
        table.fault(
            "",
            "its medium can be told neither from its id nor from its fluid; add medium, one of: "
            f"{listed(_MEDIA)}.",
        )
        return None
    if not typed:
        log.assume((*path, "medium"), medium.value, Grade.DERIVED)
    letter = table.text("letter") or LETTERS[medium]
    if not re.fullmatch("[A-Z]", letter):
        table.fault("letter", f"{said(letter)} is not allowed; allowed: one capital letter.")
    found = System(
        id=name,
        medium=medium,
        fluid=fluid,
        hose=table.read("hose", hose_name) or "",
        size=table.read("size", open_size) or "",
        letter=letter,
        temperature=table.figure("hottest", units.temperature, "K"),
        gauge_pressure=table.figure("highest", units.gauge_pressure, "Pa"),
        line_number=log.line(path),
    )
    table.text("note")
    table.done()
    return found


def systems(root: Table) -> dict[str, System]:
    """Read ``[systems.X]``.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    dict
        Systems by id, in the order of the document.
    """
    table = root.table("systems", "list of systems")
    if table is None:
        root.fault(
            "", '[systems] is missing; write for example [systems.oil] and fluid = "15W-50".'
        )
        return {}
    read = [_system(root.log, name, value) for name, value in table.items()]
    return {system.id: system for system in read if system}


def panels(root: Table, default: Placed = Placed.GUESS) -> dict[str, Panel]:
    """Read ``[panels.X]``.

    Parameters
    ----------
    root : Table
        The document.
    default : Placed
        How a position is known where nothing is said.

    Returns
    -------
    dict
        Panels by id.
    """
    table = root.table("panels", "list of panels")
    found: dict[str, Panel] = {}
    for name, value in table.items() if table else ():
        path = ("panels", name)
        panel = Table(value, path, root.log, "panel")
        if not word_id(root.log, path, "panel") or not isinstance(value, dict):
            continue
        if panel.values.get("skin") is True and not panel.has("thickness"):
            thickness: Figure | None = Figure(_SKIN, "m", Grade.PRACTICE, "common practice")
            root.log.assume((*path, "thickness"), "1 mm", Grade.PRACTICE)
        else:
            panel.needed("thickness", "1.5 mm")
            thickness = panel.figure("thickness", units.length, "m", above=0)
        material = panel.text("material")
        if not material:
            material = "steel"
            root.log.assume((*path, "material"), material, Grade.PRACTICE)
        panel.text("note")
        where = wall(panel, default)
        panel.done()
        if thickness:
            found[name] = replace(where, id=name, thickness=thickness, material=material)
    return found


def _share(text: str) -> float:
    share = units.percent(text)
    if share > 1:
        raise UnitError(f"{said(text)} is more than the whole; the greatest share here is 100 %.")
    return share


def _degrees(text: str) -> float:
    return round(units.angle(text) / units.DEGREE, 9)


#: How a setting is typed, by the unit that its table keeps it in: reader, unit inside, as shown.
_SETTINGS: Mapping[str, tuple[Callable[[str], float], str, str]] = {
    "mm": (units.length, "m", " mm"),
    "m": (units.length, "m", " m"),
    "um": (units.length, "m", " µm"),
    "%": (_share, "-", " %"),
    "deg": (_degrees, "deg", "°"),
    "c": (units.temperature, "K", " °C"),
    "bar": (units.pressure_difference, "Pa", " bar"),
    "kg": (units.mass, "kg", " kg"),
    "m/s": (units.speed, "m/s", " m/s"),
    "-": (units.number, "-", ""),
}
#: How figures of flow are read, by the unit of their row.
_BEHAVIOURS: dict[str, tuple[Callable[[str], float], str]] = {
    "kW": (units.power, "W"),
    "W": (units.power, "W"),
    "kg": (units.mass, "kg"),
    "s": (units.time, "s"),
    "rpm": (units.turning, "rad/s"),
    "bar": (units.pressure_difference, "Pa"),
    "kPa": (units.pressure_difference, "Pa"),
    "L/min": (units.flow, "m3/s"),
    "L": (units.volume, "m3"),
    "mm": (units.length, "m"),
    "m/s": (units.speed, "m/s"),
    "K": (units.temperature_difference, "K"),
    "°C": (units.temperature, "K"),
    "V": (units.voltage, "V"),
    "-": (units.number, "-"),
}
#: Settings that something is divided by.
_MORE_THAN_NOTHING = ("clip-spacing", "clip-spacing-fuel")


def settings(root: Table) -> dict[str, Figure]:
    """Read ``[settings]``: figures of the trade that the builder sets for himself.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    dict
        What was typed; the rest keeps the trade's figures, noted as assumed.
    """
    raw = root.values.get("settings", {})
    table = Table(raw, ("settings",), root.log, "table of settings")
    found: dict[str, Figure] = {}
    for row in rows("settings"):
        name = row["name"]
        reader, unit, shown = _SETTINGS[row["unit"]]
        least = 0.0 if name in _MORE_THAN_NOTHING else None
        figure = table.figure(name, reader, unit, above=least)
        if figure:
            found[name] = figure
        elif not table.has(name):
            root.log.assume(("settings", name), f"{row['value']}{shown}", Grade(row["grade"]))
    table.done()
    return found


def flow(root: Table) -> dict[str, Figure]:
    """Read ``[flow]``: figures that stand in, in flow, for what is not typed of a part.

    Parameters
    ----------
    root : Table
        The document.

    Returns
    -------
    dict
        What was typed. What stands in for the rest depends on the parts of the car: flow lists
        what it used.
    """
    table = Table(root.values.get("flow", {}), ("flow",), root.log, "table of figures of flow")
    found: dict[str, Figure] = {}
    for row in rows("behaviours"):
        if row["unit"] in _BEHAVIOURS:
            reader, unit = _BEHAVIOURS[row["unit"]]
            figure = table.figure(row["name"], reader, unit)
            if figure:
                found[row["name"]] = figure
    table.done()
    return found
