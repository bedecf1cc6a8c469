# SPDX-License-Identifier: Apache-2.0
"""Sizes that are left to the tool: the largest that no port chokes and that can be laid.

A line's hose may be no wider than its narrower port lets through (`choke`). Where that size
finds no course between placed ports, smaller ones are tried, so many and no more. How small it
may be follows from what flows in it, which is not reckoned here.
"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace

from linewright.base.codes import RULES
from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import AUTO, Car, Line
from linewright.car.quantities import DASHES
from linewright.catalogue import stock
from linewright.joints.model import Joints
from linewright.joints.offered import setting
from linewright.joints.termination import of_line
from linewright.tables import hoses

#: Lines of a car for which no course was found.
Unlaid = Callable[[Car], Collection[str]]


@dataclass(frozen=True, slots=True)
class Fits:
    """Sizes that both ports of a line take, the best first, and ports that are not known."""

    sizes: tuple[str, ...]
    unknown: tuple[str, ...] = ()


def fits(car: Car) -> dict[str, Fits]:
    """Return what sizes the ports of each line take whose size is "auto".

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    dict
        By line, in their natural order; empty where no size is left open.
    """
    asked = sorted(
        (line for line in car.lines.values() if line.size == AUTO),
        key=lambda line: natural_key(line.id),
    )
    return {line.id: _fits(car, line) for line in asked}


def sized(
    car: Car, unlaid: Unlaid | None = None, open_fits: Mapping[str, Fits] | None = None
) -> tuple[Car, tuple[Finding, ...]]:
    """Give every line whose size is "auto" a size.

    Parameters
    ----------
    car : Car
        The car document as read.
    unlaid : callable, optional
        Tells for which lines of a car no course is found; without it none is laid.
    open_fits : Mapping, optional
        What `fits` says of the car, where that is known.

    Returns
    -------
    Car
        The same where no size is left open.
    tuple of Finding
        ``size-chosen`` for each size that was chosen, ``size-open`` where one only stands in.
    """
    fit = fits(car) if open_fits is None else open_fits
    if not fit:
        return car, ()
    asked = [car.lines[name] for name in fit]
    choice = {name: 0 for name, each in fit.items() if each.sizes}
    made = _with(car, _now(fit, choice))
    tight: frozenset[str] = frozenset()
    for _ in range(round(setting(car, "size-tries").value) if unlaid is not None else 0):
        assert unlaid is not None
        tight = frozenset(unlaid(made)) & choice.keys()
        smaller = {n for n in tight if choice[n] + 1 < len(fit[n].sizes)}
        if not smaller:
            break
        choice |= {name: choice[name] + 1 for name in smaller}
        made = _with(car, _now(fit, choice))
    else:
        tight = frozenset(unlaid(made)) & choice.keys() if unlaid is not None else tight
    if tight:
        # No size that was tried has a course: the best one for the ports stands.
        choice |= dict.fromkeys(tight, 0)
        made = _with(car, _now(fit, choice))
    findings = tuple(_told(line, fit[line.id], choice, tight) for line in asked)
    assumed = tuple(
        (f"lines.{line.id}.size", made.lines[line.id].size, Grade.PRACTICE) for line in asked
    )
    return replace(made, assumed=(*made.assumed, *assumed)), findings


def _now(fits: Mapping[str, Fits], choice: Mapping[str, int]) -> dict[str, str]:
    return {name: each.sizes[choice[name]] for name, each in fits.items() if name in choice}


def _with(car: Car, sizes: Mapping[str, str]) -> Car:
    lines = {
        name: replace(line, size=sizes.get(name) or _stand_in(line)) if line.size == AUTO else line
        for name, line in car.lines.items()
    }
    return replace(car, lines=lines)


def _dashes(line: Line) -> tuple[str, ...]:
    """Dash sizes in which a line's hose and its ends are sold, the largest first."""
    family = hoses.family(line.hose).ends
    dashes = (f"-{number}" for number in reversed(DASHES))
    return tuple(d for d in dashes if stock.generic().hose_ends(family, d))


def _stand_in(line: Line) -> str:
    """A middling size, where the ports say nothing."""
    sold = _dashes(line)
    return sold[len(sold) // 2]


def _fits(car: Car, line: Line) -> Fits:
    ends = (line.from_port, line.to_port)
    unknown = tuple(
        name for name in ends if (port := car.port(name)) is None or port.end.is_unknown
    )
    if len(unknown) == len(ends):
        return Fits((), unknown)
    found: list[str] = []
    for dash in _dashes(line):
        tried = replace(line, size=dash)
        joints = of_line(replace(car, lines={**car.lines, line.id: tried}), tried)
        if _is_fit(joints, unknown):
            found.append(dash)
    return Fits(tuple(found), unknown)


def _is_fit(joints: Joints, unknown: Collection[str]) -> bool:
    """Whether each known port is joined, and none chokes the hose."""
    ends = [end for end in joints.terminations if end.port not in unknown]
    is_joined = bool(ends) and all(end.chain is not None for end in ends)
    return is_joined and not any(
        finding.code == "choke" or finding.severity is Severity.STOP for finding in joints.findings
    )


def _told(line: Line, fit: Fits, choice: Mapping[str, int], tight: Collection[str]) -> Finding:
    if line.id not in choice:
        return _open(line, fit)
    size, best = fit.sizes[choice[line.id]], fit.sizes[0]
    ports = [p for p in (line.from_port, line.to_port) if p not in fit.unknown]
    where = " and ".join(ports)
    reason = f"{line.id}: {size} is the largest {line.hose} hose that {where} take without a choke"
    if len(ports) == 1:
        reason = reason.replace(" take ", " takes ")
    if size != best:
        reason = (
            f"{line.id}: {best} is the largest {line.hose} hose that {where} take without a "
            f"choke, but finds no course between them; {size} does"
        )
    elif line.id in tight:
        reason += ", and no smaller one that was tried finds a course either"
    if fit.unknown:
        reason += f"; {' and '.join(fit.unknown)} is not known yet"
    return Finding(
        code="size-chosen",
        severity=RULES["size-chosen"],
        about=(line.id,),
        reason=f"{reason}. What flows in it was not reckoned.",
        remedy=f'Type size = "{size}" to keep it, or another size.',
        value=size,
        source="common practice",
        grade=Grade.PRACTICE,
        system=line.system,
    )


def _open(line: Line, fit: Fits) -> Finding:
    size = _stand_in(line)
    why = (
        f"neither {line.from_port} nor {line.to_port} is known"
        if len(fit.unknown) == 2
        else f"no {line.hose} hose joins {line.from_port} and {line.to_port} without a choke"
    )
    return Finding(
        code="size-open",
        severity=RULES["size-open"],
        about=(line.id,),
        reason=f"{line.id}: its size is left open, and {why}; {size} stands in.",
        remedy='Measure its ports, or type a size, such as size = "-10".',
        value=size,
        source="common practice",
        grade=Grade.PRACTICE,
        system=line.system,
    )
