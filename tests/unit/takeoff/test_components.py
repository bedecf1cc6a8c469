# SPDX-License-Identifier: Apache-2.0
"""Components that are bought with the fittings; common practice of the trade."""

import pytest

from linewright.car.read import read_text
from linewright.plan.make import make

HEAD = """
linewright = 1
[car]
name = "one bung"
[systems.oil]
fluid = "15W-50"
hose = "MIL-H-8794"
[components.tank]
kind = "component"
[components.tank.ports]
feed = "weld aluminium"
"""


@pytest.mark.parametrize(
    ("port", "name"),
    [
        ("-16 ORB female", "bung, weld to -16 ORB female"),
        ("M33x2 flat face", "bung, M33x2 flat face female, weld aluminium male"),
    ],
)
def test_a_bung_is_listed_by_its_port_and_its_metal(port: str, name: str) -> None:
    text = HEAD + (
        '[components.bung]\nkind = "bung"\non = "tank.feed"\nmaterial = "aluminium"\n'
        f'[components.bung.ports]\nport = "{port}"\n[closed]\n"bung.port" = "plug"\n'
    )

    assert name in [row.name for row in make(read_text(text)).takeoff.rows]
