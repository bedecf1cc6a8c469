# SPDX-License-Identifier: Apache-2.0
"""What a plan rests on, as a book for the desk: everything that nobody needs at the car."""

from linewright.flow.model import Flows
from linewright.plan.model import Plan
from linewright.sheets import findings as says
from linewright.sheets import lists
from linewright.sheets.book import CAUTIONS, Book, summary, verdict
from linewright.sheets.courses import course_cards
from linewright.sheets.figures import LEGEND
from linewright.sheets.flow import grouped_assumed, line_table, margin_table
from linewright.sheets.leaves import Cards, Chapter, Leaf
from linewright.sheets.spatial import space_table


def grounds(plan: Plan, *, date: str = "", version: str = "", flows: Flows | None = None) -> Book:
    """Compose the book of what a plan rests on.

    Parameters
    ----------
    plan : Plan
        The plan.
    date : str
        The day it is printed, as ``2026-11-25``; empty for none.
    version : str
        Version of linewright.
    flows : Flows, optional
        What was computed of flow: the figures that it had to assume.

    Returns
    -------
    Book
        Chapters: lines with their courses and every pair of hose ends that works, cuts, flow in
        every condition, proof of completeness, what stands in for what was not typed, sources.
    """
    car = plan.car
    cards = course_cards(plan)
    lines: tuple[Leaf, ...] = (
        lists.line_list(plan),
        lists.cut_list(plan),
        *((space_table(car, plan.routes.courses),) if plan.routes.courses else ()),
        *((Cards("Courses in full", cards),) if cards else ()),
    )
    names = dict.fromkeys(state.system for state in flows.states) if flows is not None else ()
    states = tuple(
        table
        for system in names
        if flows is not None
        for table in (line_table(car, flows, system), margin_table(car, flows, system))
        if table.rows
    )
    assumed = (grouped_assumed(car, flows),) if flows is not None else ()
    return Book(
        car=car.name,
        title="what the plan rests on",
        note=car.note,
        revision=car.sha256[:8],
        date=date,
        version=version,
        verdict=verdict(plan),
        summary=summary(plan),
        cautions=CAUTIONS,
        chapters=(
            Chapter("Lines", lines),
            *((Chapter("Flow in every condition", states),) if states else ()),
            Chapter("Completeness", (says.proof_list(plan),)),
            Chapter("What stands in", (says.default_list(plan), *assumed)),
            Chapter("Sources", (says.source_list(plan),)),
        ),
        legend=LEGEND,
        beside="The shop book, book.pdf beside this one, is what goes to the car.",
    )
