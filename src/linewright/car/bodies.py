# SPDX-License-Identifier: Apache-2.0
"""Bodies without ports and zones: what lines go round, and where something holds for them."""

from pathlib import PurePosixPath, PureWindowsPath

from linewright.base import units
from linewright.base.dimensions import LENGTHS
from linewright.base.errors import UnitError
from linewright.base.evidence import Grade, Placed
from linewright.base.ids import is_word
from linewright.base.places import point
from linewright.car.model import Body, Mesh, Shape, Vector, Zone, ZoneKind
from linewright.car.positions import place, size
from linewright.car.table import Log, Table, listed, said

#: What carries a component; any other word is allowed too.
BODIES = ("chassis", "engine", "axle", "exhaust", "body")

_SHAPES = [shape.value for shape in Shape]
_ZONES = [kind.value for kind in ZoneKind]
_MESH_UNITS = ("mm", "cm", "m", "in", "ft")


def _mesh(table: Table) -> Mesh | None:
    """Read a mesh: a file beside the document, and the unit that it was drawn in."""
    file = table.text("mesh")
    unit = table.choice("mesh-unit", _MESH_UNITS, "")
    if not table.has("mesh"):
        if table.has("mesh-unit"):
            table.fault("mesh-unit", 'has no mesh to go with; add mesh = "block.stl".')
        return None
    path = PurePosixPath(file.replace("\\", "/"))
    if path.suffix.lower() != ".stl":
        table.fault("mesh", f'{said(file)} is no mesh; allowed: an STL file, as in "block.stl".')
        return None
    if path.is_absolute() or PureWindowsPath(file).drive or ".." in path.parts:
        table.fault(
            "mesh",
            f"{said(file)} leads out of the folder of the document, so the two would part when "
            f'copied; put the file beside it and write "{path.name[:40]}".',
        )
        return None
    if not table.has("mesh-unit"):
        table.fault(
            "mesh",
            f"its unit is not said, and an STL file has none of its own; add mesh-unit, one of: "
            f"{listed(_MESH_UNITS)}.",
        )
    return Mesh(str(path), LENGTHS[unit]) if unit else None


def solid(table: Table) -> tuple[Shape | None, Vector | None, Mesh | None]:
    """Read the shape of a body: its size, or a mesh.

    Parameters
    ----------
    table : Table
        The component, body or zone.

    Returns
    -------
    tuple
        Shape, extents along its own axes [m], mesh; each None where nothing was said.
    """
    extents, is_round = size(table)
    mesh = _mesh(table)
    typed = table.choice("shape", _SHAPES, "")
    if mesh is not None:
        if typed and typed != Shape.MESH:
            table.fault("shape", f"{said(typed)} stands beside a mesh; keep one of them.")
        return Shape.MESH, extents, mesh
    if typed == Shape.MESH:
        if not table.has("mesh"):
            table.fault("shape", 'needs the file of the mesh; add mesh = "block.stl".')
        return None, extents, None
    if extents is None:
        if typed and not table.has("size"):
            table.fault("shape", 'needs a size; add size = "300 x 200 x 60 mm".')
        return None, None, None
    shape = Shape(typed) if typed else Shape.CYLINDER if is_round else Shape.BOX
    if is_round is (shape is Shape.BOX):
        way = '"200 dia x 460 mm"' if shape is not Shape.BOX else '"300 x 200 x 60 mm"'
        table.fault("shape", f"{said(typed)} has its size typed as {way}; correct one of them.")
        return None, None, None
    if shape is Shape.CAPSULE and extents[2] < extents[0]:
        table.fault(
            "size",
            f"{said(table.values['size'])} is wider than it is long, and a capsule is as long as "
            f"wide at least: its length goes over both round ends.",
        )
        return None, None, None
    return shape, extents, None


def _rides(table: Table, default: str = "chassis") -> str:
    rides = table.text("rides")
    if rides and not is_word(rides):
        table.fault(
            "rides", f"{said(rides)} is no body; allowed: {listed(BODIES)}, or another word."
        )
        return default
    if not rides:
        table.log.assume(table.at("rides"), default, Grade.PRACTICE)
    return rides or default


def _is_id(log: Log, path: tuple[str, ...], what: str) -> bool:
    if is_word(path[-1]):
        return True
    log.add(
        path,
        f"{said(path[-1])} is no id of a {what}; allowed: letters, digits and single hyphens "
        f'between them, at most 40, as in "gearbox".',
    )
    return False


def _body(table: Table, name: str, default: Placed) -> Body | None:
    """Read the keys of a body; what is missing is a fault."""
    shape, extents, mesh = solid(table)
    where = place(table, default, ())
    rides, note = _rides(table), table.text("note", most=2000)
    if not table.has("at"):
        table.fault("", '"at" is missing; write for example at = "1200, 0, 250 mm".')
    if not (table.has("size") or table.has("mesh") or table.has("shape")):
        table.fault("", '"size" is missing; write for example size = "300 x 200 x 60 mm".')
    if where is None or shape is None:
        return None
    if extents is None and where.anchor != "middle":
        table.fault(
            "at",
            f"names the {where.anchor} of a mesh whose size is not said; place the mesh by its own "
            f'origin, as in at = "1200, 0, 250 mm", or add its size.',
        )
    line = table.log.line(table.path)
    return Body(name, where, shape, extents, mesh, rides, note, line)


def bodies(root: Table, default: Placed) -> dict[str, Body]:
    """Read ``[bodies.X]``.

    Parameters
    ----------
    root : Table
        The document.
    default : Placed
        How a position is known where nothing is said.

    Returns
    -------
    dict
        Bodies by id, in the order of the document.
    """
    top = root.table("bodies", "list of bodies")
    found: dict[str, Body] = {}
    for name, value in top.items() if top else ():
        path = ("bodies", name)
        table = Table(value, path, root.log, "body")
        if not _is_id(root.log, path, "body") or not isinstance(value, dict):
            continue
        body = _body(table, name, default)
        table.done()
        if body:
            found[name] = body
    return found


def _travel(text: str) -> Vector:
    """Read a travel: one length each way, or one for each axis of the car."""
    if "," in text:
        x, y, z = point(text)
        if min(x, y, z) < 0:
            raise UnitError(
                f"{said(text)} is no travel; it goes that far both ways, so no number is less "
                f'than nothing, as in "0, 20, 80 mm".'
            )
        return x, y, z
    far = units.length(text)
    return far, far, far


def _zone(log: Log, name: str, value: object, default: Placed) -> Zone | None:
    path = ("zones", name)
    table = Table(value, path, log, "zone")
    if not _is_id(log, path, "zone") or not isinstance(value, dict):
        return None
    kind = table.choice("kind", _ZONES, "")
    if not table.has("kind"):
        table.fault("", f'"kind" is missing; write one of: {listed(_ZONES)}.')
    of = table.text("of")
    body = None
    if of:
        for key in ("at", "size", "mesh", "mesh-unit", "shape", "rides", "yaw", "pitch", "roll"):
            if table.has(key):
                table.raw(key)
                table.fault(key, f"stands beside of = {said(of)}, which has it already; keep one.")
        table.raw("placed")
        table.text("note")
    else:
        body = _body(table, name, default)
    surface = table.figure("surface", units.temperature, "K")
    shielded = table.flag("shielded")
    travel = table.read("travel", _travel)
    for key, owner in (("surface", "hot"), ("shielded", "hot"), ("travel", "moving")):
        if kind and kind != owner and table.has(key):
            table.fault(key, f'belongs to a zone of the kind "{owner}"; this one is "{kind}".')
    if kind == ZoneKind.MOVING and not table.has("travel"):
        table.fault("", '"travel" is missing; write for example travel = "0, 20, 80 mm".')
    table.done()
    if not kind or (body is None and not of):
        return None
    if kind == ZoneKind.HOT:
        if surface is None:
            log.assume((*path, "surface"), "hot: as a bare exhaust", Grade.PRACTICE)
        if shielded is None:
            log.assume((*path, "shielded"), "no", Grade.PRACTICE)
    return Zone(
        name,
        ZoneKind(kind),
        body,
        of or None,
        surface,
        bool(shielded),
        travel or (0.0, 0.0, 0.0),
        log.line(path),
    )


def zones(root: Table, default: Placed) -> dict[str, Zone]:
    """Read ``[zones.X]``.

    Parameters
    ----------
    root : Table
        The document.
    default : Placed
        How a position is known where nothing is said.

    Returns
    -------
    dict
        Zones by id, in the order of the document.
    """
    top = root.table("zones", "list of zones")
    read = [_zone(root.log, name, value, default) for name, value in (top.items() if top else ())]
    return {zone.id: zone for zone in read if zone}
