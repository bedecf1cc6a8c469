# SPDX-License-Identifier: Apache-2.0
"""Ports as typed: what was taken for something else is shown, not hidden."""

from linewright.base.evidence import Grade
from linewright.car.read import read_text

HEAD = """\
linewright = 1
[car]
name = "Small"
[systems.cooling]
fluid = "coolant"
hose = "silicone"
size = "38 mm"
[components]
A = { kind = "component" }
[ports]
"""


def test_an_inch_bead_read_as_whole_millimetres_is_said_among_the_defaults() -> None:
    car = read_text(HEAD + '"A.neck" = { end = "1-1/2 in bead", known = "calliper" }\n')
    port = car.port("A.neck")

    assert port is not None
    assert str(port.end) == "bead 38 m"
    assert ('ports."A.neck".end', "1-1/2 in read as 38 mm", Grade.STATED) in car.assumed


def test_an_end_read_as_typed_adds_no_default() -> None:
    car = read_text(HEAD + '"A.neck" = { end = "38 mm bead", known = "calliper" }\n')

    assert not [key for key, _, _ in car.assumed if "A.neck" in key]
