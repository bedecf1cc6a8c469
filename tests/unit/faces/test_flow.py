# SPDX-License-Identifier: Apache-2.0
"""What ``linewright flow`` prints and writes, of results made by hand and of the demo car."""

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

import jsonschema
import pytest

from linewright.base.errors import UnitError
from linewright.base.finding import Overrule, Severity
from linewright.faces.cli import flow as face
from linewright.flow.model import Flows
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.plan.record_flow import schema_flow
from tests.expected import ROOT
from tests.flows import flows, juniper

ROADSTER = ROOT / "examples" / "club-roadster" / "car.toml"


@cache
def _plan() -> Plan:
    return make(juniper(), in_space=False)


def _told(capsys: pytest.CaptureFixture[str], found: Flows, **asked: str) -> str:
    face.tell(juniper(), found, **asked)
    return capsys.readouterr().out


def test_a_system_is_a_table_with_its_margins_in_plain_words(
    capsys: pytest.CaptureFixture[str],
) -> None:
    out = _told(capsys, flows())

    assert out.startswith("Juniper\n  Computed from stated data and from the defaults")
    assert "\noil, 15W-50, at full power\n  Line  Size" in out
    assert " ".join(out.split()).count("below 0.85 it is likely to draw air; the -16 suction") == 1
    assert "  ● Met: gallery pressure.\n" in out
    assert "    Better: give displacement and ratio of the oil pump.\n" in out
    assert out.splitlines()[-2] == ("oil: of 4 margins: 1 not met, 1 not known well enough, 2 met.")


def test_the_condition_that_asks_most_is_shown_and_another_when_asked(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert "at hot idle\n" not in _told(capsys, flows())
    out = _told(capsys, flows(), condition="hot-idle")

    assert "oil, 15W-50, at hot idle\n" in out
    assert "at full power\n" not in out


def test_lines_fit_a_terminal_of_100_columns(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "100")

    assert max(map(len, _told(capsys, flows()).splitlines())) <= 110


def test_a_size_that_limits_is_told_with_its_neighbours(
    capsys: pytest.CaptureFixture[str],
) -> None:
    out = _told(capsys, flows())

    assert "\n  O01, rubber braided, full power\n" in out
    assert "  ● -16   22.2 mm" in out
    assert "Sizes" not in _told(capsys, flows(), system="fuel")


def test_nothing_known_is_said_as_such(capsys: pytest.CaptureFixture[str]) -> None:
    assert _told(capsys, Flows()).startswith("Juniper\n")


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        (
            {"condition": "rain", "system": ""},
            '--condition "rain" is none that was computed. Those: prime, hot-idle, full-power.',
        ),
        (
            {"condition": "", "system": "brakes"},
            '--system "brakes" is no system of Juniper. Its systems: charge-air, charge-coolant, '
            "coolant, fuel, oil.",
        ),
    ],
)
def test_what_is_not_there_is_refused_with_what_is(asked: dict[str, str], message: str) -> None:
    with pytest.raises(UnitError) as caught:
        face.check_asked(juniper(), flows(), **asked)

    assert str(caught.value) == message


def test_a_folder_gets_plots_diagrams_lists_record_and_pages(tmp_path: Path) -> None:
    face.write(_plan(), flows(), tmp_path, paper="a4")
    found = {str(p.relative_to(tmp_path)) for p in tmp_path.rglob("*") if p.is_file()}

    assert {
        "flow.json",
        "flow.pdf",
        "diagrams/oil-full-power.svg",
        "plots/oil-full-power-pump-oil-pump.svg",
        "plots/oil-full-power-walk.svg",
        "plots/oil-full-power-temperature.svg",
        "lists/flow-lines-oil.csv",
        "lists/gauges.csv",
        "lists/lists.xlsx",
    } <= found
    assert (tmp_path / "flow.pdf").read_bytes().startswith(b"%PDF")


def test_a_real_car_is_computed_told_and_written_as_json(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    code = face.flow(ROADSTER, in_space=False, json=tmp_path / "flow.json")
    out = capsys.readouterr().out
    written = json.loads((tmp_path / "flow.json").read_text(encoding="utf-8"))

    assert code == 0
    assert out.startswith("Club roadster\n")
    assert "\noil, " in out
    assert written["kind"] == "flow"
    assert {s["system"] for s in written["states"]} == {"oil"}
    jsonschema.Draft202012Validator(schema_flow()).validate(written)


def test_json_alone_goes_to_the_output(capsys: pytest.CaptureFixture[str]) -> None:
    face.flow(ROADSTER, in_space=False, json=Path("-"))

    assert json.loads(capsys.readouterr().out)["document"]["name"] == "Club roadster"


def test_a_stop_of_flow_is_1_unless_it_is_overruled(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    stop = replace(flows().findings[0], severity=Severity.STOP)
    found = replace(flows(), findings=(stop,))
    monkeypatch.setattr(face, "compute", lambda plan: found)
    assert face.flow(ROADSTER, in_space=False) == 1

    lived_with = replace(stop, overruled=Overrule(stop.code, stop.about, "short runs only"))
    held = replace(found, findings=(lived_with,))
    monkeypatch.setattr(face, "compute", lambda plan: held)

    assert face.flow(ROADSTER, in_space=False) == 0
    assert capsys.readouterr().err == ""


def test_a_typed_reading_is_held_against_what_is_assumed(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(face, "compute", lambda plan: flows())
    face.flow(ROADSTER, in_space=False, readings=["oil-pressure=1.0 bar@hot-idle"])
    out = " ".join(capsys.readouterr().out.split())

    assert "It contradicts most what is assumed of ENG: oil demand at full power" in out


def test_a_paper_that_is_none_is_refused() -> None:
    with pytest.raises(UnitError, match="say a4 or letter"):
        face.flow(ROADSTER, paper="a5")
