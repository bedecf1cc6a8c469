# SPDX-License-Identifier: Apache-2.0
"""The page of flow that the book has for each system, and the order of all such pages."""

from collections.abc import Sequence
from dataclasses import dataclass

from linewright.car.model import Car
from linewright.flow.model import Flows, Verdict
from linewright.scene.values import condition_words
from linewright.sheets import flow, flow_says
from linewright.sheets.table import Table


@dataclass(frozen=True, slots=True)
class SystemPage:
    """A page on one system: what it comes to, sentences with their shape, tables, a caution."""

    system: str
    title: str
    verdict: str
    sentences: tuple[tuple[str, str], ...]
    tables: tuple[Table, ...]
    caution: str


def _sentences(car: Car, flows: Flows, system: str) -> tuple[tuple[str, str], ...]:
    """What is not met or not known well enough, in words, worst first."""
    found = [
        (flow_says.ORDER.index(margin.verdict), state, margin)
        for state in flow.states(flows, system)
        for margin in flow_says.ordered(state)
    ]
    said = []
    for _, state, margin in sorted(found, key=lambda item: item[0]):
        if margin.verdict is Verdict.MET:
            continue
        words = flow_says.margin_words(car, state, margin)
        said.append((flow_says.SHAPES[margin.verdict], f"{words[:1].upper()}{words[1:]}."))
    for state in flow.states(flows, system):
        fast = flow_says.fast_words(car, state)
        if fast:
            said.append((flow_says.SHAPES[Verdict.UNSURE], f"{fast[:1].upper()}{fast[1:]}."))
        if state.also is not None:
            said.append(
                (
                    flow_says.SHAPES[Verdict.UNSURE],
                    f"In {condition_words(state.condition)} there is a second steady state: which "
                    "one the car is in depends on how it was started. The table shows the first.",
                )
            )
    return tuple(said)


def system_page(car: Car, flows: Flows, system: str, *, is_brief: bool = False) -> SystemPage:
    """Compose the page of one system.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    system : str
        Id of the system.
    is_brief : bool
        Whether margins that are met are left out of the table.

    Returns
    -------
    SystemPage
        Sentences, lines in the conditions that tell most, margins, sizes of the lines that
        limit, the caution. The lists in files hold the rest.
    """
    known = car.systems.get(system)
    fluid = f", {known.fluid}" if known is not None and known.fluid else ""
    limiting = {s.limiting.where for s in flow.states(flows, system) if s.limiting is not None}
    tables = (
        flow.line_table(car, flows, system, only=flow_says.telling(flows, system)),
        flow.margin_table(car, flows, system, is_open=is_brief),
        flow.size_table(car, flows, system, limiting),
    )
    return SystemPage(
        system,
        f"Flow of the {system.replace('-', ' ')} system{fluid}",
        flow_says.verdict_words(flows, system),
        _sentences(car, flows, system),
        tuple(table for table in tables if table.rows),
        flow_says.CAUTION,
    )


def pages(car: Car, flows: Flows, systems: Sequence[str] = ()) -> tuple[SystemPage | Table, ...]:
    """Compose all pages of flow: one a system, then the gauge sheet.

    Parameters
    ----------
    car : Car
        The car.
    flows : Flows
        The results.
    systems : Sequence of str
        These alone; empty for all.

    Returns
    -------
    tuple of SystemPage and Table
        In the order of the document.
    """
    known = dict.fromkeys(s.system for s in flows.states)
    shown = [s for s in (*car.systems, *known) if s in known and (not systems or s in systems)]
    gauges = flow.gauge_table(car, flows)
    return (
        *(system_page(car, flows, system) for system in dict.fromkeys(shown)),
        *((gauges,) if gauges.rows else ()),
    )
