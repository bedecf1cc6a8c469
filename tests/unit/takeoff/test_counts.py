# SPDX-License-Identifier: Apache-2.0
"""Rows say how much each id asks for, and hose rows of which system each piece is."""

from linewright.car.read import read
from linewright.plan.make import make
from tests.expected import ROOT


def test_counts_of_the_ids_add_up_to_the_need_of_each_row() -> None:
    takeoff = make(read(ROOT / "examples" / "juniper" / "car.toml"), in_space=False).takeoff

    for row in takeoff.rows:
        assert len(row.counts) == len(row.because), row.code
        assert sum(row.counts) == row.need, row.code


def test_lengths_of_the_pieces_add_up_to_those_of_their_systems() -> None:
    takeoff = make(read(ROOT / "examples" / "juniper" / "car.toml"), in_space=False).takeoff

    for row in takeoff.hoses:
        by_system: dict[str, float] = {}
        for (_, length), system in zip(row.pieces, row.systems, strict=True):
            by_system[system] = by_system.get(system, 0.0) + length

        assert set(by_system) == {name for name, _ in row.by_system}, row.code
        for name, length in row.by_system:
            assert abs(by_system[name] - length) < 1e-9, row.code
