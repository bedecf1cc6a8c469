# SPDX-License-Identifier: Apache-2.0
"""What ``linewright confidence`` prints, writes and refuses."""

from pathlib import Path

import pytest

from linewright.base.errors import OrderError
from linewright.faces.cli.confidence import confidence
from linewright.faces.cli.order import Asked
from linewright.sheets.confidence import percent
from tests.expected import ROOT

_CAR = ROOT / "examples" / "club-roadster" / "car.toml"
_QUICK = Asked(is_quick=True, in_space=False)


def test_it_tells_the_chance_its_range_and_what_to_measure(
    capsys: pytest.CaptureFixture[str],
) -> None:
    code = confidence(_CAR, _QUICK, level=25)
    out = capsys.readouterr().out

    assert code == 0
    assert out.startswith("Club roadster\nThis one order is enough with a chance of ")
    for title in (
        "Chance that nothing further must be ordered:",
        "What would make a second order:",
        "Measure next:",
        "What it costs to be surer:",
        "Spares for 25 %:",
    ):
        assert f"\n{title}\n" in out
    assert "index " in out  # without offers no price is money
    assert "estimates from practice" in " ".join(out.split())


def test_ports_that_are_tied_are_measured_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    confidence(_CAR, _QUICK, tied=["FH.in-L, FH.out-R"])

    assert "FH.in-L, FH.out-R" in capsys.readouterr().out


def test_it_writes_its_tables(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    confidence(_CAR, Asked(is_quick=True, in_space=False, out=tmp_path))
    written = sorted(path.name for path in tmp_path.iterdir())

    assert written == [
        "confidence-curve.csv",
        "confidence.csv",
        "confidence.pdf",
        "confidence.svg",
        "measure-next.csv",
        "troubles.csv",
    ]
    assert capsys.readouterr().out.endswith(f"Written to {tmp_path}.\n")


@pytest.mark.parametrize(
    ("level", "tied", "second", "message"),
    [
        (100.0, (), "", "--level 100 is no chance: write percent, as --level 90."),
        (
            None,
            ("FH.in-L",),
            "",
            '--tie "FH.in-L" names one port: tie two or more, as --tie A.in,B.in.',
        ),
        (None, ("FH.in-L,X.y",), "", '--tie "FH.in-L,X.y": "X.y" is no port of Club roadster.'),
        (
            None,
            ("FH.in-L,FH.out-R", "FH.in-L,TOP.IN"),
            "",
            '--tie "FH.in-L,TOP.IN": FH.in-L is tied already; name all in one list.',
        ),
        (None, (), "60", "--second is money, and there are no offers: without them nothing is."),
    ],
)
def test_what_cannot_be_meant_is_refused(
    level: float | None, tied: tuple[str, ...], second: str, message: str
) -> None:
    with pytest.raises(OrderError) as refused:
        confidence(_CAR, _QUICK, level, tied, second)

    assert str(refused.value) == message


def test_chances_are_written_without_false_certainty() -> None:
    assert [percent(x) for x in (0.0, 0.004, 0.5, 0.996, 1.0)] == [
        "0 %",
        "< 1 %",
        "50 %",
        "> 99 %",
        "100 %",
    ]
