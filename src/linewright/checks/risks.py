# SPDX-License-Identifier: Apache-2.0
"""What the order still carries: ports, angles and lengths that nobody has confirmed."""

from collections.abc import Iterable, Iterator

from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car, Port, Tier
from linewright.checks.model import PortProof, Risk
from linewright.ends.notation import show
from linewright.joints.model import Joints
from linewright.routes.model import Routes
from linewright.takeoff.model import Takeoff

#: Kinds of risk in the order in which they are listed.
ORDER = (
    "port unknown",
    "port unconfirmed",
    "angle open",
    "length unknown",
    "length guessed",
    "take-up unknown",
    "special order",
    "overruled stop",
)


def risks(
    car: Car,
    joints: Joints,
    routes: Routes,
    takeoff: Takeoff,
    proof: Iterable[PortProof],
    findings: Iterable[Finding],
) -> tuple[Risk, ...]:
    """List the risks, by kind, those that most rows hang on first.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints, routes, takeoff
        What the stages made of it.
    proof : Iterable of PortProof
        How each port is answered.
    findings : Iterable of Finding
        All findings, overruled ones marked.

    Returns
    -------
    tuple of Risk
        Each with the number of rows of the parts list that hang on it.
    """
    found = [
        *_ports(car, joints, takeoff, proof),
        *_angles(joints, takeoff),
        *_lengths(routes, takeoff),
        *_special(takeoff),
        *_overruled(findings),
    ]
    return tuple(
        sorted(
            found,
            key=lambda r: (ORDER.index(r.kind), -r.parts, natural_key(" ".join(r.about))),
        )
    )


def _rows(takeoff: Takeoff, ids: Iterable[str]) -> int:
    """Rows of the parts list and of the hose list that one of these ids asks for."""
    wanted = tuple(ids)

    def hangs(because: Iterable[str]) -> bool:
        return any(b == i or b.startswith(f"{i}.") for b in because for i in wanted)

    # Caps and tags are lost with a wrong port, but nobody orders twice for them.
    rows = [r for r in takeoff.rows if r.group != "sundries"]
    return sum(hangs(r.because) for r in rows) + sum(hangs(h.because) for h in takeoff.hoses)


def _ids_at(port: str, joints: Joints) -> tuple[str, ...]:
    """The ids under which the parts at a port are counted."""
    ends = [f"{t.hose}.{t.side}" for t in joints.terminations if t.port == port]
    fits = [fit.ports[0] for fit in joints.fits if port in fit.ports]
    return (port, *ends, *fits)


def _ports(
    car: Car, joints: Joints, takeoff: Takeoff, proof: Iterable[PortProof]
) -> Iterator[Risk]:
    for row in proof:
        port = None if row.is_function else car.port(row.id)
        if port is None or row.state in ("none", "open", "missing"):
            continue
        parts = _rows(takeoff, _ids_at(port.id, joints))
        if port.end.is_unknown:
            if row.state in ("capped", "plugged"):
                continue
            yield Risk(
                "port unknown",
                (port.id,),
                _readings(port) or f"{port.id} is not measured: nothing is ordered for it.",
                "Measure it before the order goes out, or order for each reading"
                f"{_either(port, takeoff)}.",
                parts,
            )
        elif not port.known.is_confirmed and parts:
            yield Risk(
                "port unconfirmed",
                (port.id,),
                f"{port.id} ({show(port.end)}) is known only as {port.known.value!r}.",
                "Read its marking, or try a fitting that is known, and say so under `known`.",
                parts,
            )


def _either(port: Port, takeoff: Takeoff) -> str:
    """What covers every reading, with its index price (a straight -6 hose end = 1)."""
    for either in takeoff.either:
        if either.port == port.id:
            parts = ", ".join(f"{row.order} × {row.name}" for row in either.rows)
            return f": {parts}; index price {either.price_index:.1f}"
    return ""


def _readings(port: Port) -> str:
    if not port.readings:
        return ""
    may = " or ".join(show(end) for end in port.readings)
    return f"{port.id} may be {may}: nothing is ordered for it."


def _angles(joints: Joints, takeoff: Takeoff) -> Iterator[Risk]:
    for end in joints.terminations:
        if end.angle is not None or not end.angles:
            continue
        may = ", ".join("straight" if a == 0 else f"{a}°" for a in end.angles)
        yield Risk(
            "angle open",
            (f"{end.hose}.{end.side}",),
            f"The hose end at {end.port} may be {may}; a straight one stands in.",
            "Hold a hose end up to the port and type the angle.",
            _rows(takeoff, (f"{end.hose}.{end.side}",)),
        )


def _lengths(routes: Routes, takeoff: Takeoff) -> Iterator[Risk]:
    for run in routes.runs:
        parts = _rows(takeoff, (run.id,))
        if run.string is None:
            yield Risk(
                "length unknown",
                (run.id,),
                f"{run.id} has no length: no hose is reckoned for it.",
                "Lay a string along its way.",
                parts,
            )
            continue
        if run.tier is Tier.GUESS:
            shared = run.string.basis.startswith("an even share")
            yield Risk(
                "length guessed",
                (run.id,),
                f"The length of {run.id} is {run.string.basis if shared else 'guessed'}.",
                "Measure to the panel and type `passes-at`."
                if shared
                else "Lay a string along its way.",
                parts,
            )
        if run.cut is None and "take-up" in run.cut_note:
            yield Risk(
                "take-up unknown",
                (run.id,),
                f"{run.id}: {run.cut_note}.",
                "Cut it in place; the length to buy does not rest on it.",
                parts,
            )


def _special(takeoff: Takeoff) -> Iterator[Risk]:
    for row in takeoff.rows:
        if row.availability == "special":
            yield Risk(
                "special order",
                tuple(row.because),
                f"{row.name} is a special order.",
                "Order it first: it decides when the line can be made.",
                1,
            )


def _overruled(findings: Iterable[Finding]) -> Iterator[Risk]:
    for finding in findings:
        if finding.overruled is not None and finding.severity is Severity.STOP:
            yield Risk(
                "overruled stop",
                finding.about,
                finding.reason,
                f"Overruled: {finding.overruled.reason}",
            )
