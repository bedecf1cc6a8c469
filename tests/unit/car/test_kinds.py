# SPDX-License-Identifier: Apache-2.0
"""Kinds of components; what each brings is common practice without a source."""

import subprocess
import sys
from pathlib import Path

import pytest

from linewright.base.codes import RULES
from linewright.base.finding import Severity
from linewright.base.units import READERS
from linewright.car.kinds import KINDS, UnknownKindError, kind
from linewright.car.model import Medium, Role

#: Kinds with the ports and functions that each must bring; common practice, no source.
MUST_BRING = {
    "dry-sump tank": {"feed", "return", "vent", "drain", "fill", "level"},
    "dry-sump pump": {
        "pressure-in",
        "pressure-out",
        "scavenge-in",
        "scavenge-out",
        "screens",
        "relief",
    },
    "engine": {
        "oil-supply",
        "pressure-signal",
        "temperature-signal",
        "turbo-feed",
        "turbo-drain",
        "breather",
    },
    "remote filter head": {"in-L", "out-L", "in-R", "out-R", "gauge", "stud", "bypass"},
    "oil cooler": {"in", "out", "thermostat", "drain-down"},
    "turbo": {"oil-in", "oil-out", "water", "compressor-in", "compressor-out"},
    "radiator": {"in", "out", "bleed", "drain"},
    "charge-coolant exchanger": {"in", "out", "bleed", "drain"},
    "header tank": {"fill", "bleed", "feed", "overflow", "level"},
    "water pump": {"in", "out", "flow-control"},
    "electric water pump": {"in", "out", "flow-control"},
    "charge cooler": {"air-in", "air-out", "water-in", "water-out", "bleed"},
    "charge pipe": {"in", "out", "blow-off", "pressure", "temperature", "anchor"},
    "fuel cell": {"pick-up", "return", "vent", "roll-over", "fill", "level", "drain", "bond"},
    "surge pot": {"lift-in", "out", "return", "overflow"},
    "fuel pump": {"in", "out", "strainer", "check-valve"},
    "fuel rail": {"in", "out", "fine-filter"},
    "fuel regulator": {"in", "return", "reference", "gauge"},
    "catch can": {"in", "vent", "drain", "level"},
}


@pytest.mark.parametrize("name", MUST_BRING)
def test_a_kind_brings_what_must_be_there(name: str) -> None:
    found = kind(name)
    brought = {p.name for p in found.ports} | {f.name for f in found.functions}

    assert MUST_BRING[name] <= brought


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("Dry sump tank", "dry-sump tank"),
        ("FILTER HEAD", "remote filter head"),
        ("expansion tank", "header tank"),
        ("y-block", "Y block"),
        ("t piece", "tee"),
    ],
)
def test_a_kind_is_found_however_it_is_spelt(typed: str, name: str) -> None:
    assert kind(typed).name == name


def test_a_wrong_kind_names_the_nearest_right_ones() -> None:
    with pytest.raises(UnknownKindError) as caught:
        kind("oil colar")

    assert str(caught.value) == (
        '"oil colar" is no kind of component. Did you mean "oil cooler" or "oil-water exchanger"?'
    )


def test_a_kind_like_nothing_names_the_generic_one() -> None:
    with pytest.raises(UnknownKindError) as caught:
        kind("zzzz")

    assert str(caught.value) == (
        '"zzzz" is no kind of component. Use "component" and name its ports yourself.'
    )


def test_a_port_with_a_number_or_a_side_is_read_by_its_first_words() -> None:
    regulator = kind("fuel regulator")

    assert regulator.port("in-2") is regulator.port("in")
    assert kind("radiator").port("bleed-front").role is Role.VENT
    assert kind("dry-sump pump").port("scavenge-out-1").role is Role.OUT
    assert regulator.port("outlet") is None


def test_closed_may_speak_of_ports_and_functions_only() -> None:
    cooler = kind("oil cooler")

    assert cooler.knows("thermostat")
    assert cooler.knows("drain-down")
    assert not cooler.knows("bypas")


def test_filter_ports_are_there_unasked_and_cell_ports_only_if_mentioned() -> None:
    assert not kind("remote filter head").port("in-R").optional
    assert kind("fuel cell").port("drain").optional


@pytest.mark.parametrize("name", KINDS)
def test_every_kind_is_sound(name: str) -> None:
    found = KINDS[name]
    names = [p.name for p in found.ports]

    assert len(set(names)) == len(names)
    assert found.rides in ("engine", "chassis")
    assert found.material in ("", "aluminium", "steel")
    for reader in found.traits.values():
        assert reader in ("flag", "word", "number") or reader in READERS or "|" in reader
    for function in found.functions:
        assert function.code in RULES
        assert function.words
        assert function.remedy.endswith(".")
        assert function.ports or function.kinds or function.traits or function.where != "system"
        assert all(found.port(p) is not None for p in function.ports)
        for other in function.kinds:
            assert other in KINDS
        if function.where.split()[0] not in ("system", "on", "before", "after"):
            assert kind(function.where.split()[0]).port(function.where.split()[1]) is not None


def test_a_vent_of_a_tank_is_a_stop_and_a_drain_is_a_question() -> None:
    cell = kind("fuel cell")

    assert cell.function("vent").severity is Severity.STOP
    assert cell.function("drain").severity is Severity.ASK
    assert cell.medium is Medium.FUEL


def test_the_page_of_kinds_is_as_generated() -> None:
    page = Path(__file__).parents[3] / "docs" / "reference" / "kinds.md"
    done = subprocess.run(
        [sys.executable, "-m", "cogapp", "--check", str(page)],
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 0, done.stdout + done.stderr


def test_a_word_that_several_kinds_share_is_asked_about_and_not_guessed() -> None:
    with pytest.raises(LookupError) as caught:
        kind("oil filter")

    assert str(caught.value) == (
        '"oil filter" is no kind of component. Did you mean "remote filter head" or '
        '"filter canister" or "inline oil filter"?'
    )
