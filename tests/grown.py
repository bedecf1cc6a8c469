# SPDX-License-Identifier: Apache-2.0
"""Cars of any number of placed lines at one density: invented, for times and for what is kept.

A cell is a metre of car: a tank, a pump and a cooler as blocks of 100 to 200 mm, a post and a
beam that stand between them, and five hoses. Cells stand in a row and differ by small offsets
that come from their numbers alone.
"""

from collections.abc import Mapping
from dataclasses import replace

from linewright.base.vectors import Vector
from linewright.car.model import Car
from linewright.car.read import read_text

#: Hoses in one cell. [-]
LINES = 5

_HEAD = """linewright = 1
[car]
name = "Grown"
use = "track day"
datum = "front axle centre, on the ground"
placed = "taped"
[systems.oil]
fluid = "10W-40"
hose = "rubber braided"
size = "-8"
hottest = "130 °C"
highest = "6 bar"
"""

_CELL = """
[components.tank{n}]
kind = "component"
system = "oil"
at = "{x0:.1f}, -300, {z0:.1f} mm"
size = "200 x 200 x 300 mm"
[components.tank{n}.ports]
low = {{ end = "-8 ORB female", known = "read", at = "40, 100, -90 mm", points = "right", role = "out" }}
high = {{ end = "-8 ORB female", known = "read", at = "-40, 100, 90 mm", points = "right", role = "in" }}
top = {{ end = "-8 ORB female", known = "read", at = "0, 0, 150 mm", points = "up", role = "in" }}
side = {{ end = "-8 ORB female", known = "read", at = "100, 0, 40 mm", points = "rearward", role = "out" }}
[components.pump{n}]
kind = "component"
system = "oil"
at = "{x1:.1f}, 300, {z1:.1f} mm"
size = "160 x 120 x 120 mm"
[components.pump{n}.ports]
in = {{ end = "-8 ORB female", known = "read", at = "0, -60, -20 mm", points = "left", role = "in" }}
out = {{ end = "-8 ORB female", known = "read", at = "40, 0, 60 mm", points = "up", role = "out" }}
spill = {{ end = "-8 ORB female", known = "read", at = "-80, 0, 0 mm", points = "forward", role = "out" }}
[components.cooler{n}]
kind = "component"
system = "oil"
at = "{x2:.1f}, 0, {z2:.1f} mm"
size = "100 x 200 x 100 mm"
[components.cooler{n}.ports]
in = {{ end = "-8 ORB female", known = "read", at = "0, 60, 50 mm", points = "up", role = "in" }}
out = {{ end = "-8 ORB female", known = "read", at = "0, -60, 50 mm", points = "up", role = "out" }}
drip = {{ end = "-8 ORB female", known = "read", at = "-50, -60, 0 mm", points = "forward", role = "in" }}
[bodies.post{n}]
at = "{x3:.1f}, 60, 400 mm"
size = "50 dia x 500 mm"
[bodies.beam{n}]
at = "{x4:.1f}, 150, 250 mm"
size = "60 x 300 x 60 mm"
"""

_LINES = """
O{a:03d} = {{ from = "tank{n}.low", to = "pump{n}.in" }}
O{b:03d} = {{ from = "pump{n}.out", to = "cooler{n}.in" }}
O{c:03d} = {{ from = "cooler{n}.out", to = "tank{n}.top" }}
O{d:03d} = {{ from = "pump{n}.spill", to = "tank{n}.high" }}
O{e:03d} = {{ from = "tank{n}.side", to = "cooler{n}.drip" }}
"""


def text(lines: int) -> str:
    """The document of a car of so many lines: a multiple of five."""
    cells, hoses = [], []
    for n in range(lines // LINES):
        x, off = 1000.0 * n, float(n * 37 % 11) * 4.0
        cells.append(
            _CELL.format(
                n=n,
                x0=x + off,
                x1=x + 350.0 - off,
                x2=x + 560.0 + off / 2.0,
                x3=x + 200.0,
                x4=x + 420.0 - off / 2.0,
                z0=450.0 + off,
                z1=330.0 + off / 2.0,
                z2=520.0 - off,
            )
        )
        first = LINES * n + 1
        hoses.append(
            _LINES.format(n=n, a=first, b=first + 1, c=first + 2, d=first + 3, e=first + 4)
        )
    return f"{_HEAD}{''.join(cells)}\n[lines]{''.join(hoses)}"


def grown(lines: int) -> Car:
    """A car of so many lines, read."""
    return read_text(text(lines), file="grown.toml")


def moved(car: Car, component: str, by: Vector) -> Car:
    """The same car with one component elsewhere."""
    before = car.components[component]
    assert before.place is not None
    x, y, z = before.place.at
    place = replace(before.place, at=(x + by[0], y + by[1], z + by[2]))
    components: Mapping[str, object] = {**car.components, component: replace(before, place=place)}
    return replace(car, components=components)  # type: ignore[arg-type]
