# SPDX-License-Identifier: Apache-2.0
"""The shop book: what is taken to the car, in chapters, before anybody chooses a paper."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

from linewright.base.finding import Severity
from linewright.car.model import Car
from linewright.flow.model import Flows, SystemState
from linewright.plan.model import Plan
from linewright.sheets import findings as says
from linewright.sheets import lists
from linewright.sheets.bends import ROTATION, bend_table
from linewright.sheets.buying import buying_list, saw_list
from linewright.sheets.cards import hose_cards
from linewright.sheets.figures import LEGEND, run
from linewright.sheets.flow import assumed_table, gauge_table, grouped_assumed
from linewright.sheets.flow_page import SystemPage, pages, system_page
from linewright.sheets.leaves import Chapter, Hoses, Leaf, Picture, Plots
from linewright.sheets.notes import finding_notes, risk_notes

#: Cautions on the cover: where they save a hand or a car, not as wallpaper.
CAUTIONS = (
    "Fuel, hot oil and pressure hurt. No fuel work near heaters, grinders or a live battery; "
    "extinguishers and a second person at the first start.",
    "Never tighten a joint under pressure. Test with liquid, behind a shield, eyes covered.",
    "The makers' instructions, your sanctioning body's current rules and licensed practice go "
    "before anything printed here. This book does not say that a car is safe or legal.",
)


#: The condition whose plots of pumps the book has; the others are files of ``linewright flow``.
BOOKED = "full-power"


#: Standing hot is no duty: its plots are files of ``linewright flow`` too.
_STANDING = "soak"

#: The chapters that have no system.
FIRST, WHOLE, BUYING, BENCH, REST = (
    "Before the order",
    "The whole car",
    "Buying",
    "At the bench and at the first start",
    "Lines of no system",
)

#: What stands beside the book, for the desk.
BESIDE = (
    "The book is for the car. What the plan rests on (every pair of hose ends that was tried, the "
    "proof of completeness, defaults, assumed figures, sources) is in grounds.pdf beside it; the "
    "lists are there as files for a spreadsheet."
)


@dataclass(frozen=True, slots=True)
class Book:
    """All that a book says: a cover with its contents, then the chapters."""

    car: str
    title: str
    note: str
    revision: str
    date: str
    version: str
    verdict: str
    summary: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    chapters: tuple[Chapter, ...]
    legend: str
    beside: str = ""

    @property
    def leaves(self) -> tuple[Leaf, ...]:
        """All leaves, in the order of the chapters."""
        return tuple(leaf for chapter in self.chapters for leaf in chapter.leaves)


def verdict(plan: Plan) -> str:
    """Say in a sentence whether the order can be sent.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    str
        Counts of stops, warnings and asks, and what they mean for the order.
    """
    counts = Counter(f.severity for f in plan.findings if f.overruled is None)
    stops, warns, asks = (counts[s] for s in (Severity.STOP, Severity.WARN, Severity.ASK))

    def of(number: int, word: str) -> str:
        return f"{number} {word}{'' if number == 1 else 's'}"

    if stops:
        return (
            f"Do not order yet: {of(stops, 'stop')} to clear, "
            f"{of(warns, 'warning')}, {of(asks, 'ask')}."
        )
    if warns or asks or plan.checked.risks:
        return (
            f"No stop. {of(warns, 'warning')}, {of(asks, 'ask')}; "
            f"the order carries {of(len(plan.checked.risks), 'risk')}."
        )
    return "No stop, no warning, nothing open that linewright knows of."


def summary(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return the figures that describe the job at a glance.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    tuple of (str, str)
        What, and how much of it.
    """
    car = plan.car
    show = car.show
    joints = sum(t.chain.joint_count for t in plan.joints.terminations if t.chain)
    joints += sum(f.chain.joint_count for f in plan.joints.fits if f.chain)
    hose = sum(h.order for h in plan.takeoff.hoses)
    states = Counter(p.state for p in plan.checked.proof if not p.is_function)
    ports = ", ".join(f"{states[s]} {s}" for s in sorted(states))
    pieces = sum(row.order for row in plan.takeoff.rows)
    return (
        ("Systems", ", ".join(car.systems) or "none"),
        ("Components", str(len(car.components))),
        ("Lines", f"{len(car.lines)}, in {len(plan.routes.runs)} pieces"),
        ("Ports", ports or "none"),
        ("Joints", str(joints)),
        ("Hose to buy", run(hose, show)),
        ("Parts to buy", f"{pieces} in {len(plan.takeoff.rows)} rows, beside the hose"),
    )


def flow_leaves(
    car: Car, flows: Flows, plots: tuple[Picture, ...], system: str = ""
) -> tuple[Leaf, ...]:
    """Put the pages of flow in order, the plots of each system behind its page.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        What was computed.
    plots : tuple of Picture
        The plots.
    system : str
        This one alone; "" for all.

    Returns
    -------
    tuple of Picture, Table and SystemPage
        The pages, then the gauge sheet, then the figures that nobody gave.
    """
    found: list[Leaf] = []
    for leaf in pages(car, flows, (system,) if system else ()):
        found.append(leaf)
        if isinstance(leaf, SystemPage):
            found += [plot for plot in plots if plot.system == leaf.system]
    assumed = assumed_table(car, flows, system) if system else grouped_assumed(car, flows)
    if assumed.rows:
        found.append(assumed)
    return tuple(found)


def booked(flows: Flows) -> tuple[SystemState, ...]:
    """Choose the states whose plots stand in the book.

    Parameters
    ----------
    flows : Flows
        What was computed.

    Returns
    -------
    tuple of SystemState
        Of each system full power, and the longest duty with its temperatures alone.
    """
    found = []
    for system in dict.fromkeys(state.system for state in flows.states):
        own = [state for state in flows.states if state.system == system]
        found += [state for state in own if state.condition == BOOKED]
        lasting = []
        for state in own:
            followed = tuple(s for s in state.series if s.unit == "K" and len(s.times) > 1)
            if followed and state.condition not in (BOOKED, _STANDING):
                lasting.append(replace(state, series=followed, pumps=(), walks=()))
        if lasting:
            found.append(max(lasting, key=lambda state: state.series[0].times[-1]))
    return tuple(found)


def system_title(car: Car, system: str) -> str:
    """Name a system at the head of its chapter.

    Parameters
    ----------
    car : Car
        The car.
    system : str
        Its id.

    Returns
    -------
    str
        As "Charge coolant, 50 % glycol".
    """
    words = system.replace("-", " ")
    known = car.systems.get(system)
    fluid = f", {known.fluid}" if known is not None and known.fluid else ""
    return f"{words[:1].upper()}{words[1:]}{fluid}"


def _system_leaves(
    plan: Plan,
    system: str,
    pictures: tuple[Picture, ...],
    flows: Flows | None,
    plots: tuple[Picture, ...],
) -> Iterator[Leaf]:
    """The chapter of a system: its diagram, its flow, its hoses, its ports."""
    yield from (picture for picture in pictures if picture.system == system)
    if flows is not None and any(state.system == system for state in flows.states):
        yield system_page(plan.car, flows, system, is_brief=True)
        drawn = tuple(plot for plot in plots if plot.system == system)
        if drawn:
            yield Plots("Pumps, pressures and temperatures", drawn)
    cards = hose_cards(plan, system)
    if cards:
        yield Hoses("Hoses and pipes", cards)
    ports = says.port_table(plan, system)
    if ports.rows:
        yield ports


def _bench(plan: Plan, flows: Flows | None) -> Iterator[Leaf]:
    bent = bend_table(plan)
    if bent.rows:
        yield Plots("Tube and pipe", (Picture("", "Rotation of a bend", ROTATION),))
        yield bent
    yield from (table for table in (lists.hole_list(plan), says.step_list(plan)) if table.rows)
    if flows is not None:
        gauges = gauge_table(plan.car, flows)
        if gauges.rows:
            yield gauges


def book(
    plan: Plan,
    pictures: tuple[Picture, ...],
    *,
    date: str = "",
    version: str = "",
    flows: Flows | None = None,
    plots: tuple[Picture, ...] = (),
) -> Book:
    """Compose the shop book of a plan.

    Parameters
    ----------
    plan : Plan
        The plan.
    pictures : tuple of Picture
        The system diagrams and the views to scale.
    date : str
        The day it is printed, as ``2026-11-25``; empty for none.
    version : str
        Version of linewright.
    flows : Flows, optional
        What was computed of flow: a page a system and the gauge sheet.
    plots : tuple of Picture
        The plots of flow; those of a system stand behind its page.

    Returns
    -------
    Book
        Chapters: what is open before the order, the views, one a system (diagram, flow, a card
        for each piece, what answers each port), buying, the bench.
    """
    car = plan.car
    overruled = finding_notes(plan, overruled=True)
    views = tuple(picture for picture in pictures if not picture.system)
    chapters = [
        Chapter(
            FIRST,
            (
                risk_notes(plan),
                finding_notes(plan),
                *((overruled,) if overruled.notes else ()),
            ),
        ),
        *((Chapter(WHOLE, views),) if views else ()),
    ]
    for system in (*car.systems, ""):
        leaves = tuple(_system_leaves(plan, system, pictures if system else (), flows, plots))
        if leaves:
            chapters.append(Chapter(system_title(car, system) if system else REST, leaves))
    chapters += [
        Chapter(BUYING, (buying_list(plan), lists.hose_list(plan), saw_list(plan))),
        Chapter(BENCH, tuple(_bench(plan, flows))),
    ]
    kept = tuple(chapter for chapter in chapters if chapter.leaves)
    return Book(
        car=car.name,
        title="shop book",
        note=car.note,
        revision=car.sha256[:8],
        date=date,
        version=version,
        verdict=verdict(plan),
        summary=summary(plan),
        cautions=CAUTIONS,
        chapters=kept,
        legend=LEGEND,
        beside=BESIDE,
    )
