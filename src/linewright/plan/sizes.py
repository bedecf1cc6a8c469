# SPDX-License-Identifier: Apache-2.0
"""Sizes that are left open: what ports and courses take, and of that the smallest by flow.

A smaller hose has other ends, another course and another temperature, so the car is planned
again with the sizes that flow chose, and flow is asked again, until it says the same twice; so
many times and no more.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from linewright.base.codes import RULES
from linewright.base.evidence import Grade
from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.car.quantities import DASHES
from linewright.flow.model import Band, Margin, Verdict
from linewright.flow.ruled import words_of
from linewright.flow.run import reckon
from linewright.flow.smallest import Smallest, limit_words, smallest
from linewright.joints.model import Joints
from linewright.joints.offered import setting
from linewright.routes.model import Routes
from linewright.routes.sized import Fits, Unlaid, fits, sized

#: Joints and routes of a car, its lines in some sizes.
Lay = Callable[[Car], tuple[Joints, Routes]]
Sizes = dict[str, str]


@dataclass(frozen=True, slots=True)
class Settled:
    """Sizes that were come to, and those that were tried in turn where they did not settle."""

    sizes: Sizes
    tried: tuple[Sizes, ...] = ()


def with_sizes(car: Car, lay: Lay, unlaid: Unlaid | None = None) -> tuple[Car, tuple[Finding, ...]]:
    """Choose the sizes that a car leaves open.

    Parameters
    ----------
    car : Car
        What the builder says.
    lay : callable
        Plans a car in some sizes as far as its routes.
    unlaid : callable, optional
        Tells for which lines of a car no course is found; without it none is laid.

    Returns
    -------
    Car
        The same where none is left open.
    tuple of Finding
        What was chosen, and why.
    """
    open_fits = fits(car)
    if not open_fits:
        return car, ()
    made, findings = sized(car, unlaid, open_fits)
    open_to = _open_to(made, open_fits)
    chosen: dict[str, Smallest] = {}

    def ask(sizes: Sizes) -> Sizes:
        nonlocal chosen
        now = _with(made, sizes)
        joints, routes = lay(now)
        chosen = smallest(now, routes, reckon(now, joints, routes).judged, open_to)
        return {name: one.size for name, one in chosen.items()}

    start = {name: sizes[0] for name, sizes in open_to.items()}
    found = settle(start, ask, round(setting(car, "size-passes").value))
    told = [
        _by_flow(made, finding, chosen.get(finding.about[0]), found)
        if finding.code == "size-chosen"
        else finding
        for finding in findings
    ]
    if found.tried:
        told += _unsettled(made, found)
    return _with(made, found.sizes), tuple(told)


def settle(start: Sizes, ask: Callable[[Sizes], Sizes], most: int) -> Settled:
    """Ask for sizes until the answer is what was asked about.

    Parameters
    ----------
    start : dict
        Sizes to begin with, by line.
    ask : callable
        Returns the sizes that a car in some sizes should have; lines that it leaves out stay.
    most : int
        Most times that it asks. [-]

    Returns
    -------
    Settled
        Where the answers do not come to rest, the larger of the last ones for each line.

    Examples
    --------
    >>> settle({"L1": "-10"}, lambda sizes: {"L1": "-6"}, 4).sizes
    {'L1': '-6'}
    """
    now, tried = start, [start]
    for _ in range(most):
        then = {**now, **ask(now)}
        if then == now:
            return Settled(now)
        if then in tried:
            turns = tried[tried.index(then) :]
            return Settled(_largest(turns), tuple(turns))
        tried.append(then)
        now = then
    return Settled(_largest(tried[-2:]), tuple(tried[-2:]))


def _largest(turns: Sequence[Sizes]) -> Sizes:
    return {name: max((t[name] for t in turns), key=_dash) for name in turns[0]}


def _dash(size: str) -> int:
    return DASHES.index(int(size.lstrip("-")))


def _open_to(made: Car, open_fits: Mapping[str, Fits]) -> dict[str, tuple[str, ...]]:
    """Sizes that each line may have: from the one with a course on, the largest first."""
    least = setting(made, "turbo-drain-dash").value
    found = {}
    for name, fit in open_fits.items():
        if not fit.sizes or made.lines[name].size not in fit.sizes:
            continue
        sizes = fit.sizes[fit.sizes.index(made.lines[name].size) :]
        owner, _, port = made.lines[name].from_port.partition(".")
        if made.components[owner].kind == "turbo" and port == "oil-out":
            # Froth wants a dash of practice, whatever the oil in it may need.
            sizes = tuple(s for s in sizes if int(s.lstrip("-")) >= least) or sizes[:1]
        found[name] = sizes
    return found


def _with(car: Car, sizes: Mapping[str, str]) -> Car:
    lines = {
        name: replace(line, size=sizes.get(name, line.size)) for name, line in car.lines.items()
    }
    told = {f"lines.{name}.size": size for name, size in sizes.items()}
    assumed = tuple((key, told.get(key, value), grade) for key, value, grade in car.assumed)
    return replace(car, lines=lines, assumed=assumed)


def _by_flow(car: Car, finding: Finding, one: Smallest | None, found: Settled) -> Finding:
    """What was said of the ports, with what flow made of it."""
    if one is None:
        return finding
    line, size = car.lines[one.line], found.sizes[one.line]
    limit = ""
    turns = dict.fromkeys(tried[one.line] for tried in found.tried)
    if len(turns) > 1:
        by = f"{size} stands: flow asks for {', then for '.join(turns)}, and does not settle"
    elif one.missed:
        condition, margin = one.missed[0]
        _, shown = words_of(margin.what)
        by = (
            f"{size} is the largest {line.hose} hose that its ports take, and it keeps that, "
            f"since no size gives {limit_words(margin)}: it is {shown(margin.value.value)} in "
            f"{condition}"
        )
    elif one.limit is not None:
        limit = limit_words(one.limit)
        by = f"{size} is the smallest {line.hose} hose with {limit}: {_gives(one)}"
    elif one.smaller:
        by = f"{size}, since nothing flows as it should through {one.smaller} {line.hose} hose"
    else:
        by = f"{size} is the smallest {line.hose} hose that is sold, and all its limits are met"
    if size == one.largest and not one.missed:
        by += f". Its ports take no larger one than {size} without a choke"
    return replace(
        finding,
        reason=f"{one.line}: {by}.",
        value=size,
        limit=limit or None,
        remedy=f'Type size = "{size}" to keep it, or another size.',
    )


def _gives(one: Smallest) -> str:
    assert one.limit is not None
    said = f"it gives {_banded(one.limit, one.limit.value)} in {one.condition}"
    if one.gives is None:
        return f"{said}, and through {one.smaller} it does not flow"
    unsure = ""
    if one.limit.verdict is Verdict.UNSURE:
        unsure = f". That is not known well enough: measure {one.limit.measure}"
    return f"{said}, {one.smaller} gives {_banded(one.limit, one.gives)}{unsure}"


def _banded(margin: Margin, band: Band) -> str:
    _, shown = words_of(margin.what)
    value, low, high = (shown(v) for v in (band.value, band.low, band.high))
    if low == high:
        return value
    return f"{value} ({low} to {high})".replace(" absolute to", " to").replace(" absolute)", ")")


def _unsettled(car: Car, found: Settled) -> list[Finding]:
    moved = sorted(
        (n for n in found.sizes if len({t[n] for t in found.tried}) > 1), key=natural_key
    )
    said = "; ".join(f"{n}: {', '.join(t[n] for t in found.tried)}" for n in moved)
    return [
        Finding(
            code="size-unsettled",
            severity=RULES["size-unsettled"],
            about=tuple(moved),
            reason=f"Sizes by flow did not settle: what fits one does not fit the next ({said}). "
            "The larger stands.",
            remedy="Type the size of one of them.",
            grade=Grade.PRACTICE,
            source="common practice",
            system=car.lines[moved[0]].system if moved else None,
        )
    ]
