# SPDX-License-Identifier: Apache-2.0
"""Lengths of every piece: what to reckon for the order, and what to cut.

Two figures that are never mixed. To buy, nothing is taken off the string and there is
something to spare; to cut, what the adaptors and the hose ends take up comes off.
"""

from collections.abc import Iterable
from math import hypot

from linewright.base.evidence import Figure, Grade, weakest
from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car, Construction, Line, Tier
from linewright.joints import moulded
from linewright.joints.model import Joints, Termination
from linewright.joints.offered import setting
from linewright.routes import clips
from linewright.routes.along import Along, along, differs, led
from linewright.routes.model import By, Routes, Run
from linewright.routes.pieces import Piece, by_hose, cut_up
from linewright.routes.route import Route
from linewright.routes.shapes import moulded_run
from linewright.routes.strings import copied, long, short
from linewright.routes.taut import taut
from linewright.routes.tiers import band, length, sigma_of
from linewright.space import moving
from linewright.space.misplaced import misplaced
from linewright.tables import hoses

#: Constructions whose length is not cut with slack: they are bent, not hung.
_STIFF = (Construction.TUBE, Construction.PIPE)


def lay(car: Car, joints: Joints, courses: Iterable[Route] = ()) -> Routes:
    """Lengths of every line, as far as the document and its courses know them.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        What stands at both ends of every piece of hose.
    courses : iterable of Route
        Those that are laid in space.

    Returns
    -------
    Routes
        One run for each piece, in the order of their ids, with the findings on lengths.
    """
    ends = by_hose(joints)
    routes = {route.id: route for route in courses}
    runs: list[Run] = []
    findings: list[Finding] = []
    for line in sorted(car.lines.values(), key=lambda line: natural_key(line.id)):
        whole = length(car, line)
        pieces = cut_up(car, line, whole, ends.get(line.id, {}))
        laid = {
            piece.id: along(car, whole, routes[piece.id], piece.ends)
            for piece in pieces
            if piece.id in routes and not piece.is_one_shape
        }
        found = [
            short(car, line, whole, needs_length=not pieces[0].is_one_shape),
            long(car, line),
        ]
        faces = [each.face for each in laid.values()] if len(laid) == len(pieces) else []
        found.append(apart := differs(line, whole, faces))
        every = len(laid) == len(pieces)
        hoses_laid = [(routes[p], laid[p]) for p in laid] if every else []
        both = (pieces[0].ends[0], pieces[-1].ends[1])
        tight = taut(car, line, whole, hoses_laid, both)
        if tight is not None and (apart is None or tight.severity is not Severity.NOTE):
            found.append(tight)
        findings.extend(each for each in found if each)
        for piece in led(car, whole, pieces, laid):
            # A course that the string does not bear out says nothing of clips either.
            held = None if apart is not None else routes.get(piece.id)
            runs.append(_run(car, piece, laid.get(piece.id), held, apart))
    findings.extend(copied(car))
    findings.extend(misplaced(car))
    return Routes(
        tuple(sorted(runs, key=lambda run: natural_key(run.id))),
        tuple(findings),
        tuple(routes[name] for name in sorted(routes, key=natural_key)),
    )


def _run(
    car: Car, piece: Piece, laid: Along | None, route: Route | None, apart: Finding | None
) -> Run:
    line = piece.line
    slack = 0.0 if line.construction in _STIFF else setting(car, "slack").value
    between = clips.spacing(car, line)
    assembly, cut, note = _to_cut(car, piece, slack, laid)
    return Run(
        id=piece.id,
        line=line.id,
        system=line.system,
        ends=piece.ends,
        size=line.size,
        hose=line.hose,
        tier=piece.tier,
        string=piece.string,
        straight=piece.straight,
        buy=_to_buy(car, piece, slack, laid.face if laid is not None and apart else None),
        assembly=assembly,
        cut=cut,
        cut_note=note,
        slack=slack,
        crosses=piece.crosses,
        clips=_clips(car, piece, between) if route is None else len(route.clips),
        clip_spacing=between,
        by=piece.by,
        course=laid.face if laid is not None else None,
    )


def _clips(car: Car, piece: Piece, between: float) -> int:
    if piece.string is None or piece.is_one_shape:
        return 0
    # Clamped hose is counted by its joints, and a pipe in its chain wants its clip as well.
    if piece.line.construction is not Construction.CLAMPED:
        free = piece.string.value - sum(_stick_out(end)[0] for end in piece.ends)
        if free < setting(car, "clip-least").value:
            return 0  # its own ends hold it; there is no room for a clip
    return clips.count(piece.string.value, between, piece.line)


def _to_buy(car: Car, piece: Piece, slack: float, other: Figure | None) -> Figure | None:
    """Length to reckon for the order: nothing taken off, something to spare.

    ``other`` is the course where it and the string contradict each other: until that is
    settled the longer of the two is bought, for hose can be cut and not stretched.
    """
    string = piece.string
    if string is None or piece.is_one_shape:
        return None
    is_known = piece.tier is Tier.MOCKED_UP  # held in place already: no course knows better
    is_other = other is not None and not is_known and other.value > string.value
    string = other if other is not None and is_other else string
    line = piece.line
    stretch = slack if line.construction not in _STIFF else setting(car, "tube-extra").value
    extras = [setting(car, "cut-allowance")]
    if piece.crosses and line.construction not in _STIFF:
        extras.append(moving.slack(car, line))
    # A thin reference hose is pushed over short barbs, which the cut allowance covers.
    is_thin = line.service == "reference"
    if line.construction is Construction.CLAMPED and not is_thin:
        extras += [setting(car, "clamp-grip")] * 2
    elif _is_to_collars(piece):
        extras += [setting(car, "socket-depth")] * 2
    # A moulded elbow and its joiner are parts, not hose.
    runs = (moulded_run(car, end.chain) for end in piece.ends)
    hose = max(0.0, string.value - sum(run for run in runs if run is not None))
    value = hose * (1 + stretch) + sum(extra.value for extra in extras)
    low, high = band(value, sigma_of(string) * (1 + stretch))
    grade = weakest([string.grade, *(extra.grade for extra in extras)])
    what = "course" if piece.by is By.COURSE or is_other else "string"
    basis = f"{what} with slack, movement and two clean cuts"
    return Figure(value, "m", grade, basis, low, high)


def _is_to_collars(piece: Piece) -> bool:
    """Whether the length was taped from collar to collar."""
    line = piece.line
    return piece.by is not By.COURSE and line.string_from == "collar" and line.string is not None


def _to_cut(
    car: Car, piece: Piece, slack: float, laid: Along | None
) -> tuple[Figure | None, Figure | None, str]:
    """Assembly length, cut length, and what to know before the shears close."""
    line, string = piece.line, piece.string
    if piece.is_one_shape:
        return None, None, "no hose to cut: one moulded shape, its legs trimmed in place"
    if line.construction is Construction.TUBE:
        return None, None, "cut after bending: mark at the trial fit, then flare"
    if line.construction is Construction.PIPE:
        return None, None, "cut at the trial fit, bead both ends"
    if line.construction is Construction.CLAMPED or line.service == "reference":
        is_moulded = any(moulded.elbow_of(end.chain) is not None for end in piece.ends)
        where = "from joiner or spigot to the other" if is_moulded else "along both spigots"
        return None, None, f"cut in place: hold it {where}, up to the stop"
    if string is None:
        return None, None, "cut in place: no length known"
    if _is_to_collars(piece):
        return (
            None,
            None,
            ("cut in place: the string runs collar to collar; add what goes into each socket"),
        )
    movement = moving.slack(car, line) if piece.crosses else None
    if piece.by is By.COURSE and laid is not None:
        taut, sigma, what = laid.taut.value, sigma_of(laid.taut), "course"
        grades = [laid.taut.grade, setting(car, "slack").grade]
    else:
        stick_outs = [_stick_out(end) for end in piece.ends]
        taut = string.value - sum(s for s, _ in stick_outs)
        if any(end.chain is None for end in piece.ends) or taut <= 0:
            return None, None, _why_not(piece, taut)
        sigma = hypot(sigma_of(string), *(_sigma(s) for s in stick_outs))
        grades = [string.grade, setting(car, "slack").grade, *(g for s, g in stick_outs if s > 0)]
        what = "string less stick-outs"
    sigma *= 1 + slack
    value = taut * (1 + slack) + (movement.value if movement else 0.0)
    low, high = band(value, sigma)
    basis = f"{what}, with slack" + (" and movement" if movement else "")
    assembly = Figure(value, "m", weakest(grades), basis, low, high)
    taken = [_take_up(end, line) for end in piece.ends]
    if missing := [why for _, why in taken if why]:
        return assembly, None, "cut in place: " + "; ".join(dict.fromkeys(missing))
    figures = [figure for figure, _ in taken if figure is not None]
    off = sum(figure.value for figure in figures)
    cut_low, cut_high = band(value - off, sigma)
    cut = Figure(
        value - off,
        "m",
        weakest([*grades, *(figure.grade for figure in figures)]),
        basis + ", less take-ups",
        cut_low,
        cut_high,
    )
    return assembly, cut, _note(piece)


def _stick_out(end: Termination) -> tuple[float, Grade]:
    """Length of path that the adaptors take up between port face and hose end [m]."""
    parts = end.chain.adaptors if end.chain else ()
    grades = [dict(part.grades).get("legs", Grade.PRACTICE) for part in parts]
    return sum(sum(part.legs) for part in parts), weakest(grades)


def _sigma(stick_out: tuple[float, Grade]) -> float:
    # A length that was read is good to its rounding; one of the trade's practice is
    # taken as good to a tenth of itself (an estimate of our own, no source).
    value, grade = stick_out
    return 0.0 if grade is Grade.READ else 0.1 * value


def _take_up(end: Termination, line: Line) -> tuple[Figure | None, str]:
    """Take-up of one hose end, or why it is not known."""
    hose_end = end.chain.hose_end if end.chain else None
    if hose_end is None:
        return None, f"nothing chosen at end {end.side}"
    if end.angle is None:
        return None, f"the angle at end {end.side} is open"
    family = hoses.family(line.hose)
    figure = hoses.take_up(family.ends, line.size, hose_end.angle)
    if figure is None:
        return None, f"take-up of a {hose_end.angle}° {family.ends} end is not in the data"
    return figure, ""


def _why_not(piece: Piece, taut: float) -> str:
    open_ends = [end.side for end in piece.ends if end.chain is None]
    if open_ends:
        return "cut in place: nothing chosen at end " + " and ".join(open_ends)
    return f"cut in place: the adaptors alone stand out {-taut * 1000:.0f} mm more than the string"


def _note(piece: Piece) -> str:
    if piece.is_shared_out:
        return "cut in place: where the panel is along the line is not known"
    if piece.tier.value == "mocked-up":
        return "mocked up: cut to the figure"
    return "check in place before the second cut"
