# SPDX-License-Identifier: Apache-2.0
"""Bodies, zones, guides, walls, movement, conditions: what is read, and every refusal in full."""

from dataclasses import replace

import pytest

from linewright.base.errors import DocumentError
from linewright.base.evidence import Grade, Placed
from linewright.car.conditions import conditions, use_of
from linewright.car.document import document
from linewright.car.model import Car, Hole, Mesh, Shape, Travel, ZoneKind
from linewright.car.read import read_text

HEAD = """\
linewright = 1
[car]
name = "Small"
[systems.oil]
fluid = "15W-50"
hose = "rubber braided"
size = "-10"
[components]
TANK = { kind = "dry-sump tank", at = "3, 0, 0.4 m", size = "0.2 x 0.2 x 0.4 m" }
CO = { kind = "oil cooler" }
[lines]
O01 = { from = "TANK.feed", to = "CO.in", passes = ["wall"] }
[panels.wall]
thickness = "1.5 mm"
"""
# The next line is the 15th; it may say more of the wall.

WHOLE = (
    HEAD
    + """\
at = "880, 0, 500 mm"
points = "rearward"
size = "1400 x 600 mm"
placed = "taped"
holes = ["880, -200, 420 mm", { at = "880, 200, 420 mm", bore = "30 mm", for = "O01" }]
[bodies.gearbox]
at.front = "800, 0, 300 mm"
size = "300 dia x 700 mm"
pitch = "90°"
rides = "engine"
[bodies.rail]
at = "1000, -600, 200 mm"
shape = "capsule"
size = "60 dia x 900 mm"
[bodies.block]
at = "400, 0, 480 mm"
mesh = "solids/block.stl"
mesh-unit = "mm"
[zones.downpipe]
kind = "hot"
at = "700, 300, 200 mm"
size = "76 dia x 500 mm"
rides = "exhaust"
surface = "600 °C"
shielded = true
[zones.near-tank]
kind = "spill-sensitive"
of = "TANK"
[zones.wheel]
kind = "moving"
at = "0, -700, 320 mm"
size = "640 dia x 250 mm"
roll = "90°"
travel = "100, 20, 80 mm"
[zones.strip]
kind = "moving"
of = "rail"
travel = "20 mm"
[guides]
left-sill = ["900, -620, 180 mm", "2600, -620, 180 mm"]
tunnel = { points = ["900, 0, 250 mm", "2000, 0, 250 mm"], rides = "chassis", note = "over it" }
[movement]
axle = { bump = "80 mm", droop = "60 mm", x = "10 mm" }
engine = "5 mm"
subframe = "2 mm"
[conditions]
braking = "down, 50° forward"
ferry = { down = "down, 20° left", held = true }
"""
)


def refusal(text: str) -> str:
    with pytest.raises(DocumentError) as caught:
        read_text(text)
    return str(caught.value)


def test_bodies_take_the_shape_that_their_size_tells() -> None:
    bodies = read_text(WHOLE).bodies

    assert [(b.id, b.shape) for b in bodies.values()] == [
        ("gearbox", Shape.CYLINDER),
        ("rail", Shape.CAPSULE),
        ("block", Shape.MESH),
    ]
    assert bodies["gearbox"].place.anchor == "front"
    assert bodies["gearbox"].rides == "engine"
    assert bodies["rail"].rides == "chassis"
    assert bodies["block"].mesh == Mesh("solids/block.stl", 1e-3)
    assert bodies["block"].size is None


def test_a_component_has_the_shape_that_its_size_tells() -> None:
    car = read_text(WHOLE)

    assert car.components["TANK"].shape is Shape.BOX
    assert car.components["CO"].shape is None


def test_zones_are_about_a_place_or_about_a_thing() -> None:
    zones = read_text(WHOLE).zones

    assert zones["downpipe"].body is not None
    assert zones["downpipe"].surface is not None
    assert zones["downpipe"].surface.value == pytest.approx(873.15)
    assert zones["downpipe"].is_shielded
    assert zones["near-tank"].of == "TANK"
    assert zones["near-tank"].kind is ZoneKind.SPILL_SENSITIVE
    assert zones["wheel"].travel == (0.1, 0.02, 0.08)
    assert zones["strip"].travel == (0.02, 0.02, 0.02)


def test_a_wall_has_a_place_a_size_and_holes() -> None:
    wall = read_text(WHOLE).panels["wall"]

    assert (wall.at, wall.points, wall.size) == ((0.88, 0.0, 0.5), (1.0, 0.0, 0.0), (1.4, 0.6))
    assert wall.holes == (Hole((0.88, -0.2, 0.42)), Hole((0.88, 0.2, 0.42), 0.03, "O01"))
    assert wall.placed is Placed.TAPED


def test_a_line_follows_guides_and_keeps_what_it_is_told() -> None:
    text = WHOLE.replace(
        'passes = ["wall"]',
        'passes = ["wall"], follows = ["left-sill"], clearance = "15 mm", most-bends = 4',
    )
    line = read_text(text).lines["O01"]

    assert line.follows == ("left-sill",)
    assert line.clearance is not None
    assert line.clearance.value == 0.015
    assert line.most_bends == 4


def test_what_is_read_comes_back_from_the_document_that_is_written() -> None:
    car = read_text(WHOLE)
    again = read_text(document(car))

    def plain(each: Car) -> list[object]:
        unnumbered = [
            {name: replace(item, line_number=None) for name, item in items.items()}
            for items in (each.bodies, each.guides)
        ]
        zones = {
            name: replace(
                zone, line_number=None, body=zone.body and replace(zone.body, line_number=None)
            )
            for name, zone in each.zones.items()
        }
        return [*unnumbered, zones, each.panels, each.movement, each.conditions]

    assert plain(again) == plain(car)


@pytest.mark.parametrize(
    ("typed", "low", "high"),
    [
        ('"10, 5, 80 mm"', (-0.010, -0.005, -0.080), (0.010, 0.005, 0.080)),
        ('{ bump = "80 mm", droop = "60 mm" }', (0.0, 0.0, -0.060), (0.0, 0.0, 0.080)),
        ('{ z = "-60 to 80 mm", y = "5 mm" }', (0.0, -0.005, -0.060), (0.0, 0.005, 0.080)),
        ('{ z = "-2 in to 30 mm" }', (0.0, 0.0, -0.0508), (0.0, 0.0, 0.030)),
    ],
)
def test_an_axle_goes_further_one_way_than_another(
    typed: str, low: tuple[float, float, float], high: tuple[float, float, float]
) -> None:
    moves = read_text(HEAD + f"[movement]\naxle = {typed}\n").movement["axle"]

    assert isinstance(moves, Travel)
    assert (moves.low, moves.high, moves.grade) == (low, high, Grade.STATED)


def test_a_port_says_how_well_it_is_placed() -> None:
    car = read_text(HEAD + '[ports."TANK.feed"]\nat = "0, 0, -0.2 m"\nplaced = "mocked-up"\n')

    assert car.components["TANK"].ports["feed"].placed is Placed.MOCKED_UP


def test_a_direction_that_only_the_kind_gave_is_marked() -> None:
    text = HEAD + '[components.rad]\nkind = "oil cooler"\n[ports]\n"rad.in" = { points = "up" }\n'
    ports = read_text(HEAD).components["TANK"].ports
    typed = read_text(text).components["rad"].ports["in"]

    assert not typed.points_from_kind
    assert all(p.points_from_kind == (p.points is not None) for p in ports.values())
    assert any(p.points_from_kind for p in ports.values())


BOX = 'at = "1, 0, 0 m"\nsize = "0.3 x 0.2 x 0.1 m"\n'

REFUSED = {
    "a wall that does not say which way it faces": (
        'at = "880, 0, 500 mm"',
        "car.toml, line 15: panels.wall.at: says where the wall is, but not which way it faces; "
        'add points = "rearward" (or up, for a floor).',
    ),
    "a direction without a place": (
        'points = "rearward"',
        "car.toml, line 15: panels.wall.points: needs the place of the wall; add at = "
        '"880, 0, 500 mm", a point of it.',
    ),
    "a wall with three sides": (
        'at = "0, 0, 0 m"\npoints = "up"\nsize = "1 x 2 x 3 m"',
        'car.toml, line 17: panels.wall.size: "1 x 2 x 3 m" is no size of a wall; write two '
        'lengths, as in "1400 x 600 mm" (level, and square to that).',
    ),
    "a wall with a side of nothing": (
        'at = "0, 0, 0 m"\npoints = "up"\nsize = "1 x 0 m"',
        'car.toml, line 17: panels.wall.size: "1 x 0 m" has a side of nothing; leave the size out '
        "if not known.",
    ),
    "a direction that is none": (
        'at = "0, 0, 0 m"\npoints = "0, 0, 0"',
        'car.toml, line 16: panels.wall.points: "0, 0, 0" is no direction; its length must not be '
        "nothing, or huge.",
    ),
    "a hole for a line that is not there": (
        'at = "0, 0, 0 m"\npoints = "up"\nholes = [{ at = "0, 0, 0 m", for = "O02" }]',
        'car.toml, line 17: panels.wall.holes #1: there is no line "O02". Did you mean "O01"? '
        "Lines: O01.",
    ),
    "a hole without a place": (
        'at = "0, 0, 0 m"\npoints = "up"\nholes = [{ bore = "20 mm" }]',
        'car.toml, line 17: panels.wall.holes #1: "at" is missing; write for example at = '
        '"880, -200, 420 mm".',
    ),
    "holes that are no list": (
        'at = "0, 0, 0 m"\npoints = "up"\nholes = 3',
        "car.toml, line 17: panels.wall.holes: 3 is no list of holes; write for example "
        '["880, -200, 420 mm"], or tables with at, bore and for.',
    ),
    "a body without a place": (
        '[bodies.b]\nsize = "0.3 x 0.2 x 0.1 m"',
        'car.toml, line 15: bodies.b: "at" is missing; write for example at = "1200, 0, 250 mm".',
    ),
    "a body without a size": (
        '[bodies.b]\nat = "1, 0, 0 m"',
        'car.toml, line 15: bodies.b: "size" is missing; write for example size = '
        '"300 x 200 x 60 mm".',
    ),
    "a body of no size": (
        '[bodies.b]\nat = "1, 0, 0 m"\nsize = "300 x 0 x 60 mm"',
        'car.toml, line 17: bodies.b.size: "300 x 0 x 60 mm" has a side of nothing; leave the '
        "size out if not known.",
    ),
    "a box whose size is round": (
        '[bodies.b]\nat = "1, 0, 0 m"\nshape = "box"\nsize = "60 dia x 900 mm"',
        'car.toml, line 17: bodies.b.shape: "box" has its size typed as "300 x 200 x 60 mm"; '
        "correct one of them.",
    ),
    "a capsule with three sides": (
        '[bodies.b]\nat = "1, 0, 0 m"\nshape = "capsule"\nsize = "60 x 60 x 900 mm"',
        'car.toml, line 17: bodies.b.shape: "capsule" has its size typed as "200 dia x 460 mm"; '
        "correct one of them.",
    ),
    "a capsule wider than long": (
        '[bodies.b]\nat = "1, 0, 0 m"\nshape = "capsule"\nsize = "60 dia x 40 mm"',
        'car.toml, line 18: bodies.b.size: "60 dia x 40 mm" is wider than it is long, and a '
        "capsule is as long as wide at least: its length goes over both round ends.",
    ),
    "a shape without a size": (
        '[bodies.b]\nat = "1, 0, 0 m"\nshape = "box"',
        'car.toml, line 17: bodies.b.shape: needs a size; add size = "300 x 200 x 60 mm".',
    ),
    "a shape that nobody knows": (
        f'[bodies.b]\n{BOX}shape = "cone"',
        'car.toml, line 18: bodies.b.shape: "cone" is not allowed; allowed: box, cylinder, '
        "capsule, mesh.",
    ),
    "a mesh without its unit": (
        '[bodies.b]\nat = "1, 0, 0 m"\nmesh = "block.stl"',
        "car.toml, line 17: bodies.b.mesh: its unit is not said, and an STL file has none of its "
        "own; add mesh-unit, one of: mm, cm, m, in, ft.",
    ),
    "a mesh elsewhere": (
        '[bodies.b]\nat = "1, 0, 0 m"\nmesh = "../block.stl"\nmesh-unit = "mm"',
        'car.toml, line 17: bodies.b.mesh: "../block.stl" leads out of the folder of the '
        "document, so the two would part when copied; put the file beside it and write "
        '"block.stl".',
    ),
    "a mesh on a drive": (
        '[bodies.b]\nat = "1, 0, 0 m"\nmesh = "C:/block.stl"\nmesh-unit = "mm"',
        'car.toml, line 17: bodies.b.mesh: "C:/block.stl" leads out of the folder of the '
        "document, so the two would part when copied; put the file beside it and write "
        '"block.stl".',
    ),
    "a mesh of another format": (
        '[bodies.b]\nat = "1, 0, 0 m"\nmesh = "block.step"\nmesh-unit = "mm"',
        'car.toml, line 17: bodies.b.mesh: "block.step" is no mesh; allowed: an STL file, as in '
        '"block.stl".',
    ),
    "a unit without a mesh": (
        f'[bodies.b]\n{BOX}mesh-unit = "mm"',
        'car.toml, line 18: bodies.b.mesh-unit: has no mesh to go with; add mesh = "block.stl".',
    ),
    "a shape beside a mesh": (
        '[bodies.b]\nat = "1, 0, 0 m"\nmesh = "b.stl"\nmesh-unit = "mm"\nshape = "box"',
        'car.toml, line 19: bodies.b.shape: "box" stands beside a mesh; keep one of them.',
    ),
    "a mesh without a file": (
        '[bodies.b]\nat = "1, 0, 0 m"\nshape = "mesh"',
        'car.toml, line 17: bodies.b.shape: needs the file of the mesh; add mesh = "block.stl".',
    ),
    "the foot of a mesh": (
        '[bodies.b]\nat.foot = "1, 0, 0 m"\nmesh = "b.stl"\nmesh-unit = "mm"',
        "car.toml, line 16: bodies.b.at: names the foot of a mesh whose size is not said; place "
        'the mesh by its own origin, as in at = "1200, 0, 250 mm", or add its size.',
    ),
    "an id that is none": (
        f'[bodies."a b"]\n{BOX}',
        'car.toml, line 15: bodies."a b": "a b" is no id of a body; allowed: letters, digits and '
        'single hyphens between them, at most 40, as in "gearbox".',
    ),
    "a body with the id of a component": (
        f"[bodies.tank]\n{BOX}",
        'car.toml, line 9: components.TANK: collides with bodies "tank" (line 15); ids differ by '
        "more than case, in the whole document. Rename one.",
    ),
    "a carrier that is no word": (
        f'[bodies.b]\n{BOX}rides = "the engine"',
        'car.toml, line 18: bodies.b.rides: "the engine" is no body; allowed: chassis, engine, '
        "axle, exhaust, body, or another word.",
    ),
    "a zone without a kind": (
        f"[zones.z]\n{BOX}",
        'car.toml, line 15: zones.z: "kind" is missing; write one of: hot, keep-out, moving, '
        "driver, spill-sensitive.",
    ),
    "a zone of nothing": (
        '[zones.z]\nkind = "hot"\nof = "TANC"',
        'car.toml, line 17: zones.z.of: there is no component or body "TANC". Did you mean '
        '"TANK"? Components and bodies: TANK, CO.',
    ),
    "a zone of what has no place": (
        '[zones.z]\nkind = "hot"\nof = "CO"',
        "car.toml, line 17: zones.z.of: CO has no place, so the zone has none; add at to "
        "components.CO, or give the zone a place and a size of its own.",
    ),
    "a zone with two shapes": (
        '[zones.z]\nkind = "hot"\nof = "TANK"\nat = "1, 0, 0 m"',
        'car.toml, line 18: zones.z.at: stands beside of = "TANK", which has it already; keep one.',
    ),
    "a driver that is hot": (
        f'[zones.z]\nkind = "driver"\n{BOX}surface = "60 °C"',
        'car.toml, line 19: zones.z.surface: belongs to a zone of the kind "hot"; this one is '
        '"driver".',
    ),
    "a moving zone that does not move": (
        f'[zones.z]\nkind = "moving"\n{BOX}',
        'car.toml, line 15: zones.z: "travel" is missing; write for example travel = '
        '"0, 20, 80 mm".',
    ),
    "a travel less than nothing": (
        f'[zones.z]\nkind = "moving"\n{BOX}travel = "0, 0, -80 mm"',
        'car.toml, line 19: zones.z.travel: "0, 0, -80 mm" is no travel; it goes that far both '
        'ways, so no number is less than nothing, as in "0, 20, 80 mm".',
    ),
    "a guide of one point": (
        '[guides]\nsill = ["900, 0, 0 mm"]',
        "car.toml, line 16: guides.sill: has 1 points; a guide has two or more, as in "
        '["900, -620, 180 mm", "2600, -620, 180 mm"].',
    ),
    "a guide that stands still": (
        '[guides]\nsill = ["900, 0, 0 mm", "0.9, 0, 0 m"]',
        "car.toml, line 16: guides.sill #2: is the same point as the one before; strike one.",
    ),
    "a guide that is no list": (
        '[guides]\nsill = { points = "left" }',
        'car.toml, line 16: guides.sill.points: "left" is no list of points; write for example '
        '["900, -620, 180 mm", "2600, -620, 180 mm"].',
    ),
    "a guide without points": (
        '[guides.sill]\nnote = "low"',
        'car.toml, line 15: guides.sill: "points" is missing; write for example points = '
        '["900, -620, 180 mm", "2600, -620, 180 mm"].',
    ),
    "a chassis that moves": (
        '[movement]\nchassis = "5 mm"',
        "car.toml, line 16: movement.chassis: stands still: all else is measured from it; strike "
        "it.",
    ),
    "an axle that was measured out of its travel": (
        '[movement.axle]\nz = "10 to 20 mm"',
        'car.toml, line 16: movement.axle.z: "10 to 20 mm" is no travel: where it was measured lies '
        'in between, so write how far it goes back and how far on, as in "-60 to 80 mm".',
    ),
    "an axle that goes nowhere": (
        "[movement]\naxle = {}",
        "car.toml, line 16: movement.axle: says no travel; write for example axle = "
        '{ bump = "80 mm", droop = "60 mm", x = "10 mm" }.',
    ),
    "up and down said twice": (
        '[movement.axle]\nz = "80 mm"\nbump = "80 mm"',
        "car.toml, line 17: movement.axle.bump: stands beside z, which says the same; keep one of "
        "them.",
    ),
    "an axle that goes less than nothing": (
        '[movement]\naxle = "5, 10, -80 mm"',
        'car.toml, line 16: movement.axle: "5, 10, -80 mm" is no travel; it goes that far both '
        'ways, so no number is less than nothing, as in "5, 10, 80 mm".',
    ),
    "a condition without a down": (
        "[conditions.braking]\nheld = true",
        'car.toml, line 15: conditions.braking: "down" is missing; write for example down = '
        '"down, 45° forward".',
    ),
    "bends that are no number": (
        '[lines.O02]\nfrom = "TANK.vent"\nto = "CO.out"\nmost-bends = "few"',
        'car.toml, line 18: lines.O02.most-bends: "few" is no number of bends; allowed: a whole '
        "number from 1 to 40, without quotes.",
    ),
    "a guide that is not there": (
        '[guides]\nsill = ["0, 0, 0 m", "1, 0, 0 m"]\n[lines.O02]\nfrom = "TANK.vent"\n'
        'to = "CO.out"\nfollows = ["sil"]',
        'car.toml, line 20: lines.O02.follows: there is no guide or line "sil". Did you mean '
        '"sill"? Guides and lines: sill, O01, O02.',
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_each_fault_has_its_own_message(name: str) -> None:
    text, message = REFUSED[name]

    assert refusal(HEAD + text + "\n") == message


@pytest.mark.parametrize(
    ("words", "use"),
    [
        ("hill climb", "hill climb"),
        ("drag", "drag"),
        ("circuit", "circuit"),
        ("Rally raid", "rally"),
        ("street", "road"),
        ("", "circuit"),
        ("picnics", "circuit"),
    ],
)
def test_the_use_of_the_car_brings_its_conditions(words: str, use: str) -> None:
    names = [c.name for c in conditions(Car("x", use=words))]

    assert use_of(words) == use
    assert names == ["level", "nose-up", "nose-down", "launch", "braking", "left", "right"]


def test_what_is_typed_takes_the_place_of_the_condition_of_that_name() -> None:
    found = {c.name: c for c in conditions(read_text(WHOLE))}

    assert found["braking"].down == pytest.approx((-0.766044, 0.0, 0.642788 * -1), abs=1e-6)
    assert found["braking"].grade is Grade.STATED
    assert found["ferry"].is_held
    assert found["launch"].grade is Grade.PRACTICE
    assert list(found)[-1] == "ferry"


def test_conditions_that_nobody_typed_are_shown_where_lines_are_led_in_space() -> None:
    """Accelerations of a car by its use: common practice."""
    circuit = read_text(WHOLE.replace('name = "Small"', 'name = "Small"\nuse = "circuit"'))
    taken = {key: (value, grade) for key, value, grade in circuit.assumed}
    plain = {key for key, _, _ in read_text(HEAD).assumed}

    assert taken["conditions.launch"] == ("down, 31° rearward", Grade.PRACTICE)
    assert taken["conditions.left"] == ("down, 52° right", Grade.PRACTICE)
    assert taken["conditions.level"] == ("down", Grade.PRACTICE)
    assert "conditions.braking" not in taken
    assert not any(key.startswith("conditions") for key in plain)


def test_a_fluid_is_left_behind_by_the_car() -> None:
    found = {c.name: c.down for c in conditions(Car("x", use="circuit"))}

    assert found["level"] == (0.0, 0.0, -1.0)
    assert found["launch"][0] > 0
    assert found["braking"][0] < 0
    assert found["left"][1] > 0
    assert found["right"][1] < 0
    assert all(down[2] < 0 for down in found.values())
