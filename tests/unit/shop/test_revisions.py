# SPDX-License-Identifier: Apache-2.0
"""Revisions are added and never overwritten; undo and redo step along them."""

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from itertools import count

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.errors import ShopError
from linewright.shop.revisions import LONGEST, Cars, ConflictError
from linewright.shop.store import Shop, open_shop

_START = datetime(2031, 5, 4, 10, tzinfo=UTC)


def _cars(shop: Shop) -> Cars:
    ticks = count()
    return Cars(shop, lambda: _START + timedelta(minutes=next(ticks)))


def test_every_save_is_a_revision_with_who_when_and_why(shop: Shop) -> None:
    cars = _cars(shop)
    cars.add("Wren", "a", "Ann")
    cars.save("wren", "b", "Bob", "longer hose", base=1)
    found = [(r.car, r.number, r.text, r.saved_at, r.who, r.why) for r in cars.history("WREN")]

    assert found == [
        ("Wren", 1, "a", _START, "Ann", "added"),
        ("Wren", 2, "b", _START + timedelta(minutes=1), "Bob", "longer hose"),
    ]


def test_a_text_comes_back_to_the_letter(shop: Shop) -> None:
    text = "# Ö ″ 🛠\r\n\tname = 'x'  \n\n"
    _cars(shop).add("Wren", text, "Ann")

    assert _cars(shop).revision("Wren").text == text


def test_what_has_not_changed_makes_no_revision(shop: Shop) -> None:
    cars = _cars(shop)
    cars.add("Wren", "a", "Ann")

    assert cars.save("Wren", "a", "Ann", "again", base=1).number == 1
    assert len(cars.history("Wren")) == 1


def test_who_saves_second_is_told_who_came_first_and_overwrites_nothing(shop: Shop) -> None:
    cars = _cars(shop)
    cars.add("Wren", "a", "Ann")
    cars.save("Wren", "b", "Bob", "longer hose", base=1)

    with pytest.raises(ConflictError) as conflict:
        cars.save("Wren", "c", "Ann", "other hose", base=1)
    assert str(conflict.value) == (
        '"Wren" has moved on: Bob saved revision 2 (longer hose), while this was made from '
        "revision 1. Nothing is overwritten: compare the two, then save on top of the newer one."
    )
    assert conflict.value.head.text == "b"
    assert [r.text for r in cars.history("Wren")] == ["a", "b"]


def test_of_many_who_save_at_once_one_wins_and_all_others_are_told(shop: Shop) -> None:
    cars = Cars(shop)
    cars.add("Wren", "a", "Ann")

    def save(number: int) -> str:
        try:
            return f"saved {cars.save('Wren', f'text {number}', 'Ann', 'x', base=1).number}"
        except ConflictError as conflict:
            return f"conflict with {conflict.head.number}"

    with ThreadPoolExecutor(8) as pool:
        found = sorted(pool.map(save, range(8)))

    assert found == ["conflict with 2"] * 7 + ["saved 2"]


def test_writers_of_two_cars_do_not_hinder_each_other(shop: Shop) -> None:
    cars = Cars(shop)
    cars.add("Wren", "0", "Ann")
    cars.add("Finch", "0", "Ann")

    def save_all(name: str) -> int:
        for number in range(1, 21):
            cars.save(name, str(number), "Ann", "x", base=number)
        return cars.revision(name).number

    with ThreadPoolExecutor(2) as pool:
        found = list(pool.map(save_all, ("Wren", "Finch")))

    assert found == [21, 21]


def test_an_undo_brings_back_what_stood_there_and_a_redo_what_was_undone(shop: Shop) -> None:
    cars = _cars(shop)
    cars.add("Wren", "a", "Ann")
    cars.save("Wren", "b", "Ann", "x", base=1)
    cars.save("Wren", "c", "Ann", "x", base=2)
    undone = [cars.undo("Wren", "Ann", base=n).text for n in (3, 4)]
    again = [cars.redo("Wren", "Ann", base=n) for n in (5, 6)]

    assert undone == ["b", "a"]
    assert [(r.text, r.why, r.restores) for r in again] == [
        ("b", "revision 2 done again", 2),
        ("c", "revision 3 done again", 3),
    ]


def test_at_the_first_revision_nothing_is_left_to_undo(shop: Shop) -> None:
    cars = _cars(shop)
    cars.add("Wren", "a", "Ann")

    with pytest.raises(ShopError) as refused:
        cars.undo("Wren", "Ann", base=1)
    assert str(refused.value) == '"Wren" stands at its first revision: nothing to undo.'
    with pytest.raises(ShopError) as refused:
        cars.redo("Wren", "Ann", base=1)
    assert str(refused.value) == 'Nothing was undone in "Wren" since its last change.'


def test_any_revision_can_be_restored_and_that_undone(shop: Shop) -> None:
    cars = _cars(shop)
    cars.add("Wren", "a", "Ann")
    cars.save("Wren", "b", "Ann", "x", base=1)
    cars.save("Wren", "c", "Ann", "x", base=2)
    restored = cars.restore("Wren", 1, "Bob", "the old way round", base=3)
    undone = cars.undo("Wren", "Bob", base=4)

    assert (restored.number, restored.text, restored.restores) == (4, "a", 1)
    assert undone.text == "c"
    with pytest.raises(ShopError) as refused:
        cars.restore("Wren", 9, "Bob", "", base=5)
    assert str(refused.value) == '"Wren" has no revision 9: they go from 1 to 5.'


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from(["save", "undo", "redo"]), max_size=14))
def test_undo_and_redo_do_what_a_pair_of_stacks_does(steps: list[str]) -> None:
    texts, before, after = count(1), list[str](), list[str]()
    shown = "0"
    with open_shop(":memory:") as shop:
        cars = Cars(shop)
        head = cars.add("Wren", "0", "Ann")
        for step in steps:
            if step == "save":
                before.append(shown)
                after.clear()
                shown = str(next(texts))
                head = cars.save("Wren", shown, "Ann", "x", base=head.number)
            elif step == "undo" and before:
                after.append(shown)
                shown = before.pop()
                head = cars.undo("Wren", "Ann", base=head.number)
            elif step == "redo" and after:
                before.append(shown)
                shown = after.pop()
                head = cars.redo("Wren", "Ann", base=head.number)

            assert head.text == shown


def test_a_name_is_taken_whatever_its_case(shop: Shop) -> None:
    cars = _cars(shop)
    cars.add("Straße 7", "a", "Ann")

    with pytest.raises(ShopError) as refused:
        cars.add("STRASSE  7", "b", "Bob")
    assert str(refused.value) == (
        f'There is a car "STRASSE 7" in {shop.name}. '
        "Save a new revision of it, or choose another name."
    )


def test_a_car_that_is_not_there_is_told_with_those_that_are(shop: Shop) -> None:
    cars = _cars(shop)
    cars.add("car 10", "a", "Ann")
    cars.add("car 9", "a", "Ann")

    with pytest.raises(ShopError) as refused:
        cars.revision("Wren")
    assert str(refused.value) == (
        f'There is no car "Wren" in {shop.name}. Cars there: car 9, car 10.'
    )


@pytest.mark.parametrize(
    ("name", "text", "who", "message"),
    [
        ("  ", "a", "Ann", "A car needs a name."),
        ("x" * 201, "a", "Ann", "A car's name has 201 letters, at most 200 are kept. Shorten it."),
        ("a\x07b", "a", "Ann", "A car's name holds a character that cannot be printed: 'a\\x07b'."),
        ("Wren", "a\0", "Ann", "The document holds a null character: it is not a text."),
        ("Wren", "a", " ", "Say who saves it."),
        (
            "Wren",
            "a" * (LONGEST + 1),
            "Ann",
            "The document has 5,000,001 characters, at most 5,000,000 are kept. Is it a car's?",
        ),
    ],
)
def test_what_cannot_be_kept_is_refused(name: str, text: str, who: str, message: str) -> None:
    with open_shop(":memory:") as shop, pytest.raises(ShopError) as refused:
        Cars(shop).add(name, text, who)

    assert str(refused.value) == message


def test_names_that_look_like_commands_are_only_names(shop: Shop) -> None:
    name = "'; drop table car; --"
    cars = _cars(shop)
    cars.add(name, "a", "Ann")

    assert cars.names() == (name,)


def test_a_damaged_text_is_not_handed_out(tmp_path_factory: pytest.TempPathFactory) -> None:
    from sqlalchemy import text as sql

    with open_shop(tmp_path_factory.mktemp("s") / "s.sqlite") as shop:
        Cars(shop).add("Wren", "a", "Ann")
        with shop.writing() as connection:
            connection.execute(sql("drop trigger revision_update"))
            connection.execute(sql("update revision set text = 'b'"))

        with pytest.raises(ShopError) as refused:
            Cars(shop).revision("Wren")
    assert str(refused.value) == (
        'Revision 1 of "Wren" is damaged: its text does not match its digest. '
        "Fetch the shop from its backup."
    )
