# SPDX-License-Identifier: Apache-2.0
"""Scavenge stages that their suction does not fill, and sumps that they do not keep empty."""

from collections.abc import Iterator, Mapping

from linewright.base.codes import RULES
from linewright.base.finding import Finding, Severity
from linewright.car.model import Component
from linewright.flow.defaults import chosen
from linewright.flow.steady import Settled

#: Share of its displacement under which a stage is told of. [-]
_FULL = 0.9
#: Share of the oil that goes to the engine that may be missing from what comes back. [-]
_MISSING = 1e-3


def starved(state: Settled, components: Mapping[str, Component]) -> Iterator[Finding]:
    """Tell of scavenge stages that draw their inlets as empty as they get.

    Parameters
    ----------
    state : Settled
        An oil system in a condition, settled.
    components : Mapping
        Of the car, by id.

    Yields
    ------
    Finding
        One a pump: a note where all oil still comes back, a warning where it does not.
    """
    built, link, flows = state.built, state.packed.link, state.found.flows
    low = {
        name: share
        for name, share in state.fill.items()
        if name in built.mixed and share < _FULL and built.case.is_running
    }
    stage = built.marks.get("pressure stage")
    if not low or stage is None:
        return
    goes = float(flows[link[stage]] - flows[link[built.marks["relief"]]])
    comes = float(sum(flows[link[k]] for k in link if k.endswith(":stage") and k in built.mixed))
    least = min(low.values())
    floor = chosen(built.typed, "suction-floor")
    ports = tuple(sorted(name.removesuffix(":stage") for name in low))
    text = (
        f"In {built.case.name} the oil is too thick for the suction of {' and '.join(ports)}: its "
        f"inlet stands at {floor.value / 1e5:.2f} bar absolute and the stage moves "
        f"{least * 100:.0f} % of its displacement, the rest is froth."
    )
    missing = goes - comes
    is_short = missing > _MISSING * goes
    if is_short:
        litres = missing / state.packed.density[link[stage]] * 6e4
        text += f" {litres:.1f} L/min more go to the engine than come back"
        tank = next(
            (c for c in components.values() if c.kind == "dry-sump tank" and c.volume), None
        )
        if tank is not None and tank.volume is not None:
            held = tank.volume.value * chosen(built.typed, "oil-level").value * 1e3
            text += f": the {held:.1f} L of {tank.id} last {held / litres:.1f} minutes"
        text += "."
    else:
        text += " All oil still comes back."
    yield Finding(
        "scavenge-starved",
        RULES["scavenge-starved"] if is_short else Severity.NOTE,
        ports,
        text,
        "Warm the oil before the start, or take larger and shorter suction hoses to the stages.",
        value=f"{least * 100:.0f} %",
        limit=f"{_FULL * 100:.0f} %",
        source="common practice",
        grade=floor.grade,
        system=built.system.id,
        measure=_FULL - least,
        printed=least,
        is_less_worse=True,
    )
