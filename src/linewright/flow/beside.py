# SPDX-License-Identifier: Apache-2.0
"""What follows from pressures and volumes beside the flow: pull at couplers, beads, catch cans."""

from collections.abc import Iterator, Sequence
from math import pi, radians

from linewright.base.codes import RULES
from linewright.base.finding import Finding
from linewright.car.model import Car, Component, Medium
from linewright.flow.elbows import elbows
from linewright.flow.findings import Judged
from linewright.flow.gas import thrust
from linewright.flow.sucked import sucked
from linewright.tables.practice import figure

#: Pull under which nobody minds. [N]
_LEAST = 100.0


def beside(car: Car, judged: Sequence[Judged]) -> Iterator[Finding]:
    """Say what pulls at couplers, which pipes need beads, which cans are too small.

    Parameters
    ----------
    car : Car
        The car document as read.
    judged : Sequence of Judged
        Systems in conditions.

    Yields
    ------
    Finding
        ``coupler-thrust``, ``pipe-unbeaded``, ``catch-can-small``, ``elbow-costly``,
        ``hose-sucked``.
    """
    for one in judged:
        built = one.study.state.built
        if built.system.medium is Medium.AIR and built.case.is_full and built.case.boost > 0.0:
            yield from _pulled(car, one)
    yield from _cans(car, judged)
    yield from elbows(car, judged)
    yield from sucked(car, judged)


def _pulled(car: Car, one: Judged) -> Iterator[Finding]:
    built = one.study.state.built
    case = built.case
    pulls: dict[str, tuple[float, float]] = {}
    for run in built.runs.values():
        gauge = max(
            one.state.ports[end.port].pressure.value - case.ambient
            for end in run.ends
            if end.port in one.state.ports
        )
        bore = built.ways[run.id].hose.bore.value
        if (pull := thrust(gauge, bore)) > _LEAST:
            pulls[run.line] = (pull, thrust(gauge, bore, radians(90.0)))
    if pulls:
        said = ", ".join(
            f"{line} {pull:.0f} N ({elbow:.0f} N on a 90° elbow)"
            for line, (pull, elbow) in sorted(pulls.items())
        )
        yield Finding(
            "coupler-thrust",
            RULES["coupler-thrust"],
            tuple(sorted(pulls)),
            f"The pressure in {case.name} pulls couplers apart: {said}.",
            "Fix each pipe near its couplers, and see that what it is fixed to holds that.",
            system=built.system.id,
            measure=max(pull for pull, _ in pulls.values()),
        )
    least = figure("unbeaded-pressure")
    if case.boost <= least.value:
        return
    for pipe in car.components.values():
        if pipe.traits.get("beaded") is not False:
            continue
        yield Finding(
            "pipe-unbeaded",
            RULES["pipe-unbeaded"],
            (pipe.id,),
            f"{pipe.id} has plain ends, and {case.boost / 1e5:.2f} bar push its couplers off; from "
            f"{least.value / 1e5:.1f} bar on a pipe needs beads.",
            "Roll beads on its ends, or weld them on.",
            value=f"{case.boost / 1e5:.2f} bar",
            limit=f"{least.value / 1e5:.1f} bar",
            system=built.system.id,
            grade=least.grade,
            measure=case.boost,
        )


def _room(can: Component) -> float | None:
    """Volume of a can, as typed or by its size. [m3]"""
    if can.volume is not None:
        return can.volume.value
    if can.size is None:
        return None
    x, y, z = can.size
    return (0.25 * pi if can.round else 1.0) * x * y * z


def _fluid(car: Car, system: str, judged: Sequence[Judged]) -> float | None:
    """Fluid in a system. [m3]"""
    medium = car.systems[system].medium
    for one in judged:
        sealed = one.study.state.built.sealed
        if one.state.system == system and sealed is not None:
            return sealed.system
    kinds = {Medium.OIL: "dry-sump tank", Medium.CHARGE_COOLANT: "charge-coolant reservoir"}
    tank = next(
        (c for c in car.components.values() if c.kind == kinds.get(medium) and c.volume), None
    )
    return tank.volume.value if tank is not None and tank.volume is not None else None


def _cans(car: Car, judged: Sequence[Judged]) -> Iterator[Finding]:
    share, least = figure("catch-can-share"), figure("catch-can-least")
    for can in car.components.values():
        if can.kind != "catch can" or can.system is None or can.system not in car.systems:
            continue
        room, fluid = _room(can), _fluid(car, can.system, judged)
        wants = max(least.value, share.value * (fluid or 0.0))
        if room is None or room >= wants:
            continue
        yield Finding(
            "catch-can-small",
            RULES["catch-can-small"],
            (can.id,),
            f"{can.id} holds {room * 1e3:.2f} L; one rule book asks for {wants * 1e3:.2f} L, the "
            f"greater of {share.value * 100:.0f} % of the fluid and {least.value * 1e3:.1f} L.",
            "Take a larger can, or look up what your own rules ask for.",
            value=f"{room * 1e3:.2f} L",
            limit=f"{wants * 1e3:.2f} L",
            source="student-formula-rule-book",
            grade=share.grade,
            system=can.system,
            measure=wants - room,
            printed=room,
            is_less_worse=True,
        )
