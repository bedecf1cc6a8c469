# SPDX-License-Identifier: Apache-2.0
"""Threads on the car that also fit something which does not seal: notes, so that it is marked."""

from collections.abc import Iterator

from linewright.base.evidence import Grade, weakest
from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.checks.raising import raised
from linewright.checks.topology import Topology
from linewright.ends.end import End, Family, Gender
from linewright.ends.lookalikes import LookAlike, lookalikes
from linewright.ends.notation import show

#: Families whose look-alikes really lie in the same drawer, and which those are.
_MISTAKEN = {
    Family.SPINON: (Family.FLARE_37, Family.ORB_UNF, Family.SPINON, Family.ISO6149),
    Family.BSPP: (Family.NPT, Family.BSPT),
    Family.METRIC_FLAT_FACE: (Family.ISO6149,),
    Family.ISO6149: (Family.METRIC_FLAT_FACE,),
}

#: Families that differ by the gland in the port alone: once that is read there is no doubt.
_BY_GLAND = (Family.METRIC_FLAT_FACE, Family.ISO6149)

#: The share of the thread's depth over which a look-alike is taken for the right part. [-]
_CONVINCING = 0.95


def check(car: Car, topology: Topology) -> Iterator[Finding]:
    """Note the threads that are mistaken for others.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.

    Yields
    ------
    Finding
        One ``look-alike`` for each such end in each system, about its ports.
    """
    found: dict[tuple[str, End], list[str]] = {}
    for port in car.ports:
        is_used = topology.is_connected(port.id) or port.id in car.closed
        is_settled = port.end.family in _BY_GLAND and (
            port.known.is_confirmed or port.end.gender is not Gender.FEMALE
        )
        if port.end.family in _MISTAKEN and is_used and not is_settled:
            system = topology.system_of(port.id) or ""
            found.setdefault((system, End(port.end.family, port.end.size)), []).append(port.id)
    for (system, end), ports in found.items():
        alike = [like for like in lookalikes(end) if _is_taken_for(end, like)]
        if alike:
            yield _note(end, tuple(sorted(ports, key=natural_key)), alike, system or None)


def _is_taken_for(end: End, like: LookAlike) -> bool:
    if like.family not in _MISTAKEN[end.family] or like.size == end.size:
        return False
    return like.is_same_thread or (end.family is Family.BSPP and like.overlap >= _CONVINCING)


def _named(like: LookAlike) -> str:
    """A look-alike as the trade says it; a taper goes by its family alone."""
    if like.family is Family.BSPT:
        return f"R {like.size} taper"
    return show(End(like.family, like.size))


def _note(end: End, ports: tuple[str, ...], alike: list[LookAlike], system: str | None) -> Finding:
    others = ", ".join(_named(like) for like in alike)
    return raised(
        "look-alike",
        ports,
        f"{show(end)} also runs into {others}, and does not seal there: {alike[0].hazard}.",
        "Mark or cap these ports, so that nothing of the other family is screwed on.",
        system=system,
        value=show(end),
        source="threads-table",
        grade=weakest([Grade.DERIVED, *(like.grade for like in alike)]),
    )
