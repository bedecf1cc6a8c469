# SPDX-License-Identifier: Apache-2.0
"""The record of a plan has what a bender needs of each tube, and a welder of each pipe."""

import json
from math import pi

import jsonschema
import pytest

from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.plan.record import dumps, record
from linewright.plan.record_bends import schema
from tests.expected import ROOT, planned

TUBE = """
linewright = 1
[car]
name = "Tubed"
[systems.fuel]
fluid = "petrol"
hose = "tube aluminium"
size = "-6"
[components.pump]
kind = "fuel pump"
ports.out = { end = "-6 flare male", at_car = "0, 0, 0 mm", points = "rearward" }
[components.filter]
kind = "fuel filter"
ports.in = { end = "-6 flare male", at_car = "1000, 500, 0 mm", points = "left" }
[lines]
F01 = { from = "pump.out", to = "filter.in" }
"""


def test_a_tube_has_its_blank_and_no_stocked_bends() -> None:
    (made,) = json.loads(dumps(record(make(read_text(TUBE)), version="t")))["bends"]
    (bend,) = made["bends"]

    assert (made["id"], made["pipe"]) == ("F01", False)
    # A right angle of 23.8 mm radius between 1,000 and 500 mm, and 10 mm squared off at each end.
    assert made["developed_m"] == pytest.approx(1.5 - 2 * 0.0238 + pi / 2 * 0.0238, abs=2e-4)
    assert made["blank_m"] == pytest.approx(made["developed_m"] + 0.02, abs=1e-9)
    assert bend["stocked_deg"] is None
    assert bend["angle_rad"] == pytest.approx(pi / 2)


def test_a_pipe_has_the_stocked_bend_that_each_of_its_bends_is_cut_from() -> None:
    kept = json.loads(dumps(record(planned(ROOT / "examples" / "juniper"), version="t")))["bends"]
    (pipe,) = (made for made in kept if made["pipe"])

    assert pipe["blank_m"] is None
    assert pipe["bends"]
    for bend in pipe["bends"]:
        assert bend["stocked_deg"] * pi / 180 >= bend["angle_rad"] - 0.001
    for made in kept:
        jsonschema.Draft202012Validator(schema()).validate(made)
