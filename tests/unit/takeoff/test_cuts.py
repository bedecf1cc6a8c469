# SPDX-License-Identifier: Apache-2.0
"""Hose to buy by the foot and by the metre, and the cut list."""

from dataclasses import replace
from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Car, Construction, Line, Medium
from linewright.joints.model import Joints
from linewright.routes.lengths import lay
from linewright.takeoff.cuts import cuts, describe, hose_rows
from linewright.takeoff.model import HoseRow

OIL = Line("O01", "A.out", "B.in", "oil", Medium.OIL, "-10", "rubber braided", Construction.HOSE)


def _rows(*lines: Line) -> tuple[HoseRow, ...]:
    car = Car("test", lines={line.id: line for line in lines})
    return hose_rows(car, lay(car, Joints((), ())))


def _long(line: Line, name: str, metres: float) -> Line:
    return replace(line, id=name, string=Figure(metres, "m", Grade.STATED))


def test_a_metre_is_bought_over_short_needs() -> None:
    # Worked system B, the large size: 1771 mm → 2.77 m, 10 ft or 3 m.
    (row,) = _rows(*(_long(OIL, f"O0{n}", m) for n, m in enumerate((0.4, 0.3, 0.9))))

    assert row.need == pytest.approx(1.771)
    assert row.order == pytest.approx(2.771)
    assert (row.feet, row.metres) == (10, 3)


def test_a_tenth_is_bought_over_long_needs() -> None:
    (row,) = _rows(*(_long(OIL, f"O0{n}", 4.0) for n in range(5)))

    assert row.need == pytest.approx(5 * (4.0 * 1.06 + 0.025))
    assert row.order == pytest.approx(1.1 * row.need)


def test_another_size_or_family_is_another_row() -> None:
    small = replace(OIL, size="-6")
    fluoro = replace(OIL, hose="PTFE full-bore conductive")
    rows = _rows(_long(OIL, "O01", 1), _long(small, "O02", 1), _long(fluoro, "F01", 1))

    assert [row.code for row in rows] == [
        "hose -6 rubber braided",
        "hose -10 PTFE full-bore conductive",
        "hose -10 rubber braided",
    ]


def test_two_words_for_one_family_are_one_row() -> None:
    other = replace(OIL, hose="rubber")
    (row,) = _rows(_long(OIL, "O01", 1), _long(other, "O02", 1))

    assert row.because == ("O01", "O02")


def test_a_line_of_unknown_length_is_left_out_of_the_hose_and_kept_in_the_cut_list() -> None:
    car = Car("test", lines={"O01": OIL})
    routes = lay(car, Joints((), ()))

    assert hose_rows(car, routes) == ()
    assert [cut.note for cut in cuts(car, routes)] == ["cut in place: no length known"]


@pytest.mark.parametrize(
    ("construction", "hose", "size", "code", "name"),
    [
        (
            Construction.TUBE,
            "tube, stainless",
            "-6",
            "tube -6 stainless",
            "hard tube -6, stainless",
        ),
        (Construction.TUBE, "hard tube", "-8", "tube -8", "hard tube -8"),
        (Construction.PIPE, "pipe", "63.5", "pipe 63.5 mm", "charge pipe 63.5 mm"),
        (
            Construction.CLAMPED,
            "silicone",
            "38",
            "hose 38 mm silicone",
            "hose 38 mm, silicone hose",
        ),
    ],
)
def test_each_kind_of_line_is_called_by_its_trade_name(
    construction: Construction, hose: str, size: str, code: str, name: str
) -> None:
    line = replace(OIL, construction=construction, hose=hose, size=size)

    assert describe(line) == (code, name)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.floats(0.05, 12.0), min_size=1, max_size=12))
def test_what_is_ordered_covers_the_need_and_a_spare_cut(strings: list[float]) -> None:
    (row,) = _rows(*(_long(OIL, f"O{n:02}", m) for n, m in enumerate(strings)))

    assert row.string == pytest.approx(sum(strings))
    assert row.need == pytest.approx(sum(m * 1.06 + 0.025 for m in strings))
    assert row.order == pytest.approx(row.need + max(0.1 * row.need, 1.0))
    assert row.metres == ceil(row.order - 1e-6)
    assert 0 <= row.feet * 0.3048 - row.order + 1e-6 < 0.3048 + 1e-5
