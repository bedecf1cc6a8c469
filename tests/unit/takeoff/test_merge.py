# SPDX-License-Identifier: Apache-2.0
"""Equal wants become rows with spares, in one order."""

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.evidence import Figure, Grade
from linewright.car.model import Car
from linewright.takeoff.merge import GROUPS, Spares, Want, merge, spares

CAR = Car("test")


@pytest.mark.parametrize(("need", "extra"), [(1, 2), (2, 2), (4, 2), (5, 3), (6, 3), (12, 6)])
def test_spare_seals_are_half_the_need_and_at_least_two(need: int, extra: int) -> None:
    # Worked systems A and B: 5 → 8, 6 → 9, 2 → 4, 4 → 6.
    assert spares(CAR, Spares.SEAL, need) == extra


@pytest.mark.parametrize(("need", "extra"), [(1, 0), (3, 0), (4, 1), (7, 1)])
def test_one_hose_end_more_where_it_is_used_more_than_three_times(need: int, extra: int) -> None:
    assert spares(CAR, Spares.HOSE_END, need) == extra


def test_nothing_needed_has_no_spare() -> None:
    assert spares(CAR, Spares.SEAL, 0) == 0


def test_the_builder_may_set_other_spares() -> None:
    typed = {"spare-seals-least": Figure(5, "-", Grade.STATED)}

    assert spares(Car("test", settings=typed), Spares.SEAL, 2) == 5


def test_equal_wants_are_one_row_with_all_who_ask() -> None:
    rows = merge(
        CAR,
        [
            Want("ring 8", "ring -8", "seals", "oil", "O10.A.1", spares=Spares.SEAL),
            Want("ring 8", "ring -8", "seals", "oil", "O02.A.1", spares=Spares.SEAL),
            Want("ring 8", "ring -8", "seals", "fuel", "F01.B.1", 2, spares=Spares.SEAL),
        ],
    )

    assert len(rows) == 1
    assert (rows[0].need, rows[0].order) == (4, 6)
    assert rows[0].because == ("F01.B.1", "O02.A.1", "O10.A.1")
    assert rows[0].by_system == (("fuel", 2), ("oil", 2))


def test_spares_alone_are_ordered_without_a_need() -> None:
    wants = [
        Want("olive", "olive", "seals", "fuel", f"F01.A.{n}", 0, spares=Spares.SEAL, spare_base=1)
        for n in range(12)
    ]
    (row,) = merge(CAR, wants)

    assert (row.need, row.order) == (0, 6)


def test_a_row_is_as_sure_as_its_least_sure_want() -> None:
    wants = [
        Want("plug", "plug", "plugs", "oil", "FH.a.1", grade=Grade.READ),
        Want("plug", "plug", "plugs", "oil", "FH.b.1", grade=Grade.RECALLED, is_certain=False),
    ]
    (row,) = merge(CAR, wants)

    assert row.grade is Grade.RECALLED
    assert not row.is_certain


WANTS = st.builds(
    Want,
    code=st.sampled_from(["a", "b", "c 2", "c 10"]),
    name=st.just("thing"),
    group=st.sampled_from(GROUPS),
    system=st.sampled_from(["oil", "fuel", None]),
    because=st.sampled_from(["O01.A.1", "O02.A.1", "F10.B.2"]),
    count=st.integers(0, 9),
    spares=st.just(Spares.SEAL),
)


@settings(max_examples=150, deadline=None)
@given(st.lists(WANTS, max_size=25), st.integers(0, 99))
def test_rows_add_up_and_no_order_of_wants_changes_them(wants: list[Want], seed: int) -> None:
    rows = merge(CAR, wants)
    shuffled = list(wants)
    Random(seed).shuffle(shuffled)

    assert merge(CAR, shuffled) == rows
    assert sum(row.need for row in rows) == sum(want.count for want in wants)
    for row in rows:
        assert row.order >= row.need
        assert row.because
        assert sum(share for _, share in row.by_system) == row.need
    assert [GROUPS.index(row.group) for row in rows] == sorted(
        GROUPS.index(row.group) for row in rows
    )
