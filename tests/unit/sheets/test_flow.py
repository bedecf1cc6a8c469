# SPDX-License-Identifier: Apache-2.0
"""Tables, sentences and pages of flow say what the results hold, in the builder's units."""

from dataclasses import replace

import pytest

from linewright.faces.files.lists import csv_text
from linewright.faces.files.pdf import tables_pdf
from linewright.flow.model import Band, Flows, Margin, SystemState, Verdict
from linewright.sheets import flow_says
from linewright.sheets.book import flow_leaves
from linewright.sheets.flow import (
    assumed_table,
    conditions,
    gauge_table,
    line_table,
    margin_table,
    size_table,
)
from linewright.sheets.flow_lists import flow_lists, loss_list
from linewright.sheets.flow_page import SystemPage, pages, system_page
from linewright.sheets.table import Table
from tests.flows import flows, juniper


def _state() -> SystemState:
    state = flows().state("oil", "full-power")
    assert state is not None
    return state


def _margin(what: str) -> Margin:
    return next(m for m in _state().margins if m.what == what)


def test_a_margin_that_is_missed_names_what_limits_and_what_one_size_up_gives() -> None:
    assert flow_says.margin_words(juniper(), _state(), _margin("pump inlet")) == (
        "pump inlet (oil-pump.inlet) 0.62 bar absolute (0.50 to 0.74) at full power; below 0.85 it "
        "is likely to draw air; the -16 suction hose O01 takes most of it (63 %); -20 gives 0.90"
    )


def test_a_limit_within_the_band_is_neither_met_nor_missed() -> None:
    assert flow_says.margin_words(juniper(), _state(), _margin("oil temperature")) == (
        "oil temperature (oil-tank) 112 °C (103 to 123) at full power; the most is 120; the limit "
        "lies within the band: measure the heat that the oil cooler takes"
    )


def test_a_margin_that_is_met_is_told_short() -> None:
    assert flow_says.margin_words(juniper(), _state(), _margin("gallery pressure")) == (
        "gallery pressure (ENG.oil-feed) 3.8 bar (3.4 to 4.3) at full power; at least 3.19 bar "
        "is met"
    )


def test_a_boiling_margin_is_a_difference_of_temperature() -> None:
    margin = replace(_margin("oil temperature"), what="boiling margin", value=Band(12, 8, 16))

    words = flow_says.margin_words(replace(juniper(), show="inch"), _state(), margin)
    assert words.startswith("boiling margin (oil-tank) 22 °F (14 to 29) at full power;")


def test_margins_that_are_met_are_named_in_one_line() -> None:
    met = replace(_margin("gallery pressure"), what="turbo feed pressure")
    state = replace(_state(), margins=(*_state().margins, met, met))

    assert flow_says.met_words(state) == "gallery pressure, turbo feed pressure (2 times)"


def test_velocities_are_guides_that_decide_nothing() -> None:
    speed = Margin(
        "velocity",
        "O01",
        Band(2.3, 1.6, 3.1),
        replace(_margin("pump inlet").limit, value=1.2, unit="m/s"),
        "m/s",
        False,
        Verdict.NOT_MET,
    )
    fast = replace(_state(), margins=(speed, replace(speed, verdict=Verdict.MET)))
    found = Flows(states=(fast,))

    assert flow_says.fast_words(juniper(), fast) == (
        "faster than usual at full power: O01 2.3 m/s (usual up to 1.2); what decides is the "
        "pressure that it costs"
    )
    assert flow_says.ordered(fast) == ()
    assert margin_table(juniper(), found, "oil").rows == ()
    assert flow_says.verdict_words(found, "oil").startswith("No limit")


def test_a_line_that_stands_still_has_no_figures() -> None:
    still = replace(_state().lines["O01"], flow=Band(0.0, 0.0, 0.0))
    found = Flows(states=(replace(_state(), lines={"O01": still}),))

    assert line_table(juniper(), found, "oil").rows[0][2:] == ("no flow", "–", "–", "–", "–")


def test_an_element_without_half_of_the_loss_takes_the_largest_share() -> None:
    limiting = _state().limiting
    assert limiting is not None
    part = replace(limiting, where="oil-cooler", share=0.38, next_size="", next_value=None)
    state = replace(_state(), limiting=part)

    assert "; oil-cooler (industrial oil cooler) takes the largest share (38 %)" in (
        flow_says.margin_words(juniper(), state, _margin("pump inlet"))
    )


def test_a_car_in_inches_is_told_in_psi() -> None:
    inch = replace(juniper(), show="inch")

    assert flow_says.margin_words(inch, _state(), _margin("pump inlet")).startswith(
        "pump inlet (oil-pump.inlet) 9.0 psi absolute (7.3 to 10.7) at full power; below 12.3 it"
    )


def test_a_line_between_laminar_and_turbulent_has_a_band_and_no_figure() -> None:
    table = line_table(juniper(), flows(), "oil", "full-power")
    rows = {row[0]: row for row in table.rows}

    assert rows["O02"][4] == "0.14 bar (0.11 to 0.17)"
    assert rows["O03"][4] == "0.12 to 0.20 bar"


def test_a_pressure_below_the_airs_is_absolute() -> None:
    rows = {row[0]: row for row in line_table(juniper(), flows(), "oil", "full-power").rows}

    assert (rows["O01"][5], rows["O02"][5]) == ("0.62 bar abs", "6.0 bar")


def test_a_flow_from_b_to_a_says_so() -> None:
    line = _state().lines["O01"]
    back = replace(line, flow=Band(-line.flow.value, -line.flow.high, -line.flow.low))
    found = Flows(states=(replace(_state(), lines={"O01": back}),))

    assert line_table(juniper(), found, "oil").rows[0][2] == "82 L/min (70 to 95), B to A"


def test_a_flow_without_a_density_is_shown_as_mass() -> None:
    found = Flows(
        states=(replace(_state(), lines={"O01": replace(_state().lines["O01"], density=None)}),)
    )

    assert line_table(juniper(), found, "oil").rows[0][2] == "67 kg/min (57 to 77)"


def test_margins_come_worst_first_with_shape_and_word() -> None:
    verdicts = [row[0] for row in margin_table(juniper(), flows(), "oil").rows]

    assert verdicts == ["■ not met", "▲ not known well enough", "● met", "● met"]


def test_conditions_come_as_a_first_start_meets_them() -> None:
    assert conditions(flows()) == ("prime", "hot-idle", "full-power")
    assert conditions(flows(), "oil") == ("hot-idle", "full-power")


def test_the_chosen_size_is_marked_and_an_impossible_one_has_no_drop() -> None:
    rows = size_table(juniper(), flows(), "oil").rows

    assert [row[0].strip() for row in rows] == ["-12", "● -16", "-20"]
    assert rows[0][2] == "–"
    assert size_table(juniper(), flows(), "fuel").rows == ()


def test_what_is_assumed_stands_with_what_to_give_in_the_systems_that_it_touches() -> None:
    oil = assumed_table(juniper(), flows(), "oil").rows
    fuel = assumed_table(juniper(), flows(), "fuel").rows

    assert oil[0] == (
        "ENG",
        "oil demand at full power",
        "82.5 L/min (49.8 to 132) [P]",
        "displacement and ratio of the oil pump",
    )
    assert [row[0] for row in oil] == ["ENG", "oil-filter", "oil-cooler"]
    assert [row[0] for row in fuel] == []


def test_the_gauge_sheet_has_room_for_each_reading() -> None:
    table = gauge_table(juniper(), flows())

    assert table.is_written_on
    assert [words for _, words in table.groups] == ["Prime", "Hot idle", "Full power"]
    assert table.rows[2] == (
        "oil-pressure",
        "ENG.oil-pressure",
        "pressure",
        "1.4 bar",
        "1.1 to 1.7 bar",
        "",
    )
    assert "verify with gauges on the first start, and follow the makers' limits" in table.note


def _after_run() -> Flows:
    idle = flows().state("oil", "hot-idle")
    assert idle is not None
    return replace(flows(), states=(replace(idle, stands=Band(383.15, 378.15, 393.15)),))


def test_the_gauge_sheet_says_where_fluids_stand_after_a_hard_run() -> None:
    groups = [words for _, words in gauge_table(juniper(), _after_run()).groups]

    assert groups[1] == "Hot idle after a hard run, oil at 110 °C (105 to 120)"


def test_a_margin_says_where_the_oil_stands_and_why_it_is_doubted() -> None:
    state = _after_run().states[0]
    margin = replace(state.margins[0], verdict=Verdict.UNSURE, doubt="flow in oil is not known")
    words = flow_says.margin_words(juniper(), state, margin)

    assert " at hot idle after a hard run, oil at 110 °C (105 to 120); " in words
    assert words.endswith("; flow in oil is not known")


def test_losses_come_largest_share_first() -> None:
    shares = [float(row[-1].removesuffix(" %")) for row in loss_list(juniper(), flows()).rows[:12]]

    assert shares == sorted(shares, reverse=True)


def test_every_list_has_a_name_of_its_own_and_is_a_file() -> None:
    tables = flow_lists(juniper(), flows())
    names = [table.name for table in tables]

    assert len(set(names)) == len(names)
    for table in tables:
        assert all(len(row) == len(table.columns) for row in table.rows)
        assert csv_text(table).count("\n") == len(table.rows) + 1


def test_files_without_groups_have_them_as_a_column() -> None:
    tables = {table.name: table for table in flow_lists(juniper(), flows())}

    assert {row[0] for row in tables["flow-lines-oil"].rows} == {"Hot idle", "Full power"}
    assert {row[0] for row in tables["gauges"].rows} == {"Prime", "Hot idle", "Full power"}
    assert tables["flow-sizes"].rows[0][0] == "O01, rubber braided, full power"


def test_a_page_says_first_what_is_wrong_and_carries_the_caution() -> None:
    page = system_page(juniper(), flows(), "oil")

    assert page.title == "Flow of the oil system, 15W-50"
    assert page.verdict == "Of 4 margins: 1 not met, 1 not known well enough, 2 met."
    assert [shape for shape, _ in page.sentences] == ["■", "▲"]
    assert page.sentences[0][1].startswith("Pump inlet (oil-pump.inlet) 0.62 bar absolute")
    assert page.caution == flow_says.CAUTION
    assert [t.title for t in page.tables] == [
        "Flow of oil",
        "Margins of oil",
        "Sizes of oil",
    ]


def test_a_page_in_brief_leaves_out_the_margins_that_are_met() -> None:
    tables = {
        is_brief: {
            t.name: t for t in system_page(juniper(), flows(), "oil", is_brief=is_brief).tables
        }
        for is_brief in (True, False)
    }
    shown = {k: [row[0][2:] for row in t["flow-margins-oil"].rows] for k, t in tables.items()}

    assert shown[False].count("met") == 2
    assert [verdict for verdict in shown[False] if verdict != "met"] == shown[True]


def test_a_second_steady_state_is_told() -> None:
    two = replace(flows(), states=(replace(_state(), also=_state()),))

    assert any(
        "second steady state" in words for _, words in system_page(juniper(), two, "oil").sentences
    )


def test_without_results_there_are_no_pages() -> None:
    assert pages(juniper(), Flows()) == ()
    assert flow_says.verdict_words(Flows(), "oil") == "No limit is held against anything here."
    for table in flow_lists(juniper(), Flows()):
        assert table.rows == ()
        assert table.empty


def test_the_pages_of_flow_are_one_a_system_the_gauge_sheet_and_what_is_assumed() -> None:
    page, *tables = flow_leaves(juniper(), flows(), ())

    assert isinstance(page, SystemPage)
    assert [leaf.name for leaf in tables if isinstance(leaf, Table)] == ["gauges", "flow-assumed"]


def test_the_pages_are_set() -> None:
    pdf = tables_pdf("Juniper", "0123", pages(juniper(), flows()))

    assert pdf.startswith(b"%PDF")
    assert pdf == tables_pdf("Juniper", "0123", pages(juniper(), flows()))


@pytest.mark.parametrize("verdict", list(Verdict))
def test_every_verdict_has_a_shape_and_a_place(verdict: Verdict) -> None:
    assert flow_says.SHAPES[verdict] in "■▲●"
    assert verdict in flow_says.ORDER


def test_a_line_that_is_all_hose_ends_has_no_hose_to_weigh() -> None:
    made = flows()
    bare = replace(made, sizes=tuple(replace(row, volume=0.0, mass=0.0) for row in made.sizes))
    table = size_table(juniper(), bare)
    heads = [column.head for column in table.columns]

    assert table.rows
    for row in table.rows:
        assert row[heads.index("Volume")] == row[heads.index("Mass, wet")] == "–"
