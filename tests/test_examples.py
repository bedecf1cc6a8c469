# SPDX-License-Identifier: Apache-2.0
"""Each example through the whole plan, against its expected files."""

from pathlib import Path

import pytest

from linewright.base.finding import Overrule
from linewright.car.quantities import accepted
from linewright.car.read import read_text
from linewright.checks.accepted import is_worse
from linewright.plan.make import make
from linewright.plan.record import dumps, record
from linewright.tables.load import sources
from tests.expected import EXAMPLES, expected_files, planned

NAMES = [folder.name for folder in EXAMPLES]


def test_the_four_examples_are_there() -> None:
    assert NAMES == ["club-roadster", "e85-boot", "juniper", "planted"]


@pytest.mark.parametrize("folder", EXAMPLES, ids=NAMES)
def test_the_plan_is_as_expected(folder: Path) -> None:
    made = dict(expected_files(planned(folder)))
    kept = {p.name: p.read_text(encoding="utf-8") for p in (folder / "expected").iterdir()}

    assert sorted(made) == sorted(kept)
    for name, text in made.items():
        assert text == kept[name], f"{folder.name}/expected/{name}: make accept, read the diff"


@pytest.mark.parametrize("folder", EXAMPLES, ids=NAMES)
def test_the_same_document_gives_the_same_bytes(folder: Path) -> None:
    once = dumps(record(planned(folder), version="test"))
    text = (folder / "car.toml").read_text(encoding="utf-8")
    again = dumps(record(make(read_text(text, file="car.toml"), with_flow=True), version="test"))

    assert once == again


@pytest.mark.parametrize("folder", EXAMPLES, ids=NAMES)
def test_an_example_says_that_it_is_invented(folder: Path) -> None:
    text = (folder / "car.toml").read_text(encoding="utf-8").lower()

    assert "invented" in text
    assert (folder / "README.md").is_file()


#: What is no source of the shipped tables and says so in plain words.
WORDS = {
    "common practice",
    "component marking: arrow or IN and OUT",
    "seal materials table",
    "the car document",
}


@pytest.mark.parametrize("folder", EXAMPLES, ids=NAMES)
def test_every_source_that_is_cited_is_known(folder: Path) -> None:
    plan = planned(folder)
    known = {*sources(), *WORDS, *(source.title for source in sources().values())}
    cited = {part.strip() for f in plan.findings for part in f.source.split(";") if part.strip()}
    for end in (*plan.joints.terminations, *plan.joints.fits):
        for joint in end.chain.joints if end.chain else ():
            cited.add(joint.mating.source)
            cited.update(seal.source for seal in joint.mating.seals)

    assert cited
    assert sorted(cited - known) == []


@pytest.mark.parametrize("folder", EXAMPLES, ids=NAMES)
def test_every_printed_value_can_be_accepted_and_then_covers_its_finding(folder: Path) -> None:
    found = [f for f in planned(folder).findings if f.measure is not None and f.value]
    reopened = [
        (f.code, f.about, f.value)
        for f in found
        if is_worse(f, Overrule(f.code, f.about, "as it is", accepted=accepted(f.value or "")))
    ]

    assert reopened == []
