# SPDX-License-Identifier: Apache-2.0
"""What may go wrong with the order of one plan, with the parts that each way would take."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace

from linewright.base.evidence import Figure, Known
from linewright.car.model import Car, Component, Construction, Line, Port
from linewright.catalogue import stock
from linewright.catalogue.part import Part
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import End, Family
from linewright.ends.lookalikes import lookalikes
from linewright.joints.fits import fits
from linewright.joints.model import Joints, Termination
from linewright.joints.offered import setting
from linewright.joints.termination import of_line
from linewright.plan.model import Plan
from linewright.routes.route import BandRow, Route
from linewright.studies.model import Cause, Kind, Loss, Outcome
from linewright.takeoff import parts, seals
from linewright.takeoff.wanted import Spot, spots

Change = tuple[tuple[str, int], ...]

#: Look-alikes of one port, and hose ends of one line, that are tried.
_MOST = 3

#: An end whose angle is open is rarely turned further than this [deg].
_USUAL = 90

#: Groups of the parts list whose pieces are small enough to be lost or forgotten.
_SMALL = ("seals", "hardware", "clips", "plugs")

#: Families that are a part's side of a joint, never a port that somebody misread.
_NO_PORT = (Family.BANJO, Family.SPINON)

_HOW = {
    Known.LOOKS: "measure thread and seat of {}",
    Known.GUESS: "measure thread and seat of {}",
    Known.UNKNOWN: "measure thread and seat of {}",
    Known.CALLIPER: "try a known fitting in {}",
    Known.TRIED: "read the marking or the drawing of {}",
}


def causes(
    plan: Plan,
    ties: Mapping[str, str] | None = None,
    tell: Callable[[str], None] | None = None,
) -> tuple[Cause, ...]:
    """List what may come out otherwise than planned.

    Parameters
    ----------
    plan : Plan
        A plan; where its lines are routed in space, their own sureness counts.
    ties : mapping of str to str, optional
        For ports that one person read or one maker made, the name of their common cause.
    tell : callable, optional
        Is told what is being done.

    Returns
    -------
    tuple of Cause
        Ports, then hose ends, then what befalls a line as a whole.
    """
    say = tell or (lambda _: None)
    say("trying other readings of ports")
    return (
        *_ports(plan, dict(ties or {})),
        *_angles(plan),
        *_lines(plan),
    )


def losses(plan: Plan) -> tuple[Loss, ...]:
    """List the small things that may be lost or forgotten.

    Parameters
    ----------
    plan : Plan
        A plan.

    Returns
    -------
    tuple of Loss
        One a part; together they go wrong as often as practice says of a car of so many hoses.
    """
    rows = [row for row in plan.takeoff.rows if row.group in _SMALL and row.need]
    pieces = sum(row.need for row in rows)
    expected = _trouble(plan.car, "lost") * len(_hoses(plan))
    return tuple(Loss(row.code, row.need, expected / pieces) for row in rows) if pieces else ()


def _trouble(car: Car, kind: str) -> float:
    """Chance of one kind of trouble for each hose. [-]"""
    return setting(car, "confidence-trouble").value * setting(car, f"confidence-share-{kind}").value


def _hoses(plan: Plan) -> list[Line]:
    return [x for x in plan.car.lines.values() if x.construction is Construction.HOSE]


# Ports.


def _ports(plan: Plan, ties: dict[str, str]) -> Iterator[Cause]:
    car = plan.car
    catalogue = stock.generic().with_parts(car.parts) if car.parts else stock.generic()
    lines = {port: line for line in car.lines.values() for port in (line.from_port, line.to_port)}
    fitted = {port for fit in plan.joints.fits if fit.chain for port in fit.ports}
    for port in car.ports:
        if port.id not in lines and port.id not in fitted:
            continue
        if port.end.family is Family.SPINON and port.from_kind:
            continue  # a canister is bought to its stud
        wrong = 1.0 - _right(car, port)
        outcomes = _readings(car, catalogue, port, lines.get(port.id), wrong)
        if outcomes:
            how = _HOW.get(port.known, "").format(port.id)
            yield Cause(Kind.PORT, port.id, outcomes, how, ties.get(port.id, ""))


def _right(car: Car, port: Port) -> float:
    if port.end.is_unknown:
        return 0.0
    return setting(car, f"confidence-right-{port.known.value}").value


def _readings(
    car: Car, catalogue: Catalogue, port: Port, line: Line | None, wrong: float
) -> tuple[Outcome, ...]:
    """What the port may be instead, each as likely as the others."""
    others = [end for end in port.readings if end != port.end] or _alike(port.end)
    if not others:
        # Nothing is known to look like it: some other part, that cannot be named.
        return (Outcome(wrong, (), "some other end", is_coverable=False),)
    before = _needs(car, catalogue, port, line) or Counter()
    found = []
    for end in others:
        after = _needs(_with_end(car, port, end), catalogue, port, line)
        # Nothing that is sold may fit the other reading: then nothing can be bought ahead.
        change = () if after is None else _change(before, after)
        found.append(Outcome(wrong / len(others), change, str(end), is_coverable=after is not None))
    return tuple(found)


def _alike(end: End) -> list[End]:
    found = [
        End(other.family, other.size, end.gender, swivel=end.swivel)
        for other in lookalikes(end)
        if (other.is_same_thread or other.pitch_error < 1e-6) and other.family not in _NO_PORT
    ]
    return found[:_MOST]


def _with_end(car: Car, port: Port, end: End) -> Car:
    owner: Component = car.components[port.component]
    other = replace(port, end=end, readings=(), known=Known.READ)
    changed = replace(owner, ports={**owner.ports, port.name: other})
    return replace(car, components={**car.components, owner.id: changed})


def _needs(car: Car, catalogue: Catalogue, port: Port, line: Line | None) -> Counter[str] | None:
    """Parts and seals on one port; None where nothing that is sold fits it."""
    joints: Joints = of_line(car, line) if line is not None else fits(car, catalogue)
    at_port = [spot for spot in spots(car, joints) if port.id in spot.ports]
    return _counted(car, at_port) if at_port else None


def _counted(car: Car, found: Sequence[Spot]) -> Counter[str]:
    taken: Counter[str] = Counter()
    for want in (*parts.wants(found), *seals.wants(car, found)):
        taken[want.code] += want.count
    return taken


def _change(before: Counter[str], after: Counter[str]) -> Change:
    codes = sorted(before.keys() | after.keys())
    change = ((code, after[code] - before[code]) for code in codes)
    return tuple((code, more) for code, more in change if more)


# Hose ends.


def _angles(plan: Plan) -> Iterator[Cause]:
    courses = {course.id: course for course in plan.routes.courses}
    ends: dict[str, dict[str, Termination]] = {}
    for end in plan.joints.terminations:
        ends.setdefault(end.hose, {})[end.side] = end
    base = _trouble(plan.car, "angle")
    for run in plan.routes.runs:
        both = ends.get(run.id, {})
        if len(both) != 2 or plan.car.lines[run.line].construction is not Construction.HOSE:
            continue
        course = courses.get(run.id)
        if course is not None and course.sureness is not None and course.band:
            yield from _routed(run.id, both, course)
        else:
            nobody = {side: end for side, end in sorted(both.items()) if _is_open(end)}
            for side, end in nobody.items():
                yield from _stood_in(plan.car, f"{run.id}.{side}", end)
            held = {side: end for side, end in both.items() if side not in nobody}
            outcomes = _turned(held, base)
            if outcomes:
                how = f"mock up {run.id} with a stiff wire, or place its ports"
                yield Cause(Kind.ANGLE, run.id, outcomes, how)


def _is_open(end: Termination) -> bool:
    """Whether nobody has said an angle, so that a straight hose end stands in."""
    return end.angle is None and bool(end.angles) and _hose_end(end) is not None


def _hose_end(end: Termination) -> Part | None:
    return end.chain.hose_end if end.chain is not None else None


def _stood_in(car: Car, about: str, end: Termination) -> Iterator[Cause]:
    """The angles that an end may need of which a straight one is no more than a stand-in."""
    wrong = 1.0 - setting(car, "confidence-right-open-angle").value
    old = _hose_end(end)
    if old is None or wrong <= 0.0:
        return
    swaps = [(angle, _sold(old.code, old.angle, angle)) for angle in end.angles]
    others = [(angle, new) for angle, new in swaps if new is not None and angle != old.angle]
    usual = [(angle, new) for angle, new in others if angle <= _USUAL] or others
    outcomes = tuple(
        Outcome(wrong / len(usual), ((new, 1), (old.code, -1)), f"{angle}° at end {about[-1]}")
        for angle, new in usual
    )
    if outcomes:
        yield Cause(Kind.ANGLE, about, outcomes, f"hold up the hose end at {end.port}")


def _routed(run: str, both: dict[str, Termination], course: Route) -> Iterator[Cause]:
    """The pairs that would do where the chosen one does not, the surest first."""
    wrong = 1.0 - (course.sureness or 0.0)
    if wrong <= 0.0:
        return
    chosen = (_angle(both["A"]), _angle(both["B"]))
    others = [row for row in course.band if row.works and (row.angle_a, row.angle_b) != chosen]
    others.sort(key=lambda row: (-(row.sureness or 0.0), row.angle_a, row.angle_b))
    outcomes = _pairs(both, others[:_MOST], wrong)
    if not outcomes:
        outcomes = (Outcome(wrong, (), "no other pair of hose ends works", is_coverable=False),)
    how = course.to_be_sure or f"measure both ports of {run}"
    yield Cause(Kind.ANGLE, run, outcomes, how)


def _angle(end: Termination) -> int:
    hose_end = end.chain.hose_end if end.chain is not None else None
    return hose_end.angle if hose_end is not None else end.angle or 0


def _pairs(
    both: dict[str, Termination], rows: Sequence[BandRow], wrong: float
) -> tuple[Outcome, ...]:
    found = []
    for row in rows:
        change: Counter[str] = Counter()
        for side, angle in (("A", row.angle_a), ("B", row.angle_b)):
            swap = _swap(both[side], angle)
            if swap is None:
                break
            change.update(swap)
        else:
            needed = tuple(sorted((c, n) for c, n in change.items() if n))
            found.append((needed, f"{row.angle_a}° and {row.angle_b}°"))
    return tuple(Outcome(wrong / len(found), change, what) for change, what in found)


def _swap(end: Termination, angle: int) -> dict[str, int] | None:
    """One hose end less and another more; None where no such end is sold."""
    if end.chain is None or end.chain.hose_end is None:
        return {} if angle == (end.angle or 0) else None
    old = end.chain.hose_end
    if old.angle == angle:
        return {}
    new = _sold(old.code, old.angle, angle)
    return None if new is None else {old.code: -1, new: 1}


def _sold(code: str, old: int, new: int) -> str | None:
    """Code of the hose end that differs in its angle alone."""
    catalogue = stock.generic()
    part = catalogue.part(code)
    hose = part.ends[-1]
    for other in catalogue.hose_ends(hose.kind, hose.size):
        same = (other.shape, other.ends, other.material, other.traits)
        if other.angle == new and same == (part.shape, part.ends, part.material, part.traits):
            return other.code
    return None


def _turned(both: dict[str, Termination], wrong: float) -> tuple[Outcome, ...]:
    """Without a course: one of the two ends is the next angle up or down instead."""
    found = []
    for side, end in sorted(both.items()):
        if end.chain is None or end.chain.hose_end is None:
            continue
        old = end.chain.hose_end
        for angle in _next(end, old.angle):
            new = _sold(old.code, old.angle, angle)
            if new is not None:
                change = ((new, 1), (old.code, -1))
                found.append((change, f"{angle}° at end {side}"))
    return tuple(Outcome(wrong / len(found), change, what) for change, what in found)


def _next(end: Termination, angle: int) -> list[int]:
    angles = sorted({0, 45, 90, *end.angles})
    below = [a for a in angles if a < angle][-1:]
    return below + [a for a in angles if a > angle][:1]


# Lines as a whole.


def _lines(plan: Plan) -> Iterator[Cause]:
    car = plan.car
    ends: dict[str, dict[str, Termination]] = {}
    for end in plan.joints.terminations:
        ends.setdefault(end.line, {}).setdefault(end.side, end)
    for line in _hoses(plan):
        both = ends.get(line.id, {})
        for kind, name, what in (
            (Kind.MOVED, "moved", "another angle since a component moved"),
            (Kind.ROOM, "room", "another angle where there is room"),
        ):
            share = _trouble(car, name)
            turned = _turned(both, share)
            yield Cause(kind, line.id, turned or (Outcome(share, (), what, is_coverable=False),))
        for kind, name, what in (
            (Kind.HOSE, "hose", "another kind of hose with its ends"),
            (Kind.SIZE, "size", "another size of hose with its ends"),
        ):
            outcome = Outcome(_trouble(car, name), (), what, is_coverable=False)
            yield Cause(kind, line.id, (outcome,))


def scatter(figure: Figure | None) -> float:
    """Relative scatter of a length, one sigma, by its band.

    Parameters
    ----------
    figure : Figure or None
        A length with the bounds of its central 95 %.

    Returns
    -------
    float
        Sigma over value, 0 where no band is known. [-]
    """
    if figure is None or figure.low is None or figure.high is None or figure.value <= 0:
        return 0.0
    return (figure.high - figure.low) / (2 * 1.959964) / figure.value
