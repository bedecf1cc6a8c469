# SPDX-License-Identifier: Apache-2.0
"""Pieces of lines as links: true bores, steps, hose ends, arcs, and what is fitted in them."""

from collections.abc import Sequence

from linewright.base.dimensions import INCH
from linewright.base.evidence import Figure, Grade
from linewright.car.model import Construction
from linewright.flow.draft import Draft
from linewright.flow.fittings import Coefficient, hose_end, steps, total
from linewright.flow.network import Check, Line, Orifice
from linewright.flow.spread import of_bores
from linewright.flow.waterway import Stretch, Waterway
from linewright.routes.model import Run
from linewright.tables import hoses
from linewright.tables.fluids import loss, roughness_of

#: Drop of smooth turbulent flow goes as the length over this power of the bore (Blasius).
_BLASIUS = 4.75
#: Least length of hose that is reckoned with. [m]
_SHORTEST = 0.01


def tube_bore(draft: Draft, run: Run) -> Figure | None:
    """Return the bore of hard tube by its dash and a usual wall.

    Parameters
    ----------
    draft : Draft
        Takes a note of it.
    run : Run
        The piece.

    Returns
    -------
    Figure or None
        None for what is no tube. [m]
    """
    line = draft.car.lines[run.line]
    if line.construction is not Construction.TUBE or not run.size.startswith("-"):
        return None
    wall = draft.ledger.default(run.line, "tube-wall")
    outside = int(run.size[1:]) / 16.0 * INCH
    bounds = [outside - 2.0 * (w or wall.value) for w in (wall.high, wall.low)]
    return Figure(outside - 2.0 * wall.value, "m", Grade.PRACTICE, "tube less its wall", *bounds)


def loss_of(stretches: Sequence[Stretch], bore: float) -> Coefficient:
    """Return the loss of what stands beside the hose, on its bore.

    Parameters
    ----------
    stretches : Sequence of Stretch
        All stretches of a way, in order.
    bore : float
        Of the hose. [m]

    Returns
    -------
    Coefficient
        Steps of bore, bends of hose ends and elbows, banjos, screens.
    """
    plain = [s for s in stretches if s.what not in ("jet", "check valve")]
    parts = [steps([s.bore.value for s in plain], bore)]
    for stretch in plain:
        at = stretch.bore.value
        if stretch.what in ("hose end", "elbow"):
            parts.append(hose_end(stretch.angle, at, is_forged=stretch.what == "elbow"))
        elif stretch.what == "banjo":
            parts.append(Coefficient(loss("banjo").value, 500.0, at))
        elif stretch.what == "adaptor":
            parts.append(Coefficient(loss("union").value, 0.0, at))
    return total(parts, bore)


def equivalent(stretches: Sequence[Stretch], bore: float) -> float:
    """Return the length of hose that loses what the bores beside it lose by friction.

    Parameters
    ----------
    stretches : Sequence of Stretch
        All stretches of a way.
    bore : float
        Of the hose. [m]

    Returns
    -------
    float
        Besides the hose itself. [m]
    """
    return float(
        sum(
            s.length * (bore / s.bore.value) ** _BLASIUS
            for s in stretches
            if s.what not in ("hose", "jet", "check valve", "port")
        )
    )


def roughness(draft: Draft, run: Run) -> Figure:
    """Return the roughness inside a piece. [m]

    Parameters
    ----------
    draft : Draft
        The network that is drawn up.
    run : Run
        The piece.

    Returns
    -------
    Figure
        The roughness inside a piece. [m]
    """
    try:
        return roughness_of(hoses.family(draft.car.lines[run.line].hose).liner)
    except LookupError:
        return roughness_of("rubber")


def lay(draft: Draft, way: Waterway, run: Run) -> None:
    """Add a piece of a line to a network, from its port A to its port B.

    Parameters
    ----------
    draft : Draft
        The network.
    way : Waterway
        Its bores from port to port.
    run : Run
        The piece, named as the link.
    """
    hose = way.hose
    bore = hose.bore.value
    length = max(_SHORTEST, hose.length)
    arc = min(sum(a for a, _ in hose.arcs), 0.98 * length)
    radius = 0.0
    if arc > 0.0:
        radius = arc / sum(a / r for a, r in hose.arcs) if hose.arcs else 0.0
    found = draft.losses.get(run.id)
    if found is None:
        found = loss_of(way.stretches, bore), equivalent(way.stretches, bore)
        draft.losses[run.id] = found
    lost, beside = found
    a, b = run.ends[0].port, run.ends[1].port
    before = [s for s in way.stretches if s.what in ("jet", "check valve")]
    place = way.stretches.index(hose)
    for stretch in before:
        is_first = way.stretches.index(stretch) < place
        middle = f"{run.id}:{stretch.what}"
        ends = (a, middle) if is_first else (middle, b)
        _fitted(draft, run, stretch, ends, bore)
        if is_first:
            a = middle
        else:
            b = middle
    draft.join(
        Line(
            run.id,
            a,
            b,
            length + beside,
            bore,
            roughness(draft, run).value,
            lost.k,
            lost.laminar,
            arc,
            radius if arc > 0.0 else 0.0,
        ),
        run.line,
        run.id,
    )
    draft.drawn.add(run.id)
    made = of_bores(hose.bores or (hose.bore,), run.id)
    draft.marks[run.id] = f"bore {run.size} {run.hose}"
    draft.bores[f"spread {run.id}"] = (made.low, made.high)
    for port in (e.port for e in run.ends):
        at = next((s.bore.value for s in way.stretches if s.where == (port,)), bore)
        draft.bores.setdefault(draft.node(port), (at, bore))
        draft.bores.setdefault(port, (at, bore))


def _fitted(draft: Draft, run: Run, stretch: Stretch, ends: tuple[str, str], bore: float) -> None:
    name = f"{run.id}:{stretch.what}:link"
    where = (run.line, *stretch.where)
    at = stretch.bore.value
    if stretch.what == "jet":
        rounded, slow = loss("hole-rounded"), loss("hole-slow")
        ratio = min(0.95, at / bore)
        draft.join(Orifice(name, *ends, at, rounded.value, ratio, slow.value), *where)
        return
    k = draft.ledger.default(run.line, "check-valve-loss").value
    opens = draft.ledger.default(run.line, "check-valve-opens").value
    draft.join(Check(name, *ends, 0.0, inertial(k, at), opens), *where)


def inertial(k: float, bore: float) -> float:
    """Return a loss coefficient on a bore as the inertial number of a loss. [1/m4]

    Parameters
    ----------
    k : float
        Coefficient. [-]
    bore : float
        That it is on. [m]

    Returns
    -------
    float
        Times half the density and the flow squared it is the drop. [1/m4]

    Examples
    --------
    >>> round(inertial(1.0, 0.01) / 1e6)
    162
    """
    return float(k * 16.0 / (9.869604401089358 * bore**4))
