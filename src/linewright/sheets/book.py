# SPDX-License-Identifier: Apache-2.0
"""The shop book: what stands on which page, before anybody chooses a paper."""

from collections import Counter
from dataclasses import dataclass

from linewright.base.finding import Severity
from linewright.car.model import Car
from linewright.flow.model import Flows
from linewright.plan.model import Plan
from linewright.sheets import findings as says
from linewright.sheets import lists
from linewright.sheets.bends import ROTATION, bend_table
from linewright.sheets.courses import CourseCard, course_cards
from linewright.sheets.figures import LEGEND, run
from linewright.sheets.flow_page import SystemPage, pages
from linewright.sheets.spatial import space_table
from linewright.sheets.table import Table

#: Cautions on the cover: where they save a hand or a car, not as wallpaper.
CAUTIONS = (
    "Fuel, hot oil and pressure hurt. No fuel work near heaters, grinders or a live battery; "
    "extinguishers and a second person at the first start.",
    "Never tighten a joint under pressure. Test with liquid, behind a shield, eyes covered.",
    "The makers' instructions, your sanctioning body's current rules and licensed practice go "
    "before anything printed here. This book does not say that a car is safe or legal.",
)


#: The condition whose plots the book has; those of the others are files of ``linewright flow``.
BOOKED = "full-power"


@dataclass(frozen=True, slots=True)
class Picture:
    """A page with a drawing: the system it shows, "" for all, and the name of its file."""

    system: str
    title: str
    file: str


@dataclass(frozen=True, slots=True)
class Cards:
    """Pages with a card for each laid hose, two on a page where they are short enough."""

    title: str
    cards: tuple[CourseCard, ...]


@dataclass(frozen=True, slots=True)
class Book:
    """All that the book says; ``pages`` come in order, pictures, tables and cards mixed."""

    car: str
    note: str
    revision: str
    date: str
    version: str
    verdict: str
    summary: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    risks: Table
    pages: tuple[Picture | Table | Cards | SystemPage, ...]
    legend: str


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
) -> tuple[Picture | Table | SystemPage, ...]:
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
        The pages, the gauge sheet last.
    """
    found: list[Picture | Table | SystemPage] = []
    for leaf in pages(car, flows, (system,) if system else ()):
        found.append(leaf)
        if isinstance(leaf, SystemPage):
            found += [plot for plot in plots if plot.system == leaf.system]
    return tuple(found)


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
        The system diagrams, then the views to scale.
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
        Cover and pages in order: diagrams, views, flow, lines, lines in space, a card a laid
        hose, bend schedule, parts, hose, cuts,
        holes, steps, findings, proof, defaults, sources.
    """
    car = plan.car
    several = car.systems if len(car.systems) > 1 else {}
    by_system = tuple(lists.parts_list(plan, system) for system in several)
    overruled = says.findings_list(plan, overruled=True)
    bent = bend_table(plan)
    cards = course_cards(plan)
    leaves: tuple[Picture | Table | Cards | SystemPage, ...] = (
        *pictures,
        *(flow_leaves(car, flows, plots) if flows is not None else ()),
        lists.line_list(plan),
        *((space_table(car, plan.routes.courses),) if plan.routes.courses else ()),
        *((Cards("Hoses at the bench", cards),) if cards else ()),
        *((Picture("", "Rotation of a bend", ROTATION), bent) if bent.rows else ()),
        lists.parts_list(plan),
        *(table for table in by_system if table.rows),
        lists.hose_list(plan),
        lists.cut_list(plan),
        lists.hole_list(plan),
        says.step_list(plan),
        says.findings_list(plan),
        *((overruled,) if overruled.rows else ()),
        says.proof_list(plan),
        says.default_list(plan),
        says.source_list(plan),
    )
    return Book(
        car=car.name,
        note=car.note,
        revision=car.sha256[:8],
        date=date,
        version=version,
        verdict=verdict(plan),
        summary=summary(plan),
        cautions=CAUTIONS,
        risks=says.risk_list(plan),
        pages=leaves,
        legend=LEGEND,
    )
