# SPDX-License-Identifier: Apache-2.0
"""A car as a whole document: what its builder said and what was inferred, all spelt out.

The text that a builder typed is changed by `car.write`, which keeps it; this is for a car
that has no text yet, and it proves the reader: read again, it gives the same car.
"""

import json
from collections.abc import Mapping

from linewright.base.dimensions import DEGREE
from linewright.base.evidence import Figure, Known
from linewright.car import kinds
from linewright.car.model import Car, Component, Line, LineEnd, Port, Tier, Vector
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
    return f"{size} mm" if size and not size.startswith("-") else size


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
        "points": None if port.points_car else _point(port.points, ""),
        "points_car": _point(port.points_car, ""),
        "material": port.material,
        "depth": _metres(port.depth),
        "spot-face": _metres(port.spot_face),
        "room": _metres(port.room),
        "bore": _metres(port.bore),
        "note": port.note,
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
    place, body = component.place, None
    if component.size:
        x, y, z = component.size
        body = f"{x!r} dia x {z!r} m" if component.round else f"{x!r} x {y!r} x {z!r} m"
    found: dict[str, object] = {
        "kind": component.kind,
        "name": component.name,
        "system": component.system,
        "size": body,
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
    if place:
        found["at"] = {place.anchor: _point(place.at)}
        found["placed"] = place.placed
        for key, angle in (("yaw", place.yaw), ("pitch", place.pitch), ("roll", place.roll)):
            found[key] = f"{angle / DEGREE:.15g}°" if angle else None
    return found


def _setting(name: str, figure: Figure) -> str:
    unit = next(row["unit"] for row in rows("settings") if row["name"] == name)
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
    text += _section(
        "panels",
        {
            p.id: {"thickness": _figure(p.thickness, "m"), "material": p.material}
            for p in car.panels.values()
        },
    )
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
    if car.settings:
        text += ["", "[settings]"]
        for name, figure in car.settings.items():
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
