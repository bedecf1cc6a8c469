# SPDX-License-Identifier: Apache-2.0
"""How sure a pair of hose ends is while the ports are only known so well.

Places and directions of both ports are drawn within their spread, and each pair is asked
whether it still works there. The pair is chosen on one set of draws and its share is counted
on another: a share counted on draws that chose it would flatter it.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from math import degrees, radians, sqrt
from typing import TYPE_CHECKING

from linewright.base.draws import stream
from linewright.base.evidence import Placed
from linewright.base.finding import Finding
from linewright.base.vectors import Vector, ahead, cross, dot, turned_about, unit
from linewright.proofs.found import found, mm
from linewright.routes.route import BandRow, Route
from linewright.space.model import Frame
from linewright.tables.practice import setting

if TYPE_CHECKING:
    import numpy as np

#: Angles of the hose ends at A and B. [deg]
Pair = tuple[int, int]

#: Which pairs work between two frames.
Ask = Callable[[Frame, Frame], Collection[Pair]]


@dataclass(frozen=True, slots=True)
class Port:
    """A port as it is known: its id, its component and its frame."""

    id: str
    frame: Frame

    @property
    def component(self) -> str:
        """What it is on."""
        return self.id.partition(".")[0]


@dataclass(frozen=True, slots=True)
class Cure:
    """What would make a pair surer: a measurement or a second pair, and the share then. [-]"""

    text: str
    share: float


@dataclass(frozen=True, slots=True)
class Sureness:
    """What came of the draws.

    ``shares`` are counted on draws of their own; ``chosen`` is the pair to take, ``share`` its
    share. ``cures`` are what would make it surer, best first, empty where it is sure enough.
    """

    chosen: Pair
    share: float
    shares: Mapping[Pair, float]
    cures: tuple[Cure, ...] = ()

    @property
    def to_be_sure(self) -> str:
        """The cures in words, "" for none."""
        return "; or ".join(f"{cure.text} (then {cure.share:.0%})" for cure in self.cures)


def scattered(port: Port, draw: "np.random.Generator", shared: Vector = (0, 0, 0)) -> Frame:
    """A port where it may be too.

    Parameters
    ----------
    port : Port
        As it is known.
    draw : numpy.random.Generator
        Its stream; five numbers are taken from it.
    shared : Vector
        How far its component is off, which moves its other ports alike. [m]

    Returns
    -------
    Frame
        Moved, and tilted square to the way it points.
    """
    frame = port.frame
    x, y, z, u, v = (float(each) for each in draw.normal(size=5))
    moved = tuple(
        o + s + frame.spread * n for o, s, n in zip(frame.origin, shared, (x, y, z), strict=True)
    )
    out = unit(frame.out)
    side = unit(ahead(frame.side, out, -dot(frame.side, out)))
    axis = (
        u * side[0] + v * cross(out, side)[0],
        u * side[1] + v * cross(out, side)[1],
        u * side[2] + v * cross(out, side)[2],
    )
    angle = frame.tilt * sqrt(dot(axis, axis))
    origin = (moved[0], moved[1], moved[2])
    if not angle > 0.0:
        return replace(frame, origin=origin)
    about = unit(axis)
    return replace(
        frame,
        origin=origin,
        out=turned_about(about, angle, out),
        side=turned_about(about, angle, side),
    )


def frames(seed: int, use: str, a: Port, b: Port, count: int) -> list[tuple[Frame, Frame]]:
    """Draw both ports so often.

    Parameters
    ----------
    seed : int
        Of the document.
    use : str
        What the draws are for; other uses get other draws.
    a, b : Port
        The ports as they are known.
    count : int
        How often. [-]

    Returns
    -------
    list of tuple of Frame
        Ports of one component share how far it is off by half of the variance of each; the
        other half is each one's own scatter.
    """
    streams = {p.id: stream(seed, use, "port", p.id) for p in (a, b)}
    if a.component != b.component:
        return [(scattered(a, streams[a.id]), scattered(b, streams[b.id])) for _ in range(count)]
    body = stream(seed, use, "component", a.component)
    half = sqrt(0.5)
    own = [replace(p, frame=replace(p.frame, spread=half * p.frame.spread)) for p in (a, b)]
    drawn = []
    for _ in range(count):
        shift = [float(each) for each in body.normal(size=3)]
        pair = []
        for port, whole in zip(own, (a, b), strict=True):
            far = half * whole.frame.spread
            off = (far * shift[0], far * shift[1], far * shift[2])
            pair.append(scattered(port, streams[port.id], off))
        drawn.append((pair[0], pair[1]))
    return drawn


def shares(
    pairs: Sequence[Pair], drawn: Sequence[tuple[Frame, Frame]], ask: Ask
) -> tuple[dict[Pair, float], list[frozenset[Pair]]]:
    """Share of draws in which each pair works, and which worked in each draw.

    Parameters
    ----------
    pairs : sequence of tuple
        Pairs that are asked about.
    drawn : sequence of tuple of Frame
        Draws of both ports.
    ask : callable
        Which pairs work between two frames.

    Returns
    -------
    tuple
        Shares by pair [-], and the pairs of each draw.
    """
    worked = [frozenset(ask(a, b)) for a, b in drawn]
    count = max(1, len(worked))
    return {pair: sum(pair in each for each in worked) / count for pair in pairs}, worked


def chosen(band: Sequence[BandRow], share: Mapping[Pair, float], count: int) -> Pair | None:
    """The pair that survives most; among those that draws cannot tell apart, the cheapest.

    Parameters
    ----------
    band : sequence of BandRow
        All pairs; only those that work where the ports were typed may be chosen.
    share : mapping of tuple to float
        Share of draws in which each works. [-]
    count : int
        How many draws. [-]

    Returns
    -------
    tuple or None
        Angles; None where no pair works.

    Examples
    --------
    >>> rows = [BandRow(0, 0, True, cost=1.0), BandRow(90, 90, True, cost=2.0)]
    >>> chosen(rows, {(0, 0): 0.60, (90, 90): 0.97}, 100)
    (90, 90)
    >>> chosen(rows, {(0, 0): 0.96, (90, 90): 0.97}, 100)
    (0, 0)
    """
    rows = [row for row in band if row.works]
    if not rows:
        return None
    best = max(share.get((row.angle_a, row.angle_b), 0.0) for row in rows)
    # Twice the standard error of the best share is what so many draws can tell.
    doubt = 2.0 * sqrt(max(best * (1.0 - best), 1.0 / max(count, 1)) / max(count, 1))
    near = [row for row in rows if share.get((row.angle_a, row.angle_b), 0.0) >= best - doubt]
    row = min(
        near,
        key=lambda r: (r.cost if r.cost is not None else float("inf"), r.angle_a, r.angle_b),
    )
    return row.angle_a, row.angle_b


def survey(
    band: Sequence[BandRow],
    a: Port,
    b: Port,
    ask: Ask,
    *,
    seed: int = 1,
    count: int = 100,
    enough: float = 0.9,
    is_fixed: bool = False,
) -> Sureness | None:
    """Choose the pair of hose ends that survives most, and say how to be sure of it.

    Parameters
    ----------
    band : sequence of BandRow
        All pairs of ends where the ports were typed, with their cost.
    a, b : Port
        The ports as they are known.
    ask : callable
        Which pairs work between two frames.
    seed : int
        Of the document.
    count : int
        Draws for the choice, and as many again to count. [-]
    enough : float
        Share above which nothing more is asked. [-]
    is_fixed : bool
        Whether the builder typed the pair: the cheapest that works is kept then.

    Returns
    -------
    Sureness or None
        None where no pair works.
    """
    pairs = [(row.angle_a, row.angle_b) for row in band if row.works]
    if not pairs:
        return None
    if is_fixed or len(pairs) == 1:
        pick = chosen(band, {}, count)
    else:
        choosing, _ = shares(pairs, frames(seed, "choose", a, b, count), ask)
        pick = chosen(band, choosing, count)
    assert pick is not None
    share, worked = shares(pairs, frames(seed, "count", a, b, count), ask)
    told = Sureness(pick, share[pick], share)
    if share[pick] >= enough:
        return told
    cures = [_measured(pick, a, b, ask, seed, count), _both(pick, pairs, worked)]
    better = [cure for cure in cures if cure is not None and cure.share > share[pick]]
    return replace(told, cures=tuple(sorted(better, key=lambda c: (-c.share, c.text))))


def _measured(pick: Pair, a: Port, b: Port, ask: Ask, seed: int, count: int) -> Cure | None:
    """The one measurement that helps most: a tape on a port, or the way that it points."""
    spread = setting(f"place-spread-{Placed.TAPED}").value
    tilt = radians(setting(f"tilt-spread-{Placed.TAPED}").value)
    tried: list[Cure] = []
    for side, port in ((0, a), (1, b)):
        for what, known in (
            (
                f"measure the direction of {port.id} to {degrees(tilt):.0f}°",
                replace(port.frame, tilt=min(tilt, port.frame.tilt)),
            ),
            (
                f"measure the place of {port.id} to {mm(spread)}",
                replace(port.frame, spread=min(spread, port.frame.spread)),
            ),
        ):
            if known == port.frame:
                continue
            ports = [a, b]
            ports[side] = Port(port.id, known)
            drawn = frames(seed, "count", ports[0], ports[1], count)
            tried.append(Cure(what, shares([pick], drawn, ask)[0][pick]))
    return min(tried, key=lambda cure: (-cure.share, cure.text), default=None)


def _both(pick: Pair, pairs: Sequence[Pair], worked: Sequence[frozenset[Pair]]) -> Cure | None:
    """The second pair that covers most of what the first does not."""
    covers = [
        (sum(bool(each & {pick, other}) for each in worked) / max(1, len(worked)), other)
        for other in pairs
        if other != pick
    ]
    if not covers:
        return None
    share, other = min(covers, key=lambda each: (-each[0], each[1]))
    return Cure(f"order {said(pick)} and {said(other)}", share)


def said(pair: Pair) -> str:
    """A pair of hose ends in words.

    Parameters
    ----------
    pair : tuple of int
        Angles at A and B. [deg]

    Returns
    -------
    str
        As builders say it.

    Examples
    --------
    >>> said((0, 90))
    'straight/90°'
    """
    return "/".join("straight" if angle == 0 else f"{angle}°" for angle in pair)


def sure(route: Route, told: Sureness) -> Route:
    """Write on a route how sure its pair of hose ends is.

    Parameters
    ----------
    route : Route
        A hose in space.
    told : Sureness
        What came of its draws.

    Returns
    -------
    Route
        With the share of every pair of its band that works, its own, and what to measure.
    """
    band = tuple(
        replace(row, sureness=told.shares.get((row.angle_a, row.angle_b))) for row in route.band
    )
    own = told.shares.get((route.a.shape.angle, route.b.shape.angle))
    return replace(route, band=band, sureness=own, to_be_sure=told.to_be_sure)


def unsure(
    hose: str, told: Sureness, system: str | None = None, enough: float = 0.9
) -> tuple[Finding, ...]:
    """Say that another pair of hose ends may be needed.

    Parameters
    ----------
    hose : str
        Whose ends they are.
    told : Sureness
        What came of the draws.
    system : str or None
        Its system.
    enough : float
        Share above which nothing is said. [-]

    Returns
    -------
    tuple of Finding
        None, or one ``unsure-ends``.
    """
    if told.share >= enough:
        return ()
    way_out = told.to_be_sure or "measure the place and direction of both ports"
    return (
        found(
            "unsure-ends",
            (hose,),
            f"{hose}: hose ends {said(told.chosen)} work in {told.share:.0%} of where its ports "
            f"may be, as far as they are known.",
            f"{way_out[0].upper()}{way_out[1:]}.",
            system=system,
            value=f"{told.share:.0%}",
            limit=f"{enough:.0%}",
            measure=1.0 - told.share,
        ),
    )
