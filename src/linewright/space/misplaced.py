# SPDX-License-Identifier: Apache-2.0
"""What cannot be where it was typed: ports in bodies, bodies in bodies, ends at one place."""

from itertools import product
from math import cos, hypot, pi, sin

from linewright.base.codes import RULES
from linewright.base.evidence import Grade
from linewright.base.finding import Finding
from linewright.base.frames import apart, placed
from linewright.base.ids import natural_key
from linewright.base.vectors import Vector, ahead, dot, unit
from linewright.car.model import Car, Shape
from linewright.space.bodies import Solid, bodies, panel_axes
from linewright.space.model import Frame
from linewright.space.ports import port_frame

# Bodies are outlines: what lies this little in one is on it. [m]
_SKIN = 0.005

# How far out from a port its own body must have given way: a short hose end. [m]
_OUT = 0.040

# Nearer than this, two ports are one. [m]
_SAME = 0.001

# Points round the rim of what is round: between them it bulges 2 % of its radius.
_ROUND = 16


def depth(solid: Solid, point: Vector) -> float:
    """How far a point lies under the surface of a body.

    Parameters
    ----------
    solid : Solid
        A box, cylinder or capsule; a mesh is not looked into here.
    point : Vector
        In the car. [m]

    Returns
    -------
    float
        Distance to the nearest of its surfaces, negative outside. [m]

    Examples
    --------
    >>> from linewright.base.frames import rotation
    >>> box = Solid("b", Shape.BOX, (1.0, 0.0, 0.0), rotation(0, 0, 0), (0.4, 0.2, 0.2))
    >>> round(depth(box, (1.17, 0.0, 0.0)), 3), round(depth(box, (1.0, 0.3, 0.0)), 3)
    (0.03, -0.2)
    """
    if solid.size is None:
        return -1.0
    offset = [p - m for p, m in zip(point, solid.middle, strict=True)]
    x, y, z = (sum(solid.turn[row][k] * offset[row] for row in range(3)) for k in range(3))
    a, b, c = (side / 2 for side in solid.size)
    match solid.shape:
        case Shape.CAPSULE:
            straight = max(0.0, c - a)
            return a - hypot(x, y, max(0.0, abs(z) - straight))
        case Shape.CYLINDER:
            return min(a - hypot(x, y), c - abs(z))
        case _:
            return min(a - abs(x), b - abs(y), c - abs(z))


def _rim(solid: Solid) -> list[Vector]:
    """Points of the surface of a body that hold all of it between them."""
    assert solid.size is not None
    a, b, c = (side / 2 for side in solid.size)
    if solid.shape is Shape.BOX:
        own = [(sx * a, sy * b, sz * c) for sx, sy, sz in product((-1, 1), repeat=3)]
    else:
        turns = [2 * pi * k / _ROUND for k in range(_ROUND)]
        high = c if solid.shape is Shape.CYLINDER else max(0.0, c - a)
        own = [(a * cos(t), a * sin(t), s * high) for t in turns for s in (-1, 1)]
        own += [(0.0, 0.0, -c), (0.0, 0.0, c)]
    return [placed(solid.middle, solid.turn, point) for point in own]


def _within(inner: tuple[Vector, Vector] | None, outer: tuple[Vector, Vector] | None) -> bool:
    """Whether the box round one body lies in that round another: else the body does not."""
    if inner is None or outer is None:
        return False
    return all(
        outer[0][k] - _SAME <= inner[0][k] and inner[1][k] <= outer[1][k] + _SAME for k in range(3)
    )


def _mm(length: float) -> str:
    return f"{length * 1000:.0f} mm"


def _in_own(port: str, frame: Frame, own: Solid) -> Finding | None:
    """A port whose hose would start under the skin of its own component."""
    at, out = depth(own, frame.origin), depth(own, ahead(frame.origin, frame.out, _OUT))
    doubt = max(_SKIN, frame.spread)
    if at > doubt and out > 0.0:
        return _finding(
            port,
            own,
            at,
            doubt,
            f"{port} lies {_mm(at)} under the surface of {own.id}, and what is screwed on it would "
            f"too.",
        )
    if out > doubt and out > at:
        return _finding(
            port, own, out, doubt, f"{port} points into {own.id}: no hose can leave it that way."
        )
    return None


def _finding(port: str, body: Solid, value: float, limit: float, reason: str) -> Finding:
    where = "the place of the port, the way it points" if body.component else "the port's place"
    return Finding(
        code="port-in-body",
        severity=RULES["port-in-body"],
        about=(port, body.id),
        reason=reason,
        remedy=f"Tape {where} or the size of {body.id} again; the size of a body may also be told "
        f"smaller, or in pieces under [bodies].",
        value=_mm(value),
        limit=_mm(limit),
        grade=Grade.DERIVED,
        measure=value,
    )


def _ports(frames: dict[str, Frame], plain: list[Solid]) -> list[Finding]:
    """Ports of lines that lie in a body."""
    found: list[Finding] = []
    boxes = [(body, body.box) for body in plain]
    for name in sorted(frames, key=natural_key):
        frame = frames[name]
        component = name.partition(".")[0]
        for body, box in boxes:
            at = frame.origin
            if body.component != component and not _within((at, at), box):
                continue
            if body.component == component:
                own = _in_own(name, frame, body)
                found += [own] if own else []
                continue
            deep, doubt = depth(body, frame.origin), max(_SKIN, frame.spread)
            if deep > doubt:
                reason = f"{name} lies {_mm(deep)} deep in {body.id}."
                found.append(_finding(name, body, deep, doubt, reason))
    return found


def _outside(car: Car, frames: dict[str, Frame]) -> list[Finding]:
    """Ports of lines under the ground, or outside the skin of the car."""
    skins = [panel for panel in car.panels.values() if panel.is_skin and panel.at and panel.points]
    found: list[Finding] = []
    for name in sorted(frames, key=natural_key):
        frame = frames[name]
        doubt = max(_SKIN, frame.spread)
        beyond = []
        if car.ground is not None:
            under = car.ground - frame.origin[2]
            beyond.append(("the ground", under, f"{_mm(under)} under the ground"))
        for panel in skins:
            assert panel.at is not None
            assert panel.points is not None
            out = unit(panel.points)
            level, other = panel_axes(out)
            arrow = ahead(frame.origin, panel.at, -1.0)
            far = dot(arrow, out)
            if panel.size is not None and (
                abs(dot(arrow, level)) > panel.size[0] / 2
                or abs(dot(arrow, other)) > panel.size[1] / 2
            ):
                continue
            beyond.append((panel.id, far, f"{_mm(far)} outside {panel.id}, the skin of the car"))
        for what, far, words in beyond:
            if far <= doubt:
                continue
            found.append(
                Finding(
                    code="port-outside",
                    severity=RULES["port-outside"],
                    about=(name,) if what == "the ground" else (name, what),
                    reason=f"{name} lies {words}: no line is laid there.",
                    remedy=f"Tape the place of the port again, or that of {what}.",
                    value=_mm(far),
                    limit=_mm(doubt),
                    grade=Grade.DERIVED,
                    measure=far,
                )
            )
    return found


def _swallowed(plain: list[Solid]) -> list[Finding]:
    """Bodies that lie in another one, all of them."""
    found = []
    boxes = {each.id: each.box for each in plain}
    for inner, outer in product(plain, repeat=2):
        if (
            inner is outer
            or not _within(boxes[inner.id], boxes[outer.id])
            or any(depth(outer, point) < -1e-9 for point in _rim(inner))
        ):
            continue
        is_mutual = all(depth(inner, point) >= -1e-9 for point in _rim(outer))
        if is_mutual and inner.id > outer.id:
            continue
        found.append(
            Finding(
                code="body-in-body",
                severity=RULES["body-in-body"],
                about=(inner.id, outer.id),
                reason=f"{inner.id} lies wholly in {outer.id}; lines go round {outer.id} alone.",
                remedy=f"Tape the place and the size of both again, or strike {inner.id} if it is "
                f"a part of {outer.id}.",
                grade=Grade.DERIVED,
            )
        )
    return found


def _coincident(car: Car, frames: dict[str, Frame]) -> list[Finding]:
    """Lines whose two ends are one place."""
    found = []
    for line in sorted(car.lines.values(), key=lambda each: natural_key(each.id)):
        a, b = frames.get(line.from_port), frames.get(line.to_port)
        if a is None or b is None or apart(a.origin, b.origin) > _SAME:
            continue
        found.append(
            Finding(
                code="ends-coincide",
                severity=RULES["ends-coincide"],
                about=(line.id,),
                reason=f"{line.id}: {line.from_port} and {line.to_port} were typed at one and the "
                f"same place, so there is no way between them.",
                remedy="Tape both ports again.",
                grade=Grade.DERIVED,
            )
        )
    return found


def misplaced(car: Car) -> tuple[Finding, ...]:
    """Say what cannot be where it was typed.

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    tuple of Finding
        ``port-in-body``: a port of a line under the surface of a body by more than its place is
        sure to (one sigma), or pointing into its own component. ``port-outside``: a port under
        the ground or outside the skin by more than that. ``body-in-body``: a body wholly
        in another. ``ends-coincide``: a line from a place to itself. Zones are no bodies here,
        and meshes are not looked into.
    """
    plain = [each for each in bodies(car) if each.zone is None and each.size is not None]
    names = {p for line in car.lines.values() for p in (line.from_port, line.to_port)}
    found = {name: port_frame(car, name) for name in sorted(names)}
    frames = {name: frame for name, frame in found.items() if frame is not None}
    return (
        *_ports(frames, plain),
        *_outside(car, frames),
        *_swallowed(plain),
        *_coincident(car, frames),
    )
