# SPDX-License-Identifier: Apache-2.0
"""Courses are written down whole, in SI, by id, and as their schema says."""

import json
from dataclasses import replace

import jsonschema
import pytest

from linewright.plan.record_routes import routes, schema
from tests.unit.sheets.courses import elbow_course, straight_course


def test_courses_keep_to_their_schema_and_read_back_the_same() -> None:
    written = routes([elbow_course(), straight_course()])

    for item in written:
        jsonschema.Draft202012Validator(schema()).validate(item)
    assert json.loads(json.dumps(written, allow_nan=False)) == written


def test_courses_are_sorted_as_people_count() -> None:
    many = [replace(straight_course(), id=name) for name in ("O100", "O99", "F05b", "F05a")]

    assert [item["id"] for item in routes(many)] == ["F05a", "F05b", "O99", "O100"]


def test_a_course_has_its_path_ends_clock_clearance_band_and_points() -> None:
    course = elbow_course()
    (item,) = routes([course])

    assert item["corners_m"] == [list(c) for c in course.path.corners]
    assert item["radii_m"] == [0.1]
    assert item["length_m"] == pytest.approx(0.557079633, abs=1e-9)
    assert item["clock_deg"] == 210.0
    assert item["ends"][0]["angle_deg"] == 90
    assert item["bends"] == [
        {"straight_m": 0.2, "rotation_rad": 0.0, "angle_rad": pytest.approx(1.57079633)}
    ]
    assert item["clearance"] == {"gap_m": 0.012, "from": "ENG", "at_m": [0.3, 0.0, 0.1]}
    assert [row["works"] for row in item["band"]] == [True, True, False, False]
    assert item["holes"] == [{"panel": "firewall", "at_m": [0.1, 0.0, 0.0]}]
    assert item["highs_m"] == [[0.1, 0.2, 0.3]]
    assert item["sureness"] == 0.97
    assert (item["sureness_draws"], item["sureness_seed"]) == (0, 1)


def test_a_straight_end_has_no_clock_and_nothing_near_is_null() -> None:
    (item,) = routes([straight_course()])

    assert item["clock_deg"] is None
    assert item["clearance"] is None


def test_what_doubles_lose_is_written_as_nought() -> None:
    course = straight_course()
    tilted = replace(course, a=replace(course.a, n=(1.0, 6.1e-17, -0.0)))

    assert routes([tilted])[0]["ends"][0]["n"] == [1.0, 0.0, 0.0]
    assert "-0.0" not in json.dumps(routes([tilted]))
