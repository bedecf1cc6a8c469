# SPDX-License-Identifier: Apache-2.0
"""The shop book has a chapter a system, and what is left out of it stands in the one behind it."""

from dataclasses import replace

from linewright.flow.model import Series
from linewright.flow.run import run
from linewright.plan.model import Plan
from linewright.sheets.book import BENCH, BUYING, FIRST, REST, WHOLE, book, booked, system_title
from linewright.sheets.grounds import grounds
from linewright.sheets.leaves import Hoses, Notes, Picture
from linewright.sheets.notes import finding_notes, risk_notes
from linewright.sheets.table import Table
from tests.expected import ROOT, planned
from tests.flowing import laid
from tests.flows import flows, juniper


def _plan(name: str) -> Plan:
    return planned(ROOT / "examples" / name)


def _tables(leaves: tuple[object, ...]) -> dict[str, Table]:
    return {leaf.name: leaf for leaf in leaves if isinstance(leaf, Table)}


def test_each_system_has_its_chapter_with_its_diagram_first() -> None:
    plan = _plan("juniper")
    pictures = (Picture("fuel", "Fuel", "fuel.svg"), Picture("", "Plan view", "plan.svg"))
    made = book(plan, pictures)
    chapters = {chapter.title: chapter.leaves for chapter in made.chapters}
    systems = [system_title(plan.car, system) for system in plan.car.systems]

    assert list(chapters) == [FIRST, WHOLE, *systems, BUYING, BENCH]
    assert chapters["Fuel, E85"][0] is pictures[0]
    assert chapters[WHOLE][0] is pictures[1]
    for title in systems:
        assert any(isinstance(leaf, Hoses) for leaf in chapters[title])


def test_a_chapter_or_a_list_with_nothing_in_it_is_left_out() -> None:
    plan = _plan("club-roadster")
    bare = replace(
        plan,
        takeoff=replace(plan.takeoff, holes=()),
        checked=replace(plan.checked, steps=()),
    )
    titles = [chapter.title for chapter in book(bare, ()).chapters]

    assert WHOLE not in titles
    assert BENCH not in titles
    assert BENCH in [chapter.title for chapter in book(plan, ()).chapters]


def test_lines_of_no_system_have_a_chapter_of_their_own() -> None:
    plan = _plan("club-roadster")
    runs = tuple(replace(run, system=None) for run in plan.routes.runs)
    made = book(replace(plan, routes=replace(plan.routes, runs=runs)), ())
    (rest,) = (chapter for chapter in made.chapters if chapter.title == REST)

    (hoses,) = (leaf for leaf in rest.leaves if isinstance(leaf, Hoses))
    assert [card.id for card in hoses.cards] == sorted(run.id for run in runs)


def test_what_answers_a_port_is_told_in_the_chapter_of_its_system() -> None:
    plan = _plan("juniper")
    tables = _tables(book(plan, ()).leaves)
    told = {
        (name.removeprefix("ports-"), row[1], part.partition(": ")[0].strip())
        for name, table in tables.items()
        if name.startswith("ports-")
        for row in table.rows
        for part in row[2].split("; ")
    }
    wanted = set()
    for item in plan.checked.proof:
        owner, _, name = item.id.partition(".")
        wanted.add((item.system or "", owner, name))

    assert wanted
    assert wanted <= told


def test_every_finding_and_every_risk_is_a_note() -> None:
    plan = _plan("juniper")
    told = " ".join(
        f"{note.about} {note.text}"
        for note in (*finding_notes(plan).notes, *risk_notes(plan).notes)
    )
    first = book(plan, ()).chapters[0]

    assert [type(leaf) for leaf in first.leaves] == [Notes, Notes]
    for finding in plan.findings:
        assert all(about in told for about in finding.about), finding.about
    for risk in plan.checked.risks:
        assert all(about in told for about in risk.about)


def test_what_the_book_leaves_out_stands_in_the_one_behind_it() -> None:
    plan = _plan("juniper")
    behind = _tables(grounds(plan, flows=flows()).leaves)

    for name in ("lines", "cuts", "space", "proof", "defaults", "sources", "flow-margins-oil"):
        assert behind[name].rows, name
    assumed = behind["flow-assumed"].rows
    assert {where for row in assumed for where in row[0].split(", ")} == {
        one.where for one in flows().assumed
    }


def test_a_figure_that_stands_in_for_several_things_is_told_once() -> None:
    made = flows()
    one = made.assumed[0]
    twice = replace(made, assumed=(one, replace(one, where="turbo"), *made.assumed[1:]))
    rows = _tables(grounds(_plan("juniper"), flows=twice).leaves)["flow-assumed"].rows

    assert len([row for row in rows if row[1] == one.what]) <= 2
    assert len(rows) <= len(twice.assumed)
    assert juniper().name == "Juniper"


def test_the_plots_of_the_book_are_of_full_power_and_of_the_longest_duty() -> None:
    made = flows()
    state = made.states[0]
    hot = Series("oil temperature", "ENG", "K", (0.0, 60.0), (350.0, 360.0))
    low = Series("oil pressure", "ENG", "Pa", (0.0, 60.0), (3e5, 2e5))
    full = replace(state, condition="full-power", series=())
    pull = replace(state, condition="pull", series=(hot, low))
    climb = replace(state, condition="hill-climb", series=(replace(hot, times=(0.0, 900.0)),))
    soak = replace(state, condition="soak", series=(replace(hot, times=(0.0, 1200.0)),))
    chosen = booked(replace(made, states=(full, pull, climb, soak)))
    short = booked(replace(made, states=(full, pull)))

    assert [one.condition for one in chosen] == ["full-power", "hill-climb"]
    assert chosen[0].pumps == full.pumps
    assert (chosen[1].pumps, chosen[1].walks) == ((), ())
    assert [one.unit for one in short[1].series] == ["K"]


def test_a_session_of_half_an_hour_stands_in_the_book_of_a_track_car() -> None:
    car, joints, routes = laid("club-roadster")
    chosen = booked(run(car, joints, routes))
    (session,) = (one for one in chosen if one.condition == "session")

    assert [one.condition for one in chosen] == ["full-power", "session"]
    assert {one.unit for one in session.series} == {"K"}
    assert {one.where for one in session.series} >= {"ENG:gallery", "ENG:sump"}
    assert {one.times[-1] for one in session.series} == {1800.0}
