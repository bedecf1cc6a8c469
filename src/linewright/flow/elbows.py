# SPDX-License-Identifier: Apache-2.0
"""Elbows that cost a pump more than a little; of all others nothing is said."""

from collections.abc import Iterator, Sequence
from math import pi

from linewright.base.codes import RULES
from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.flow.bands import Study
from linewright.flow.findings import Judged
from linewright.flow.fittings import hose_end
from linewright.flow.limiting import follows, way_to
from linewright.flow.model import Margin
from linewright.flow.network import Centrifugal, Displacement
from linewright.flow.waterway import Stretch
from linewright.tables.practice import figure

#: Margins of a pressure at an inlet: what there is between the air and their limit is all there is.
_DRAWN = ("pump inlet", "inlet over vapour")


def elbows(car: Car, judged: Sequence[Judged]) -> Iterator[Finding]:
    """Name bent ends and elbows that take more of the head that there is than practice has it.

    Parameters
    ----------
    car : Car
        The car document as read.
    judged : Sequence of Judged
        Systems in conditions.

    Yields
    ------
    Finding
        ``elbow-costly``: one a system, at full power.
    """
    most = figure("elbow-share")
    for one in judged:
        built = one.study.state.built
        if not built.case.is_full:
            continue
        heads = _heads(one)
        costly: list[tuple[float, str, str]] = []
        for run in built.runs.values():
            head = heads.get(run.id)
            if head is None or head <= 0.0:
                continue
            for stretch in built.ways[run.id].stretches:
                lost = _lost(one.study, run.id, stretch)
                if lost > most.value * head:
                    text = f"{_named(stretch)} {lost / 1e3:.1f} kPa of {head / 1e3:.0f} kPa"
                    costly.append((lost / head, run.line, f"{text} ({lost / head * 100:.0f} %)"))
        if not costly:
            continue
        costly.sort(key=lambda item: (-item[0], item[2]))
        said = "; ".join(text for _, _, text in costly)
        yield Finding(
            "elbow-costly",
            RULES["elbow-costly"],
            tuple(sorted({line for _, line, _ in costly}, key=natural_key)),
            f"Elbows that take more than {most.value * 100:.0f} % of the pressure that there is to "
            f"lose, in {built.case.name}: {said}.",
            "Swept ends lose about a quarter of what drilled ones do, straight ones with a bend in "
            "the hose less still; a larger size helps most.",
            source="common practice",
            grade=most.grade,
            system=built.system.id,
            measure=costly[0][0],
        )


def _named(stretch: Stretch) -> str:
    return f"the {stretch.angle}° {stretch.what} {stretch.where[0].rpartition('.')[0]}"


def _lost(study: Study, run: str, stretch: Stretch) -> float:
    """What a bent end or elbow takes besides its steps of bore. [Pa]"""
    if not stretch.angle or stretch.what not in ("hose end", "elbow"):
        return 0.0
    packed = study.state.packed
    i = packed.link[run]
    bore = stretch.bore.value
    dense = float(packed.density[i])
    speed = abs(float(study.flows[0, i])) / dense / (0.25 * pi * bore**2)
    reynolds = speed * bore / float(packed.viscosity[i])
    if reynolds <= 0.0:
        return 0.0
    lost = hose_end(stretch.angle, bore, is_forged=stretch.what == "elbow")
    return lost.at(reynolds) * 0.5 * dense * speed**2


def _heads(one: Judged) -> dict[str, float]:
    """Pressure to lose on each piece: down to the limit of an inlet, or what a pump adds. [Pa]"""
    study = one.study
    built, place = study.state.built, study.state.packed.node
    rises = [
        float(study.pressures[0, place[link.b]] - study.pressures[0, place[link.a]])
        for link in built.network.links
        if isinstance(link, Centrifugal | Displacement) and link.id not in built.mixed
    ]
    rise = max(rises, default=0.0)
    found = dict.fromkeys(built.runs, rise)
    for margin in one.state.margins:
        if margin.what not in _DRAWN or built.node(margin.where) not in place:
            continue
        for link in way_to(study, built.node(margin.where), downstream=follows(margin.what)):
            if link in found:
                found[link] = _room(one, margin)
    return found


def _room(one: Judged, margin: Margin) -> float:
    """From the air outside to the limit of an inlet. [Pa]"""
    if margin.what == "pump inlet":
        return one.study.state.built.case.ambient - margin.limit.value
    # Over vapour the margin itself says what is left; what is lost on the way was there too.
    lost = (
        one.study.state.built.case.ambient
        - one.study.pressure(one.study.state.built.node(margin.where)).value
    )
    return max(0.0, margin.value.value - margin.limit.value + lost)
