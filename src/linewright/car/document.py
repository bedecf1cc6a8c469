# SPDX-License-Identifier: Apache-2.0
"""A car as a whole document: what its builder said and what was inferred, all spelt out.

The text that a builder typed is changed by `car.write`, which keeps it; this is for a car
that has no text yet, and it proves the reader: read again, it gives the same car.
"""

import json
from collections.abc import Mapping

from linewright.base.dimensions import DEGREE, FOOT, INCH
from linewright.base.evidence import Figure, Grade, Known
from linewright.car import kinds
from linewright.car.model import (
    AUTO,
    Body,
    Car,
    Component,
    Condition,
    Line,
    LineEnd,
    Mesh,
    Panel,
    Place,
    Port,
    Shape,
    Tier,
    Travel,
    Vector,
    Zone,
)
from linewright.car.upgrade import FORMAT
from linewright.ends import notation
from linewright.tables.load import rows

_UNITS = {
    "length": "m",
    "volume": "m3",
    "flow": "m3/s",
    "pressure difference": "Pa",
    "gauge pressure": "Pa",
    "temperature": "K",
    "power": "W",
    "torque": "N m",
    "mass": "kg",
}
_LENGTH_KEYS = {Tier.STRING: "string", Tier.MOCKED_UP: "mocked-up", Tier.GUESS: "guess"}


def _text(value: str) -> str:
    # A JSON string is a TOML basic string, but for DEL, which TOML wants escaped.
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _value(value: object) -> str:
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            return _text(value)
        case Mapping():
            return _inline(value)
        case list() | tuple():
            return f"[{', '.join(_value(item) for item in value)}]"
        case _:
            return repr(value)


def _inline(values: Mapping[str, object]) -> str:
    kept = [(k, v) for k, v in values.items() if v not in (None, "", ()) and v != {}]
    return "{ " + ", ".join(f"{k} = {_value(v)}" for k, v in kept) + " }"


def _figure(figure: Figure | None, unit: str) -> str | None:
    return None if figure is None else f"{figure.value!r} {unit}"


def _metres(value: float | None) -> str | None:
    return None if value is None else f"{value!r} m"


def _point(value: Vector | None, unit: str = " m") -> str | None:
    return None if value is None else ", ".join(repr(number) for number in value) + unit


def _size(size: str) -> str:
    return f"{size} mm" if size and size != AUTO and not size.startswith("-") else size


def _end(end: LineEnd) -> dict[str, object]:
    return {
        "angle": end.angle,
        "swivel": end.swivel,
        "size": _size(end.size or ""),
        "hose": end.hose,
        "via": end.via,
        "fit": end.fit,
    }


def _line(line: Line) -> dict[str, object]:
    length = {_LENGTH_KEYS[line.tier]: _figure(line.string, "m")} if line.string else {}
    return {
        "from": line.from_port,
        "to": line.to_port,
        "system": line.system,
        "medium": line.medium,
        "size": _size(line.size),
        "hose": line.hose,
        "service": line.service,
        "ends": [_end(end) for end in line.ends],
        **length,
        "string-from": line.string_from if line.string else None,
        "crosses": line.crosses,
        "passes": line.passes,
        "passes-at": [_figure(figure, "m") for figure in line.passes_at] or None,
        "follows": line.follows,
        "sleeve": line.sleeve,
        "note": line.note,
        "clearance": _figure(line.clearance, "m"),
        "most-bends": line.most_bends,
        "crimped": line.is_crimped or None,
    }


def _port(port: Port) -> dict[str, object]:
    is_kinds = port.from_kind
    return {
        "end": None if is_kinds else port.typed,
        "known": None if is_kinds or port.known is Known.UNKNOWN else port.known,
        "role": port.role,
        "medium": port.medium,
        "at": _point(port.at),
        "at_car": _point(port.at_car),
        "points": None if port.points_car or port.points_from_kind else _point(port.points, ""),
        "points_car": _point(port.points_car, ""),
        "material": port.material,
        "depth": _metres(port.depth),
        "spot-face": _metres(port.spot_face),
        "room": _metres(port.room),
        "bore": _metres(port.bore),
        "note": port.note,
        "placed": port.placed,
    }


def _traits(component: Component) -> dict[str, object]:
    how = kinds.kind(component.kind).traits
    found: dict[str, object] = {}
    for name, value in component.traits.items():
        unit = _UNITS.get(how.get(name, "word"))
        if name == "size" and "size" not in how:
            found[name] = _size(str(value))
        else:
            found[name] = f"{value!r} {unit}" if unit else value
    return found


def _component(component: Component) -> dict[str, object]:
    found: dict[str, object] = {
        "kind": component.kind,
        "name": component.name,
        "system": component.system,
        **_solid(component.shape, component.size, component.mesh, is_round=component.round),
        "volume": _figure(component.volume, "m3"),
        "rides": component.rides,
        "material": component.material,
        "on": component.on,
        "part": component.part,
        "panel": component.panel,
        "origin": component.origin,
        "have": component.have,
        "mass": _figure(component.mass, "kg"),
        **_traits(component),
    }
    if component.place:
        found |= _place(component.place)
    return found


def _place(place: Place) -> dict[str, object]:
    found: dict[str, object] = {"at": {place.anchor: _point(place.at)}, "placed": place.placed}
    for key, angle in (("yaw", place.yaw), ("pitch", place.pitch), ("roll", place.roll)):
        found[key] = f"{angle / DEGREE:.15g}°" if angle else None
    return found


def _solid(
    shape: Shape | None, size: Vector | None, mesh: Mesh | None, *, is_round: bool
) -> dict[str, object]:
    """Size, shape where the size does not tell it, mesh."""
    found: dict[str, object] = {}
    if size:
        x, y, z = size
        found["size"] = f"{x!r} dia x {z!r} m" if is_round else f"{x!r} x {y!r} x {z!r} m"
    if shape is Shape.CAPSULE:
        found["shape"] = shape
    if mesh:
        units = {1e-3: "mm", 1e-2: "cm", 1.0: "m", INCH: "in", FOOT: "ft"}
        found |= {"mesh": mesh.file, "mesh-unit": units[mesh.scale]}
    return found


def _body(body: Body) -> dict[str, object]:
    is_round = body.shape in (Shape.CYLINDER, Shape.CAPSULE)
    return {
        **_solid(body.shape, body.size, body.mesh, is_round=is_round),
        **_place(body.place),
        "rides": body.rides,
        "note": body.note,
    }


def _zone(zone: Zone) -> dict[str, object]:
    return {
        "kind": zone.kind,
        "of": zone.of,
        **(_body(zone.body) if zone.body else {}),
        "surface": _figure(zone.surface, "K"),
        "shielded": zone.is_shielded or None,
        "travel": _point(zone.travel) if zone.kind == "moving" else None,
    }


def _panel(panel: Panel) -> dict[str, object]:
    holes = [
        {"at": _point(hole.at), "bore": _metres(hole.bore), "for": hole.line}
        for hole in panel.holes
    ]
    return {
        # That of a skin may be left to the reader.
        "thickness": None
        if panel.is_skin and panel.thickness.grade is Grade.PRACTICE
        else _figure(panel.thickness, "m"),
        "material": panel.material,
        "at": _point(panel.at),
        "points": _point(panel.points, ""),
        "size": f"{panel.size[0]!r} x {panel.size[1]!r} m" if panel.size else None,
        "holes": holes or None,
        "placed": panel.placed,
        "skin": panel.is_skin or None,
    }


def _surroundings(car: Car) -> list[str]:
    """Sections of what lines go round and along."""
    text = _section("bodies", {b.id: _body(b) for b in car.bodies.values()})
    text += _section("zones", {z.id: _zone(z) for z in car.zones.values()})
    guides = {
        g.id: {"points": [_point(p) for p in g.points], "rides": g.rides, "note": g.note}
        for g in car.guides.values()
    }
    text += _section("guides", guides)
    if car.movement:
        text += ["", "[movement]"]
        text += [f"{key} = {_moves(moves)}" for key, moves in car.movement.items()]
    return text + _section("conditions", {c.name: _condition(c) for c in car.conditions.values()})


def _moves(moves: Figure | Travel) -> str:
    if isinstance(moves, Figure):
        return f'"{moves.value!r} m"'
    ways = zip("xyz", moves.low, moves.high, strict=True)
    typed = (f'{key} = "{low!r} to {high!r} m"' for key, low, high in ways)
    return f"{{ {', '.join(typed)} }}"


def _condition(condition: Condition) -> dict[str, object]:
    does = condition.running
    return {
        "down": _point(condition.down, ""),
        "held": condition.is_held,
        **_running(does.figures),
        "start": {system: _figure(figure, "K") for system, figure in does.start.items()},
        "off": list(does.off),
        "lasts": _figure(does.lasts, "s"),
        "steps": [{"at": f"{step.at!r} s", **_running(step.figures)} for step in does.steps],
    }


def _running(figures: Mapping[str, Figure]) -> dict[str, object]:
    return {
        key: f"{figure.value * 100:.15g} %" if key == "power" else _figure(figure, figure.unit)
        for key, figure in figures.items()
    }


def _setting(name: str, figure: Figure) -> str:
    unit = next((row["unit"] for row in rows("settings") if row["name"] == name), "")
    if unit == "%":
        return f"{figure.value * 100:.15g} %"
    return f"{figure.value!r}{'' if figure.unit == '-' else ' ' + figure.unit}"


def _section(name: str, items: Mapping[str, Mapping[str, object]]) -> list[str]:
    lines = [f"{_text(key)} = {_inline(values)}" for key, values in items.items()]
    return ["", f"[{name}]", *lines] if lines else []


def document(car: Car) -> str:
    """Return a document that says all of a car.

    Parameters
    ----------
    car : Car
        The car.

    Returns
    -------
    str
        TOML, one thing a line.
    """
    text = [f"linewright = {FORMAT}", "", "[car]"]
    for key in ("name", "datum", "use", "show", "note"):
        value = getattr(car, key)
        text += [f"{key} = {_text(value)}"] if value else []
    text += [f'ground = "{car.ground!r} m"'] if car.ground is not None else []
    text += _section(
        "systems",
        {
            s.id: {
                "fluid": s.fluid,
                "medium": s.medium,
                "hose": s.hose,
                "size": _size(s.size),
                "letter": s.letter,
                "hottest": _figure(s.temperature, "K"),
                "highest": _figure(s.gauge_pressure, "Pa"),
            }
            for s in car.systems.values()
        },
    )
    text += _section("panels", {p.id: _panel(p) for p in car.panels.values()})
    text += _surroundings(car)
    text += _section(
        "parts",
        {
            p.code: {
                "name": p.name,
                "shape": p.shape,
                "ends": [notation.show(end) for end in p.ends],
                "angle": p.angle or None,
                "bore": _metres(p.bore),
                "mass": None if p.mass is None else f"{p.mass!r} kg",
                "material": p.material,
            }
            for p in car.parts
        },
    )
    text += _section("components", {c.id: _component(c) for c in car.components.values()})
    text += _section("ports", {p.id: _port(p) for p in car.ports})
    text += _section("lines", {line.id: _line(line) for line in car.lines.values()})
    if car.closed:
        text += ["", "[closed]"]
        for closed in car.closed.values():
            answer = closed.how + (f", because {closed.reason}" if closed.reason else "")
            text.append(f"{_text(closed.what)} = {_text(answer)}")
    own = {row["name"] for row in rows("settings")}
    for section, is_own in (("settings", True), ("flow", False)):
        figures = {n: f for n, f in car.settings.items() if (n in own) is is_own}
        if figures:
            text += ["", f"[{section}]"]
        for name, figure in figures.items():
            text.append(f"{name} = {_text(_setting(name, figure))}")
    for each in car.overrules:
        text += ["", "[[overruled]]", f"code = {_text(each.code)}", f"about = {_value(each.about)}"]
        text += [f"reason = {_text(each.reason)}"]
        text += [f"by = {_text(each.by)}"] if each.by else []
        text += [f"when = {each.when}"] if each.when else []
        text += [f'accepted = "{each.accepted!r}"'] if each.accepted is not None else []
    if car.retired:
        text += ["", "[retired]", f"ids = {_value(car.retired)}"]
    return "\n".join(text) + "\n"
