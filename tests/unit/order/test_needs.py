# SPDX-License-Identifier: Apache-2.0
"""What is needed by when, what is held, and what the shelf gives."""

from dataclasses import replace

from linewright.base.evidence import Figure, Grade
from linewright.catalogue.stock import generic
from linewright.order.model import Offcut, Shelf, ShelfItem
from linewright.order.needs import down, needs, split, up
from linewright.order.shelf import ShelfUse, net
from linewright.order.substitutes import may_replace, substitutes
from linewright.order.wishes import Wishes, wishes
from tests.markets import hose, part, takeoff


def test_lengths_are_rounded_against_the_builder() -> None:
    assert up(0.50001) == 5001
    assert down(0.50009) == 5000
    assert up(0.5) == down(0.5) == 5000


def test_needs_are_due_by_the_day_of_their_system() -> None:
    row = replace(part("a", 6, need=5), by_system=(("fuel", 2), ("oil", 3)))

    found = needs(takeoff([row], []), Wishes(latest=(("oil", 9), ("fuel", 4)))).parts[0]

    assert found.count == 6  # the spare has no day
    assert found.due == ((4, 2), (9, 5))


def test_a_code_in_two_groups_of_the_list_is_bought_once() -> None:
    rows = [part("a", 2), replace(part("a", 3), group="sundries", because=("O02",))]

    (found,) = needs(takeoff(rows, []), Wishes(latest=(("oil", 9),))).parts

    assert found.count == 5
    assert found.due == ((9, 5),)
    assert found.because == ("a.A", "O02")


def test_holding_a_line_keeps_back_what_it_alone_asks_for() -> None:
    row = replace(part("a", 6, need=5), because=("O01.A.1", "O02.A.1", "O02.B.1"), counts=(1, 2, 2))

    now, later = split(
        takeoff([row], [hose("hose o", [0.5, 0.7])]), Wishes(hold=frozenset({"O02"}))
    )

    assert (now.rows[0].need, now.rows[0].order) == (1, 2)
    assert (later.rows[0].need, later.rows[0].order) == (4, 4)
    assert now.hoses[0].pieces == (("O01", 0.5),)
    assert later.hoses[0].pieces == (("O02", 0.7),)


def test_holding_a_panel_s_line_holds_all_its_pieces() -> None:
    row = replace(hose("hose f", [0.5, 0.7]), pieces=(("F05a", 0.5), ("F05b", 0.7)))

    now, later = split(takeoff([], [row]), Wishes(hold=frozenset({"F05"})))

    assert now.hoses == ()
    assert len(later.hoses[0].pieces) == 2


def test_spares_go_with_what_is_held_where_all_of_it_is() -> None:
    row = part("a", 6, need=4, system="oil")

    now, later = split(takeoff([row], []), Wishes(hold=frozenset({"oil"})))

    assert now.rows == ()
    assert later.rows[0].order == 6


def test_released_and_held_add_up_to_the_whole() -> None:
    rows = [
        replace(part("a", 9, need=7), by_system=(("fuel", 3), ("oil", 4))),
        part("b", 2, system="fuel"),
        replace(part("olive", 4, need=0), by_system=(("fuel", 0),)),
    ]
    whole = takeoff(rows, [hose("hose o", [0.5, 0.7], over=1.0)])

    for held in ({"fuel"}, {"oil"}, {"O01"}, {"a"}, {"fuel", "O02"}):
        now, later = split(whole, Wishes(hold=frozenset(held)))
        parts = [row.order for side in (now, later) for row in side.rows]
        hoses = [row.order for side in (now, later) for row in side.hoses]

        assert sum(parts) == sum(row.order for row in rows), held
        assert abs(sum(hoses) - whole.hoses[0].order) < 1e-9, held


def test_the_shelf_gives_the_exact_part_before_what_may_stand_in() -> None:
    fixed, swivel = "hose-end-6-rubber-90-fixed", "hose-end-6-rubber-90-full-swivel"
    wanted = needs(takeoff([part(fixed, 3), part(swivel, 1)], []), Wishes())
    shelf = Shelf((ShelfItem("B1", swivel, 2), ShelfItem("B2", fixed, 1)))

    left, uses = net(wanted, shelf, generic())

    assert [(need.code, need.count) for need in left.parts] == [(fixed, 1)]
    assert uses == (
        ShelfUse("B2", fixed, 1, fixed),
        ShelfUse("B1", swivel, 1, swivel),
        ShelfUse("B1", swivel, 1, fixed),
    )


def test_the_shelf_gives_first_to_what_is_due_first() -> None:
    row = replace(part("a", 5), by_system=(("fuel", 2), ("oil", 3)))
    wanted = needs(takeoff([row], []), Wishes(latest=(("fuel", 4), ("oil", 9))))

    left, _ = net(wanted, Shelf((ShelfItem("B1", "a", 3),)), generic())

    assert left.parts[0].count == 2
    assert left.parts[0].due == ((9, 2),)


def test_offcuts_of_another_hose_are_left_alone() -> None:
    wanted = needs(takeoff([], [hose("hose h", [0.5])]), Wishes())
    shelf = Shelf((), (Offcut("H1", "hose h", 0.7), Offcut("H2", "hose g", 0.9)))

    left, _ = net(wanted, shelf, generic())

    assert [(rest.bin, rest.length) for rest in left.hoses[0].offcuts] == [("H1", 7000)]


def test_only_a_full_swivel_of_the_same_seat_hose_and_angle_may_replace() -> None:
    catalogue = generic()
    offered = frozenset(part.code for part in catalogue.parts)
    ends = [p for p in catalogue.parts if p.shape == "hose end"]
    pairs = [(p.code, other) for p in ends for other in substitutes(catalogue, p.code, offered)]

    assert len(pairs) > 100
    for asked, other in pairs:
        one, two = catalogue.part(asked), catalogue.part(other)

        assert other == asked.replace("-fixed", "-full-swivel")
        assert (one.ends, one.angle, one.comes_with) == (two.ends, two.angle, two.comes_with)
        assert may_replace(two, one) == ""  # never the other way round


def test_adaptors_are_never_replaced() -> None:
    catalogue = generic()
    offered = frozenset(part.code for part in catalogue.parts)

    assert substitutes(catalogue, "adaptor-orb-8-m-to-flare-8-m", offered) == ()
    assert substitutes(catalogue, "O-ring AS568-908, FKM", offered) == ()


def test_settings_of_the_document_replace_the_defaults() -> None:
    typed = wishes({"order-kerf": Figure(0.001, "m", Grade.STATED, "typed")})

    assert typed.kerf == 0.001
    assert typed.useful == wishes().useful == 0.3
    assert wishes() == Wishes()
