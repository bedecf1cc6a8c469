# SPDX-License-Identifier: Apache-2.0
"""What the order still carries: ports, angles and lengths that nobody has confirmed."""

from collections.abc import Iterable, Iterator

from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car, Port, Tier
from linewright.checks.model import PortProof, Risk
from linewright.ends.notation import show
from linewright.joints.model import Joints, Termination
from linewright.routes.model import Routes
from linewright.takeoff.model import Takeoff

#: Kinds of risk in the order in which they are listed.
ORDER = (
    "port unknown",
    "port unconfirmed",
    "angle open",
    "angle unsure",
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
    rows = _Rows(takeoff)
    found = [
        *_ports(car, joints, takeoff, rows, proof),
        *_angles(joints, rows),
        *_lengths(routes, rows),
        *_special(takeoff),
        *_overruled(findings),
    ]
    return tuple(
        sorted(
            found,
            key=lambda r: (ORDER.index(r.kind), -r.parts, natural_key(" ".join(r.about))),
        )
    )


class _Rows:
    """Rows of the parts and hose lists by the ids that ask for them, whole or in part."""

    def __init__(self, takeoff: Takeoff) -> None:
        self._by_id: dict[str, set[int]] = {}
        # Caps and tags are lost with a wrong port, but nobody orders twice for them.
        rows = [r.because for r in takeoff.rows if r.group != "sundries"]
        for number, because in enumerate((*rows, *(h.because for h in takeoff.hoses))):
            for each in because:
                words = each.split(".")
                for count in range(1, len(words) + 1):
                    self._by_id.setdefault(".".join(words[:count]), set()).add(number)

    def count(self, ids: Iterable[str]) -> int:
        """Rows that hang on one of these ids."""
        return len(set().union(*(self._by_id.get(i, ()) for i in ids)))


def _ids_at(port: str, joints: Joints) -> tuple[str, ...]:
    """The ids under which the parts at a port are counted."""
    ends = [f"{t.hose}.{t.side}" for t in joints.terminations if t.port == port]
    fits = [fit.ports[0] for fit in joints.fits if port in fit.ports]
    return (port, *ends, *fits)


def _ports(
    car: Car, joints: Joints, takeoff: Takeoff, rows: _Rows, proof: Iterable[PortProof]
) -> Iterator[Risk]:
    for row in proof:
        port = None if row.is_function else car.port(row.id)
        if port is None or row.state in ("none", "open", "missing"):
            continue
        parts = rows.count(_ids_at(port.id, joints))
        if port.end.is_unknown:
            if row.state in ("capped", "plugged"):
                continue
            yield Risk(
                "port unknown",
                (port.id,),
                _readings(port) or f"{port.id} is not measured: nothing is ordered for it.",
                f"Measure it before the order goes out{_either(port, takeoff)}.",
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
            price = f"index price {either.price_index:.1f}"
            return f", or order for each reading: {parts}; {price}"
    return ", or order for each reading" if port.readings else ""


def _readings(port: Port) -> str:
    if not port.readings:
        return ""
    may = " or ".join(show(end) for end in port.readings)
    return f"{port.id} may be {may}: nothing is ordered for it."


def _angles(joints: Joints, rows: _Rows) -> Iterator[Risk]:
    for end in joints.terminations:
        if end.is_routed and not end.is_sure:
            yield _unsure(end, rows)
        if end.angle is not None or not end.angles:
            continue
        may = ", ".join("straight" if a == 0 else f"{a}°" for a in end.angles)
        yield Risk(
            "angle open",
            (f"{end.hose}.{end.side}",),
            f"The hose end at {end.port} may be {may}; a straight one stands in.",
            "Hold a hose end up to the port and type the angle.",
            rows.count((f"{end.hose}.{end.side}",)),
        )


def _unsure(end: Termination, rows: _Rows) -> Risk:
    word = "straight" if end.angle == 0 else f"{end.angle}°"
    share = (
        "how sure that is was not reckoned"
        if end.sureness is None
        else f"it works for {end.sureness:.0%} of the places that the ports may have"
    ).replace("%", " %")
    name = f"{end.hose}.{end.side}"
    return Risk(
        "angle unsure",
        (name,),
        f"The hose end {name} at {end.port} is {word} as its course has it; {share}.",
        "Hold a hose end up to the port before it is ordered, or tape both ports again.",
        rows.count((name,)),
    )


def _lengths(routes: Routes, rows: _Rows) -> Iterator[Risk]:
    for run in routes.runs:
        parts = rows.count((run.id,))
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
    yield from _take_ups(routes)


def _take_ups(routes: Routes) -> Iterator[Risk]:
    """Hose ends whose take-up is not in the data: one risk for each sort of end.

    The order does not hang on it, only the second cut.
    """
    unknown: dict[str, list[str]] = {}
    for run in routes.runs:
        if run.cut is None and "take-up" in run.cut_note:
            for why in run.cut_note.removeprefix("cut in place: ").split("; "):
                unknown.setdefault(why, []).append(run.id)
    for why, runs in sorted(unknown.items()):
        yield Risk(
            "take-up unknown",
            tuple(sorted(runs, key=natural_key)),
            f"{why[0].upper()}{why[1:]}.",
            "Cut these hoses in place; the length to buy does not rest on it.",
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
