# SPDX-License-Identifier: Apache-2.0
"""The grid router: fixed ports, nothing through a box, few corners and crossings."""

from itertools import pairwise, product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from linewright.scene.router import (
    BEND,
    CROSSING,
    Grid,
    RoutingError,
    Terminal,
    Web,
    Wire,
    lay,
)

RIGHT, DOWN, LEFT, UP = range(4)


def _wire(
    name: str, a: tuple[int, int], sa: int, b: tuple[int, int], sb: int, net: str = ""
) -> Wire:
    return Wire(name, Terminal(a, sa), Terminal(b, sb), net or name)


def test_facing_ports_in_line_are_joined_by_one_straight_stroke() -> None:
    web = lay(Grid(30, 10), [_wire("a", (5, 5), RIGHT, (20, 5), LEFT)])

    assert web.laid().paths == {"a": ((5, 5), (20, 5))}
    assert web.cost("a") == 15.0


def test_a_port_that_looks_away_is_reached_round_corners() -> None:
    web = lay(Grid(30, 20), [_wire("a", (5, 5), RIGHT, (20, 5), RIGHT)])
    corners = web.laid().paths["a"]

    assert corners[-2][0] > 20 or corners[-1] == (20, 5)
    assert web.cost("a") >= 15.0 + 2 * BEND


def test_lines_go_round_a_box_and_not_through_it() -> None:
    grid = Grid(40, 30)
    grid.block(15, 8, 25, 20)
    web = lay(grid, [_wire("a", (5, 14), RIGHT, (35, 14), LEFT)])

    assert all(not grid.blocked[p] for p in web.paths["a"])


def test_two_lines_cross_once_where_they_must() -> None:
    wires = [_wire("a", (5, 10), RIGHT, (30, 10), LEFT), _wire("b", (15, 3), DOWN, (15, 17), UP)]
    laid = lay(Grid(36, 21), wires).laid()

    assert (laid.crossings, laid.overlaps) == (1, 0)


def test_parallel_lines_do_not_lie_on_each_other() -> None:
    wires = [
        _wire("a", (5, 5), RIGHT, (30, 15), LEFT),
        _wire("b", (5, 7), RIGHT, (30, 17), LEFT),
        _wire("c", (5, 9), RIGHT, (30, 19), LEFT),
    ]
    laid = lay(Grid(40, 30), wires).laid()

    assert (laid.crossings, laid.overlaps) == (0, 0)


@pytest.mark.parametrize(("nets", "overlap"), [(("n", "n"), False), (("", ""), True)])
def test_only_wires_of_one_net_share_a_narrow_way_unreproved(
    nets: tuple[str, str], overlap: bool
) -> None:
    grid = Grid(40, 20)
    grid.block(15, 0, 20, 7)
    grid.block(15, 9, 20, 19)  # one row is left between the two
    wires = [
        _wire("a", (5, 5), RIGHT, (30, 5), LEFT, nets[0]),
        _wire("b", (5, 12), RIGHT, (30, 12), LEFT, nets[1]),
    ]
    laid = lay(grid, wires).laid()

    assert (laid.overlaps > 0) is overlap


def test_a_walled_in_port_is_an_error_that_names_the_line() -> None:
    grid = Grid(30, 20)
    grid.block(8, 3, 12, 3)
    grid.block(8, 7, 12, 7)
    grid.block(8, 3, 8, 7)
    grid.block(12, 3, 12, 7)
    with pytest.raises(RoutingError) as error:
        lay(grid, [_wire("O07", (10, 5), RIGHT, (25, 15), LEFT)])

    assert str(error.value) == (
        "O07 finds no way between the boxes of the diagram; set the boxes wider apart."
    )


def test_a_search_stops_at_its_limit_and_lays_nothing() -> None:
    web = Web(Grid(40, 20))
    web.add([_wire("a", (5, 5), RIGHT, (30, 15), LEFT)])

    assert web.lay("a", 20.0) is None
    assert web.paths == {}


_POINT = st.tuples(st.integers(1, 12), st.integers(1, 9))


@settings(max_examples=60, deadline=None)
@given(
    a=_POINT, b=_POINT, sides=st.tuples(st.integers(0, 3), st.integers(0, 3)),
    walls=st.sets(st.tuples(st.integers(1, 12), st.integers(1, 9)), max_size=25),
)  # fmt: skip
def test_the_search_finds_the_cheapest_path_that_relaxation_finds(
    a: tuple[int, int], b: tuple[int, int], sides: tuple[int, int], walls: set[tuple[int, int]]
) -> None:
    assume(a != b)
    grid = Grid(14, 11)
    for x, y in walls - {a, b}:
        grid.blocked[y * 14 + x] = 1
    best = _relaxed(grid, a, b, sides)
    web = Web(grid)
    web.add([_wire("a", a, sides[0], b, sides[1])])
    try:
        found: float | None = web.lay("a")
    except RoutingError:
        found = None

    assert found == best


def _relaxed(
    grid: Grid, a: tuple[int, int], b: tuple[int, int], sides: tuple[int, int]
) -> float | None:
    """Brute force: relax all (point, heading) until nothing changes."""
    steps = ((1, 0), (0, 1), (-1, 0), (0, -1))
    far = float("inf")
    cost = dict.fromkeys(product(range(14), range(11), range(4)), far)
    cost[(*a, sides[0])] = 0.0
    changed = True
    while changed:
        changed = False
        for (x, y, d), so_far in list(cost.items()):
            if so_far == far:
                continue
            for turn in range(4):
                if turn == d ^ 2:
                    continue
                pay = so_far + (BEND if turn != d else 0.0)
                nx, ny = x + steps[turn][0], y + steps[turn][1]
                ways = [((nx, ny, turn), pay + 1.0)] if not grid.blocked[ny * 14 + nx] else []
                if (x, y) == b:  # one last turn on the spot, into the port
                    ways = [((x, y, turn), pay)] if turn == sides[1] ^ 2 else []
                for state, price in ways:
                    if price < cost[state]:
                        cost[state] = price
                        changed = True
    best = cost[(*b, sides[1] ^ 2)]
    return None if best == far else best


def test_crossing_costs_less_than_a_long_way_round() -> None:
    web = Web(Grid(60, 60))
    web.add(
        [_wire("wall", (30, 2), DOWN, (30, 57), UP), _wire("a", (25, 30), RIGHT, (35, 30), LEFT)]
    )
    web.lay("wall")
    cost = web.lay("a")

    assert cost == 10.0 + CROSSING
    assert all(abs(p - q) in (1, 60) for p, q in pairwise(web.paths["a"]))
