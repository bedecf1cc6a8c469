# SPDX-License-Identifier: Apache-2.0
"""A comparison names every part, hose, line and finding that differs, and nothing else."""

from linewright.car.read import read_text
from linewright.plan.compare import compare
from linewright.plan.make import make
from linewright.plan.model import Plan
from tests.expected import ROOT

_TEXT = (ROOT / "examples" / "club-roadster" / "car.toml").read_text()


def _plan(*changes: tuple[str, str]) -> Plan:
    text = _TEXT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return make(read_text(text), in_space=False)


def test_a_plan_and_itself_differ_in_nothing() -> None:
    assert compare(_plan(), _plan()).is_nothing


def test_another_size_changes_parts_hose_and_lines() -> None:
    found = compare(_plan(), _plan(('"-10"', '"-12"')))
    parts = {p.code: (p.before, p.after) for p in found.parts}
    hoses = {h.code: (round(h.before, 2), round(h.after, 2)) for h in found.hoses}

    assert parts["hose-end-10-rubber-90-fixed"] == (5, 0)
    assert parts["hose-end-12-rubber-90-fixed"] == (0, 5)
    assert set(hoses) == {"hose -10 rubber braided", "hose -12 rubber braided"}
    assert hoses["hose -10 rubber braided"][0] == hoses["hose -12 rubber braided"][1] > 0
    assert [line.run for line in found.lines] == ["L1", "L2", "L3", "L4", "L5"]
    assert found.lines[0].what[0] == ("size", "-10", "-12")


def test_a_comparison_turned_round_is_its_mirror() -> None:
    there = compare(_plan(), _plan(('"-10"', '"-12"')))
    back = compare(_plan(('"-10"', '"-12"')), _plan())

    assert [(p.code, p.after, p.before) for p in back.parts] == [
        (p.code, p.before, p.after) for p in there.parts
    ]
    assert (back.gained, back.lost) == (there.lost, there.gained)
