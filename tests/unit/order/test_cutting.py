# SPDX-License-Identifier: Apache-2.0
"""Cutting plans against known answers, and against sums that fit and are no plan."""

import random

import pytest

from linewright.order import cutting, patterns
from linewright.order.cutting import Bar, cut, most, tidy
from linewright.order.needs import Piece
from tests.brute_order import _place

#: Pieces of the -6 hose of a car whose fuel goes through a surge pot [mm] (case B1).
B1 = (3667, 3455, 661, 555, 396, 396)


def pieces(lengths: list[int] | tuple[int, ...]) -> list[Piece]:
    """Pieces of these lengths, in order."""
    return [Piece(f"P{i:03}", length) for i, length in enumerate(lengths)]


def keeps(plan: cutting.Cutting, some: list[Piece], bars: list[Bar], kerf: int) -> bool:
    """Whether every piece is cut once and nothing is cut from more than there is."""
    cuts = sorted(i for on_it in plan for i in on_it)
    fits = all(
        sum(some[i].length + kerf for i in on_it) <= bar.length + kerf
        for on_it, bar in zip(plan, bars, strict=True)
    )
    return fits and cuts == list(range(len(some)))


def fewest(lengths: list[int], bar: int) -> int:
    """Least number of equal bars: each number is tried, and the last refusal is a proof."""
    some = pieces(lengths)
    for number in range(1, len(lengths) + 1):
        bars = [Bar(bar)] * number
        plan = cut(some, bars, 0)
        if plan is not None:
            assert keeps(plan, some, bars, 0)
            return number
    raise AssertionError("every piece has a bar of its own at last")


def test_a_sum_that_fits_is_no_plan() -> None:
    coil = 3048  # 10 ft [mm]

    assert 3 * coil == 9144 >= sum(B1) == 9130
    assert cut(pieces(B1), [Bar(coil)] * 3, 0) is None
    assert cut(pieces(B1), [Bar(coil)] * 30, 0) is None


def test_two_coils_of_twenty_feet_yield_what_case_b1_says() -> None:
    bars = [Bar(6096)] * 2

    plan = cut(pieces(B1), bars, 3)

    assert plan is not None
    loads = sorted(sum(B1[i] for i in on_it) for on_it in plan)
    assert sum(loads) == 9130
    assert loads[1] <= 6096
    assert cut(pieces(B1), bars[:1], 3) is None


def test_coils_of_fifteen_feet_take_three() -> None:
    assert cut(pieces(B1), [Bar(4572)] * 2, 3) is None
    assert cut(pieces(B1), [Bar(4572)] * 3, 3) is not None


def test_kerf_decides_between_one_bar_and_two() -> None:
    some = pieces([500, 500])

    assert cut(some, [Bar(1000)], 0) == ((0, 1),)
    assert cut(some, [Bar(1000)], 1) is None
    assert cut(some, [Bar(1001)], 1) == ((0, 1),)


def test_seventy_three_rolls_are_the_known_least_of_a_paper_mill_of_219_pieces() -> None:
    """The worked example of the article "Cutting stock problem" in Wikipedia [read].

    Rolls of 5600 mm; 407,160 mm are asked for, so 72.7 rolls at least, and 73 are known to do.
    """
    widths = {
        1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20,
        2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
    }  # fmt: skip
    lengths = [width for width, count in widths.items() for _ in range(count)]
    some, bars = pieces(lengths), [Bar(5600)] * 73

    plan = cut(some, bars, 0)

    assert sum(lengths) == 407_160
    assert plan is not None
    assert keeps(plan, some, bars, 0)
    assert cut(some, bars[:72], 0) is None


def test_forty_seven_rolls_are_the_known_least_of_the_textbook_s_paper_mill() -> None:
    """Fourer, Gay, Kernighan, AMPL, chapter 15: rolls of 110, least 47 [from memory].

    Even shares of rolls come to 46.25, so that 46 are too few; the plan shows that 47 do.
    """
    orders = {20: 48, 45: 35, 50: 24, 55: 10, 75: 8}
    lengths = [width for width, count in orders.items() for _ in range(count)]

    assert cut(pieces(lengths), [Bar(110)] * 46, 0) is None
    assert cut(pieces(lengths), [Bar(110)] * 47, 0) is not None


def test_four_bins_are_the_known_least_of_a_solver_manual_s_example() -> None:
    """The bin-packing page of the OR-Tools manual: bins of 100, least 4 [from memory].

    The weights come to 370, so that three bins are too few.
    """
    weights = [48, 30, 19, 36, 36, 27, 42, 42, 36, 24, 30]

    assert sum(weights) == 370
    assert fewest(weights, 100) == 4


def test_ten_bins_are_the_least_where_first_fit_takes_seventeen() -> None:
    """Johnson, Demers, Ullman, Garey, Graham 1974: bins of 101, least 10 [from memory].

    The sizes come to 1010, so that nothing may be wasted.
    """
    sizes = {6: 7, 10: 7, 16: 3, 34: 10, 51: 10}
    lengths = [size for size, count in sizes.items() for _ in range(count)]

    assert sum(lengths) == 10 * 101
    assert fewest(lengths, 101) == 10


@pytest.mark.parametrize("seed", range(3))
def test_sixty_pieces_that_fill_twenty_bars_to_the_last_millimetre_are_placed(seed: int) -> None:
    """Threes that make up a whole bar, as the hard class of Falkenauer (1996) is drawn."""
    rng = random.Random(seed)
    lengths = []
    for _ in range(20):
        first = rng.randint(380, 490)
        second = rng.randint(250, (1000 - first) // 2)
        lengths += [first, second, 1000 - first - second]
    some, bars = pieces(lengths), [Bar(1000)] * 20

    plan = cut(some, bars, 0)

    assert plan is not None
    assert keeps(plan, some, bars, 0)
    assert cut(some, bars[:19], 0) is None


def test_cutting_equals_trying_all_on_three_hundred_small_lists() -> None:
    rng = random.Random(5)
    possible = 0
    for _ in range(300):
        lengths = [rng.randint(5, 40) for _ in range(rng.randint(1, 7))]
        bars = [Bar(rng.choice((30, 45, 60))) for _ in range(rng.randint(1, 4))]
        kerf = rng.choice((0, 1, 2))
        plan = cut(pieces(lengths), bars, kerf)
        whole = _place(
            sorted((float(x) for x in lengths), reverse=True),
            [float(bar.length + kerf) for bar in bars],
            float(kerf),
        )

        assert (plan is not None) == whole
        assert plan is None or keeps(plan, pieces(lengths), bars, kerf)

        possible += whole
    assert 60 < possible < 240


@pytest.mark.parametrize("seed", range(40))
def test_the_last_resort_agrees_with_patterns(seed: int) -> None:
    rng = random.Random(seed)
    lengths = [rng.randint(5, 40) for _ in range(rng.randint(4, 9))]
    bars = [Bar(rng.choice((40, 55)))] * rng.randint(2, 5)
    some = pieces(lengths)

    try:
        searched = cutting._search(some, bars, 1, 5.0)
    except cutting.UnprovedError:
        pytest.fail("so short a list has to be settled")
    by_patterns = cutting._by_patterns(some, bars, 1)

    if by_patterns != ():
        assert (searched is None) == (by_patterns is None)
    if searched is not None:
        assert keeps(searched, some, bars, 1)


def test_a_piece_is_not_cut_from_what_comes_after_it_is_due() -> None:
    soon, late = Bar(100, 3), Bar(100, 9)

    assert cut([Piece("a", 90, due=5)], [late], 0) is None
    assert cut([Piece("a", 90, due=5), Piece("b", 90)], [soon, late], 0) == ((0,), (1,))


def test_tidying_opens_less_and_keeps_rests_useful() -> None:
    some = pieces([400, 300])
    bars = [Bar(1000), Bar(750)]
    start = ((0,), (1,))

    assert tidy(some, bars, 0, 200, start) == ((), (0, 1))


def test_where_not_all_can_be_cut_the_most_length_is() -> None:
    assert most(pieces([700, 600, 390]), [Bar(1000)], 0) == (1, 2)


def test_the_best_pattern_is_the_best_of_all() -> None:
    kinds = patterns.Kinds((3, 5, 7), (4, 2, 1), (16,), (1,), ((True,), (True,), (True,)))
    prices = (2.0, 3.5, 5.1)
    every = [
        2.0 * a + 3.5 * b + 5.1 * c
        for a in range(5)
        for b in range(3)
        for c in range(2)
        if 3 * a + 5 * b + 7 * c <= 16
    ]

    worth, counts = patterns.best_pattern(kinds, 0, prices)

    assert worth == pytest.approx(max(every))
    assert sum(p * n for p, n in zip(prices, counts, strict=True)) == pytest.approx(worth)
