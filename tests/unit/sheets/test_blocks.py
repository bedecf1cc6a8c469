# SPDX-License-Identifier: Apache-2.0
"""Findings of one kind stand together; none is lost, and few components cure many of them."""

from dataclasses import replace

from linewright.base.finding import Finding, Severity
from linewright.car.model import Car, Construction, Line, Medium
from linewright.sheets.blocks import blocks, listed


def line(name: str, a: str, b: str, *passes: str) -> Line:
    made = Line(name, a, b, "oil", Medium.OIL, "-10", "rubber braided", Construction.HOSE)
    return replace(made, passes=passes)


LINES = (
    line("O01", "tank.feed", "pump.in"),
    line("O02", "pump.out", "filter.in"),
    line("O03", "tank.vent", "can.in", "firewall"),
    line("O04", "x.a", "y.a"),
)
CAR = Car("x", lines={each.id: each for each in LINES})
BOTH = "Fix and measure both ports to 2 mm and 1° (then 96%). Else give it more length or room."
VAIN = "Fix and measure both ports to 2 mm and 1°, though it is no more than 40% then. Else give."
ONE = "Mock up and measure the place of firewall.O03 to 5 mm (then 96%); or order both (then 100%)."


def unsure(hose: str, remedy: str, severity: Severity = Severity.ASK) -> Finding:
    return Finding("unsure-ends", severity, (hose,), f"{hose}: unsure.", remedy, "40%", "90%")


def clip(hose: str, value: str) -> Finding:
    reason, remedy = f"{hose} is unheld for {value}.", "Clip it."
    return Finding("clip-spacing", Severity.WARN, (hose,), reason, remedy, value, "450 mm")


def test_one_kind_with_one_way_out_is_one_block_with_a_row_for_each() -> None:
    found = (clip("O01", "955 mm"), unsure("O04", VAIN), clip("O02", "700 mm"))
    first, second = blocks(CAR, found)

    assert first.findings == (found[0], found[2])
    assert first.reason == "O01 is unheld for 955 mm."
    assert listed(first) == "O01 955 mm; O02 700 mm (limit 450 mm)"
    assert (second.reason, second.remedy) == ("O04: unsure.", VAIN)


def test_what_has_another_way_out_or_weight_stands_apart() -> None:
    other = replace(clip("O02", "700 mm"), remedy="Bend it.")
    lighter = replace(clip("O03", "500 mm"), severity=Severity.NOTE)

    assert len(blocks(CAR, (clip("O01", "955 mm"), other, lighter))) == 3


def test_unsure_ends_name_the_few_components_that_cure_most() -> None:
    found = [unsure("O01", BOTH), unsure("O02", BOTH), unsure("O03a", ONE), unsure("O04", VAIN)]
    (block,) = blocks(CAR, found)

    assert [each.about for each in block.findings] == [("O01",), ("O02",), ("O03a",), ("O04",)]
    assert block.reason == (
        "The hose ends of these 4 lines may not fit where their ports really are: the share is "
        "that of draws of the ports' places and directions, as well as they are known, in which "
        "they work."
    )
    assert block.remedy == (
        "Mock up and measure the places and directions of firewall, pump, filter and tank: that "
        "makes 3 of 4 sure. No measuring makes O04 sure: more length or room does, or their ends "
        "are ordered last, when both parts are where they stay. `linewright route` tells the cure "
        "of each."
    )


def test_a_piece_ends_at_the_panels_before_and_behind_it() -> None:
    (block,) = blocks(CAR, [unsure("O03a", BOTH), unsure("O03b", BOTH)])

    assert "of firewall, can and tank: that makes 2 of 2 sure." in block.remedy


def test_where_no_measuring_cures_room_is_asked_for() -> None:
    (block,) = blocks(CAR, [unsure("O01", VAIN), unsure("O02", VAIN)])

    assert block.remedy.startswith("No measuring makes O01, O02 sure: more length or room does")


def test_lines_beyond_the_few_components_are_named_to_be_measured_next() -> None:
    pairs = [line(f"O{n}", f"a{n}.x", f"b{n}.x") for n in range(10, 15)]
    car = replace(CAR, lines={each.id: each for each in pairs})
    (block,) = blocks(car, [unsure(each.id, BOTH) for each in pairs])

    assert "of a10, b10, a11, b11, a12 and b12: that makes 3 of 5 sure. Then" in block.remedy
    assert "Then those at both ends of O13, O14." in block.remedy


def test_values_that_are_the_same_are_told_once_and_words_not_at_all() -> None:
    (same,) = blocks(CAR, (clip("O01", "0 mm"), clip("O02", "0 mm")))
    (words,) = blocks(CAR, (clip("O01", "none"), clip("O02", "none")))

    assert listed(same) == "O01; O02 (0 mm, limit 450 mm)"
    assert listed(words) == "O01; O02"


def test_questions_that_kinds_bring_are_one_list_with_each_its_way_out() -> None:
    def asks(what: str, asked: str, way: str) -> Finding:
        reason = f"Not answered for tank (fuel cell): {asked}."
        answer = f'Or answer it under [closed]: "{what}" = "none, because ...".'
        return Finding("missing-function", Severity.ASK, (what,), reason, f"{way} {answer}")

    found = (
        asks("tank.drain", "a drain", "Name the drain and plug it."),
        asks("tank.fill", "its filler", "Name the filler and cap it."),
    )
    (block,) = blocks(CAR, found)
    (alone,) = blocks(CAR, found[:1])

    assert block.rows == (
        ("tank.drain", "a drain. Name the drain and plug it."),
        ("tank.fill", "its filler. Name the filler and cap it."),
    )
    assert block.remedy == (
        'Connect or answer each, under [closed] as in "tank.drain" = "none, because ...".'
    )
    assert alone.remedy == found[0].remedy
