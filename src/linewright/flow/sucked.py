# SPDX-License-Identifier: Apache-2.0
"""Hoses that stand under less than the air outside: soft ones are sucked flat."""

from collections.abc import Iterator, Sequence

from linewright.base.codes import RULES
from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car, Construction, Medium
from linewright.flow.findings import Judged
from linewright.flow.model import Band
from linewright.joints.offered import setting
from linewright.routes.model import Run
from linewright.tables import hoses

#: Less than that is within what a column of fluid does. [Pa]
_LEAST = 2e3


def sucked(car: Car, judged: Sequence[Judged]) -> Iterator[Finding]:
    """Name hoses under suction that nobody called suction lines.

    Parameters
    ----------
    car : Car
        The car document as read.
    judged : Sequence of Judged
        Systems in conditions.

    Yields
    ------
    Finding
        ``hose-sucked``: a stop for long soft hose, else an ask for its vacuum rating. Lines whose
        service is suction are asked about without flow.
    """
    worst: dict[str, tuple[Band, Judged, Run]] = {}
    for one in judged:
        built = one.study.state.built
        if built.system.medium is Medium.AIR or not built.case.is_running:
            continue
        for run in built.runs.values():
            line = car.lines[run.line]
            if line.service == "suction" or line.construction is Construction.TUBE:
                continue
            for end in run.ends:
                pressure = one.study.pressure(built.node(end.port))
                under = Band(
                    built.case.ambient - pressure.value,
                    built.case.ambient - pressure.high,
                    built.case.ambient - pressure.low,
                )
                known = worst.get(run.line)
                # Sure alone counts: what may be under suction is said by the margins of inlets.
                if under.low > _LEAST and (known is None or under.value > known[0].value):
                    worst[run.line] = (under, one, run)
    for name in sorted(worst, key=natural_key):
        finding = _told(car, name, *worst[name])
        if finding is not None:
            yield finding


def _told(car: Car, name: str, under: Band, one: Judged, run: Run) -> Finding | None:
    line, limit = car.lines[name], setting(car, "hose-collapse-length")
    if _has_vacuum(line.hose, line.size) or line.construction is Construction.PIPE:
        return None
    long = one.study.state.built.ways[run.id].hose.length
    is_soft = line.construction is Construction.CLAMPED
    is_stop = is_soft and long > limit.value
    said = (
        f"{name} stands {under.value / 1e5:.2f} bar ({under.low / 1e5:.2f} bar to "
        f"{under.high / 1e5:.2f} bar) under the air outside in {one.state.condition}"
    )
    if is_stop:
        said += (
            f", and is {long * 1e3:.0f} mm of soft clamped hose: over {limit.value * 1e3:.0f} mm "
            "such hose tends to collapse."
        )
    else:
        said += f", and no vacuum rating of {line.size} {line.hose} hose is in the data."
    return Finding(
        "hose-sucked",
        RULES["hose-sucked"] if is_stop else Severity.ASK,
        (name,),
        said,
        "Take hose with a vacuum rating or a coil inside, or hard tube with short joints."
        if is_stop
        else "Look its vacuum rating up, or take hose with a coil inside.",
        source="mil-dtl-6000d-6-1",
        grade=limit.grade,
        system=one.state.system,
        measure=under.value,
    )


def _has_vacuum(hose: str, size: str) -> bool:
    try:
        return bool(hoses.size(hoses.family(hose).key, size).vacuum)
    except LookupError:
        return False
