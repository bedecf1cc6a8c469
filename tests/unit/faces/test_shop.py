# SPDX-License-Identifier: Apache-2.0
"""What ``linewright shop`` prints, keeps and refuses."""

from pathlib import Path

import pytest

from linewright.base.errors import ShopError
from linewright.faces.cli import shop as face
from linewright.shop.revisions import Cars, ConflictError
from linewright.shop.store import open_shop
from tests.expected import ROOT

_CAR = ROOT / "examples" / "club-roadster" / "car.toml"
_TEXT = _CAR.read_text()


@pytest.fixture
def where(tmp_path: Path) -> str:
    return str(tmp_path / "shop.sqlite")


@pytest.fixture
def saved(where: str, tmp_path: Path) -> str:
    """A shop with two revisions of a car: its fourth line became 50 mm longer."""
    face.add(where, _CAR, "", "Ann")
    longer = tmp_path / "longer.toml"
    longer.write_text(_TEXT.replace('string = "950 mm"', 'string = "1000 mm"'))
    face.save(where, "Club roadster", longer, "cooler moved", None, "Ann")
    return where


def test_an_empty_shop_says_what_to_do_next(where: str, capsys: pytest.CaptureFixture[str]) -> None:
    face.list_cars(where)

    assert capsys.readouterr().out == (
        f"No car yet in {where}. Add one: linewright shop add CAR.toml\n"
    )


def test_a_car_takes_the_name_of_its_document(
    where: str, capsys: pytest.CaptureFixture[str]
) -> None:
    face.add(where, _CAR, "", "Ann")

    assert capsys.readouterr().out == '"Club roadster" is kept as revision 1.\n'


def test_a_document_that_cannot_be_planned_is_kept_and_its_faults_told(
    where: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "half.toml"
    file.write_text("name = 'Half'\n[components\n")
    code = face.add(where, file, "", "Ann")
    told = capsys.readouterr()

    assert code == 0
    assert told.out == '"half" is kept as revision 1.\n'
    assert told.err.startswith("It cannot be planned as it is:\n")
    assert f"{file}, line 2:" in told.err


def test_a_file_that_is_no_text_is_refused(where: str, tmp_path: Path) -> None:
    file = tmp_path / "x.toml"
    file.write_bytes(b"name = '\xff'")

    with pytest.raises(ShopError) as refused:
        face.add(where, file, "", "Ann")
    assert str(refused.value) == (
        f"{file} is not UTF-8 text: byte 9 cannot be read. Save it as UTF-8."
    )


def test_revisions_are_listed_newest_first(saved: str, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    face.log(saved, "club roadster")
    lines = capsys.readouterr().out.splitlines()

    assert lines[0] == "Club roadster"
    assert [line.split()[0] for line in lines[1:]] == ["2", "1"]
    assert lines[1].endswith("Ann  cooler moved")


def test_a_comparison_names_the_line_and_the_hose(
    saved: str, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    face.compare(saved, "Club roadster@1", "")
    out = capsys.readouterr().out

    assert out.startswith("Club roadster, revision 1 → Club roadster, revision 2\n\nHose needed:\n")
    assert "\nLines:\n  L4: length " in out
    assert "L1" not in out


def test_a_revision_compared_with_itself_says_that_nothing_changed(
    saved: str, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    face.compare(saved, "Club roadster@2", "Club roadster")

    assert capsys.readouterr().out.endswith(
        "  Nothing changed: the same parts, lines and findings.\n"
    )


def test_an_undo_and_a_redo_say_where_the_car_stands(
    saved: str, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    face.undo(saved, "Club roadster", "Ann")
    face.redo(saved, "Club roadster", "Ann")

    assert capsys.readouterr().out == (
        '"Club roadster" is back at revision 1; that is kept as 3.\n'
        '"Club roadster" is back at revision 2; that is kept as 4.\n'
    )


def test_a_document_comes_out_as_it_went_in(saved: str, tmp_path: Path) -> None:
    face.export(saved, "Club roadster@1", tmp_path / "out" / "car.toml")

    assert (tmp_path / "out" / "car.toml").read_bytes() == _CAR.read_bytes()


def test_a_save_on_top_of_an_old_revision_is_refused(saved: str) -> None:
    with pytest.raises(ConflictError, match="has moved on: Ann saved revision 2"):
        face.save(saved, "Club roadster", _CAR, "back", 1, "Bob")


def test_a_name_with_an_at_sign_is_found(where: str) -> None:
    with open_shop(where) as shop:
        Cars(shop).add("me@home", _TEXT, "Ann")

    assert face.export(where, "me@home", Path("-")) == 0
    assert face.export(where, "me@home@1", Path("-")) == 0
