# SPDX-License-Identifier: Apache-2.0
"""Take any one thing away from any example car, and a finding names it.

The rule is our own: a proof of completeness that misses one missing thing proves nothing.
"""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from linewright.base.finding import Severity
from linewright.car.model import Car
from linewright.car.read import read
from linewright.checks.run import run
from linewright.plan.make import make
from linewright.plan.model import Plan

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*/car.toml"))
CARS = [path.parent.name for path in EXAMPLES]

#: Groups of the parts list in which every row seals a joint or holds it together.
SEALING = ("seals", "sealant")


@cache
def _plan(name: str) -> Plan:
    return make(read(next(path for path in EXAMPLES if path.parent.name == name)), in_space=False)


def _told(plan: Plan) -> set[str]:
    """Ids that findings of weight are about."""
    return {i for f in plan.findings if f.severity is not Severity.NOTE for i in f.about}


def _new(before: Plan, after: Plan) -> set[str]:
    old = {f.key for f in before.findings}
    return {i for f in after.findings if f.key not in old for i in f.about}


def _of(car: Car, component: str) -> Iterator[tuple[str, str]]:
    """Lines and mounts of a component: id of the line, port at the other side."""
    for line in car.lines.values():
        for own, other in (
            (line.from_port, line.to_port),
            (line.to_port, line.from_port),
        ):
            if own.partition(".")[0] == component and other.partition(".")[0] != component:
                yield line.id, other
    for each in car.components.values():
        if each.on and each.on.partition(".")[0] == component:
            yield "", f"{each.id}.{each.mount or 'mount'}"
    host = car.components[component].on
    if host:
        yield "", host


def test_there_are_examples_to_take_things_away_from() -> None:
    assert {"club-roadster", "e85-boot"} <= set(CARS)


@pytest.mark.parametrize("name", CARS)
def test_a_line_taken_away_is_missed_at_both_its_ports(name: str) -> None:
    before = _plan(name)
    for line in before.car.lines.values():
        rest = {i: ln for i, ln in before.car.lines.items() if i != line.id}
        after = make(replace(before.car, lines=rest), in_space=False)

        assert {line.from_port, line.to_port} <= _told(after), line.id
        assert _new(before, after), line.id


@pytest.mark.parametrize("name", CARS)
def test_a_plug_a_cap_or_a_reason_to_stay_open_taken_away_is_missed(name: str) -> None:
    before = _plan(name)
    for closed in before.car.closed.values():
        if closed.how == "none":
            continue  # what is answered by "none" may be answered elsewhere as well
        rest = {i: c for i, c in before.car.closed.items() if i != closed.what}
        after = make(replace(before.car, closed=rest), in_space=False)

        assert closed.what in _new(before, after), closed.what


@pytest.mark.parametrize("name", CARS)
def test_a_component_taken_away_is_missed_at_every_port_that_it_met(name: str) -> None:
    before = _plan(name)
    for component in before.car.components:
        met = list(_of(before.car, component))
        gone = {line for line, _ in met}
        components = {
            i: replace(c, on=None) if c.on and c.on.partition(".")[0] == component else c
            for i, c in before.car.components.items()
            if i != component
        }
        lines = {i: ln for i, ln in before.car.lines.items() if i not in gone}
        lines = {
            i: ln
            for i, ln in lines.items()
            if component not in (ln.from_port.partition(".")[0], ln.to_port.partition(".")[0])
        }
        closed = {i: c for i, c in before.car.closed.items() if i.partition(".")[0] != component}
        car = replace(before.car, components=components, lines=lines, closed=closed)
        after = make(car, in_space=False)

        assert {port for _, port in met} <= _told(after), component


@pytest.mark.parametrize("name", CARS)
def test_a_seal_taken_off_the_list_is_missed_at_each_of_its_joints(name: str) -> None:
    before = _plan(name)
    rows = [row for row in before.takeoff.rows if row.group in SEALING and row.need]
    for row in rows:
        rest = tuple(r for r in before.takeoff.rows if r is not row)
        checked = run(before.car, before.joints, before.routes, replace(before.takeoff, rows=rest))
        missing = {i for f in checked.findings if f.code == "seal-missing" for i in f.about}

        assert set(row.because) <= missing, row.name

    assert rows


@pytest.mark.parametrize("name", CARS)
def test_a_seal_counted_one_short_is_missed(name: str) -> None:
    before = _plan(name)
    for row in before.takeoff.rows:
        if row.group != "seals" or not row.need:
            continue
        short = tuple(replace(r, need=r.need - 1) if r is row else r for r in before.takeoff.rows)
        checked = run(before.car, before.joints, before.routes, replace(before.takeoff, rows=short))

        assert any(f.code == "seal-missing" for f in checked.findings), row.name
