# SPDX-License-Identifier: Apache-2.0
"""What every takeoff keeps, on the worked systems with other strings."""

from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Car
from linewright.car.read import read
from linewright.joints import termination
from linewright.joints.model import Chain, Joints
from linewright.routes.lengths import lay
from linewright.takeoff.count import count
from linewright.takeoff.merge import GROUPS
from linewright.takeoff.model import Takeoff

EXAMPLES = Path(__file__).parents[3] / "examples"
NAMES = ("club-roadster", "e85-boot")
EVERY = (*NAMES, "juniper")


@cache
def _read(name: str) -> tuple[Car, Joints]:
    car = read(EXAMPLES / name / "car.toml")
    return car, termination.offer(car)


def _plan(name: str, strings: list[float] | None = None) -> Takeoff:
    car, joints = _read(name)
    if strings is not None:
        typed = zip(car.lines.items(), strings, strict=False)
        lines = dict(car.lines)
        for (line_id, line), metres in typed:
            lines[line_id] = replace(line, string=Figure(metres, "m", Grade.STATED))
        car = replace(car, lines=lines)
    return count(car, joints, lay(car, joints))


def _chains(joints: Joints) -> list[Chain]:
    every = [*joints.terminations, *joints.fits]
    return [item.chain for item in every if item.chain is not None]


@pytest.mark.parametrize("name", NAMES)
def test_each_part_of_each_chain_is_needed_once(name: str) -> None:
    joints = _read(name)[1]
    parts = Counter(part.code for chain in _chains(joints) for part in chain.parts)
    rows = {row.code: row.need for row in _plan(name).rows}

    assert {code: rows.get(code) for code in parts} == dict(parts)


def test_components_that_are_parts_come_on_top_of_the_chains() -> None:
    car, joints = _read("juniper")
    parts = Counter(p.code for c in _chains(joints) for p in c.parts if not p.held)
    rows = {row.code: row.need for row in _plan("juniper").rows}
    shapes = [c.id for c in car.components.values() if c.part in ("tee", "y block")]
    asked = {who for row in _plan("juniper").rows for who in row.because}

    assert all(rows[code] >= need for code, need in parts.items())
    assert shapes
    assert set(shapes) <= asked


@pytest.mark.parametrize("name", EVERY)
def test_rings_on_the_list_are_the_rings_of_the_joints(name: str) -> None:
    chains = _chains(_read(name)[1])
    needs = [need for chain in chains for joint in chain.joints for need in joint.mating.seals]
    rings = sum(need.count for need in needs if need.what in ("o-ring", "face o-ring"))
    washers = sum(need.count for need in needs if need.what == "washer")
    rows = [row for row in _plan(name).rows if row.group == "seals"]

    assert sum(row.need for row in rows if row.name.startswith("O-ring")) == rings
    assert sum(row.need for row in rows if row.name.startswith("washer")) == washers


@pytest.mark.parametrize("name", EVERY)
def test_every_row_says_who_asks_and_covers_its_need(name: str) -> None:
    takeoff = _plan(name)

    for row in takeoff.rows:
        assert row.because, row.name
        assert row.order >= row.need >= 0, row.name
        assert row.order > 0, row.name
        assert sum(share for _, share in row.by_system) == row.need, row.name
        assert row.group in GROUPS, row.name
    assert all(row.because for row in takeoff.hoses)


@pytest.mark.parametrize("name", EVERY)
def test_the_same_document_gives_the_same_takeoff(name: str) -> None:
    assert _plan(name) == _plan(name)


@pytest.mark.parametrize("name", EVERY)
def test_rows_are_in_one_order(name: str) -> None:
    rows = _plan(name).rows
    places = [GROUPS.index(row.group) for row in rows]

    assert places == sorted(places)
    assert len({(row.group, row.code) for row in rows}) == len(rows)


@settings(max_examples=40, deadline=None)
@given(
    name=st.sampled_from(NAMES),
    strings=st.lists(st.floats(0.1, 9.0), min_size=10, max_size=10),
)
def test_hose_on_the_list_covers_every_piece(name: str, strings: list[float]) -> None:
    car, _ = _read(name)
    takeoff = _plan(name, strings)
    pieces = dict(piece for row in takeoff.hoses for piece in row.pieces)

    assert set(pieces) == set(car.lines)
    for row in takeoff.hoses:
        assert row.need == pytest.approx(sum(length for _, length in row.pieces))
        assert row.order >= row.need - 1e-6
        assert row.metres >= row.order - 1e-6
        assert row.feet * 0.3048 >= row.need - 1e-6
        assert row.string <= row.need + 1e-9
        assert sum(share for _, share in row.by_system) == pytest.approx(row.need)
    for cut in takeoff.cuts:
        assert cut.cut is None or cut.cut.value < pieces[cut.run]
