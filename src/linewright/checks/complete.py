# SPDX-License-Identifier: Apache-2.0
"""The proof of completeness: each port, each end of each line, each seal of each joint."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from linewright.base.codes import RULES
from linewright.base.evidence import Grade
from linewright.base.finding import Finding
from linewright.car.kinds import KINDS
from linewright.car.model import Car, Closed, Component, Construction, Port, Role
from linewright.checks.functions import Answer
from linewright.checks.model import PortProof
from linewright.checks.topology import Topology
from linewright.ends.mating import SealNeed
from linewright.ends.notation import show
from linewright.joints.model import Fit, Joints, Termination
from linewright.takeoff.model import Row, Takeoff
from linewright.takeoff.wanted import spots

_SHUT = {"plug": "plugged", "cap": "capped"}

#: What a joint needs and a pack brings along: no row of its own is asked for.
_IN_THE_PACK = ("olive",)

#: Groups of the parts list that hold what seals two ends, and what holds them together.
_SEAL_GROUPS = ("seals", "sealant", "hardware")
_HARDWARE_GROUPS = ("hardware", "sundries")


@dataclass(frozen=True, slots=True)
class Complete:
    """The proof of every port and function, and what it found missing."""

    proof: tuple[PortProof, ...]
    findings: tuple[Finding, ...]


def complete(
    car: Car,
    topology: Topology,
    joints: Joints,
    takeoff: Takeoff,
    asked: Iterable[Answer],
) -> Complete:
    """Prove that nothing is left open, one-ended or unsealed.

    Parameters
    ----------
    car : Car
        The car document as read.
    topology : Topology
        The same car as a graph.
    joints : Joints
        The chains chosen.
    takeoff : Takeoff
        What is to be bought.
    asked : Iterable of Answer
        How the functions of the kinds stand.

    Returns
    -------
    Complete
        One row for each port, then one for each function that no port stands for.
    """
    functions = tuple(asked)
    special = {
        a.port: a
        for a in functions
        if a.finding is not None and a.port and a.function.code != "missing-function"
    }
    proof: list[PortProof] = []
    findings: list[Finding] = []
    chains = _by_port(joints)
    for port in car.ports:
        row = _port(car, topology, port, chains)
        if row is None:
            continue
        proof.append(row)
        if row.state == "unknown" and port.end.is_unknown:
            # Where only what is screwed on it is not measured, that one speaks for both.
            findings.append(_unknown(port, row))
        elif row.state == "missing" and port.id not in chains and port.id not in special:
            findings.append(_open(car, port, row))
        elif row.state == "missing" and port.id in chains:
            findings.extend(_unjoined(port, row, joints))
    shown = {row.id for row in proof}
    open_ports = {f.about[0] for f in findings if f.code == "open-port"}
    for answer in functions:
        if answer.proof.id not in shown:
            proof.append(answer.proof)
        if answer.finding is None:
            continue
        if answer.function.code == "missing-function" and _is_told(car, answer, open_ports):
            continue
        findings.append(answer.finding)
    findings.extend(_one_ended(car, joints))
    findings.extend(seals(car, joints, takeoff))
    return Complete(tuple(proof), tuple(findings))


def _is_told(car: Car, answer: Answer, open_ports: set[str]) -> bool:
    """Whether an open port that stands for the function says the same already."""
    if answer.port in open_ports:
        return True
    where, _, place = answer.function.where.partition(" ")
    if where in ("system", "on", "before", "after"):
        return False
    # The other component's own port or function is the one that speaks.
    return any(c.kind == where and place for c in car.components.values())


def _by_port(joints: Joints) -> dict[str, Termination | Fit]:
    found: dict[str, Termination | Fit] = {}
    for fit in joints.fits:
        if fit.how != "bulkhead":
            found.update(dict.fromkeys(fit.ports, fit))
    for end in joints.terminations:
        found[end.port] = end
    return found


def _port(
    car: Car, topology: Topology, port: Port, chains: dict[str, Termination | Fit]
) -> PortProof | None:
    component = car.components[port.component]
    closed = car.closed.get(port.id)
    is_used = topology.is_connected(port.id) or closed is not None
    if not is_used and _is_only_offered(component, port):
        return None
    system = topology.system_of(port.id)
    if closed is not None and not topology.is_connected(port.id):
        return _closed(port, closed, system, chains)
    if not is_used:
        if _is_welded(component, port):
            return PortProof(port.id, system, "mated", "weld")
        return PortProof(port.id, system, "missing")
    lines = topology.lines_at.get(port.id, ())
    by = lines[0].id if lines else topology.screwed[port.id]
    if port.end.is_unknown:
        return PortProof(port.id, system, "unknown", by, "its end is not measured")
    chain = chains.get(port.id)
    if chain is not None and chain.chain is None:
        other = _other_unknown(car, chain)
        if other:
            return PortProof(port.id, system, "unknown", by, f"the end of {other} is not measured")
        return PortProof(port.id, system, "missing", by, "nothing joins it")
    return PortProof(port.id, system, "mated", by)


def _other_unknown(car: Car, chain: Termination | Fit) -> str | None:
    ports = chain.ports if isinstance(chain, Fit) else (chain.port,)
    for each in ports:
        port = car.port(each)
        if port is not None and port.end.is_unknown:
            return each
    return None


def _closed(
    port: Port, closed: Closed, system: str | None, chains: dict[str, Termination | Fit]
) -> PortProof:
    if closed.how not in _SHUT:
        return PortProof(port.id, system, closed.how, "", closed.reason)
    if port.end.is_unknown and port.role is not Role.FILL:
        return PortProof(port.id, system, "unknown", closed.how, "its end is not measured")
    chain = chains.get(port.id)
    if chain is not None and chain.chain is None and not port.end.is_unknown:
        return PortProof(port.id, system, "missing", closed.how, "nothing shuts it")
    return PortProof(port.id, system, _SHUT[closed.how], closed.how, closed.reason)


def _is_only_offered(component: Component, port: Port) -> bool:
    """Whether a kind merely offers this port, and nobody spoke of it."""
    if not port.from_kind:
        return False
    kind = KINDS.get(component.kind)
    like = kind.port(port.name) if kind else None
    return like is not None and like.optional


def _is_welded(component: Component, port: Port) -> bool:
    """Whether a port is the side of a bung that the welder joins to the tank."""
    return component.kind == "bung" and port.name == "weld"


def _unknown(port: Port, row: PortProof) -> Finding:
    if port.end.is_unknown and port.readings:
        return _finding("ambiguous-end", (port.id,), "", "", row.system)
    about = port.id
    return _finding(
        "unknown-end",
        (about,),
        f"{about}: its end is not known, so nothing is chosen for it.",
        "Measure its diameter and the length of five pitches, look whether it tapers and what "
        "it seals on, and type its end; `linewright identify` reads the figures.",
        row.system,
    )


def _open(car: Car, port: Port, row: PortProof) -> Finding:
    owner = car.components[port.component]
    what = f" ({show(port.end)})" if not port.end.is_unknown else ""
    return _finding(
        "open-port",
        (port.id,),
        f"{port.id}{what} of {owner.name or owner.kind} is neither connected nor closed.",
        f'Connect it, or say under [closed]: "{port.id}" = "plug", "cap", '
        f'"open, because ..." or "none, because ...".{_by_another_name(owner, port)}',
        row.system,
    )


def _by_another_name(owner: Component, port: Port) -> str:
    """A hint where the kind brought the port and the builder gave names of his own."""
    kind = KINDS.get(owner.kind)
    if kind is None or not port.from_kind:
        return ""
    own = [p.id for p in owner.ports.values() if kind.port(p.name) is None]
    if not own:
        return ""
    return f' If it is {" or ".join(own)} under another name, call that one "{port.name}".'


def _unjoined(port: Port, row: PortProof, joints: Joints) -> Iterator[Finding]:
    """A port for which nothing was chosen, unless the joints have said why."""
    told = {i for f in joints.findings for i in f.about}
    if port.id in told or row.by in told or f"{row.by}.A" in told or f"{row.by}.B" in told:
        return
    yield _finding(
        "no-chain",
        (port.id,),
        f"{port.id} ({show(port.end)}): nothing was found that joins it to {row.by}.",
        "Measure both ends again, or name the parts under [parts].",
        row.system,
    )


def _one_ended(car: Car, joints: Joints) -> Iterator[Finding]:
    """Lines of which an end was not dealt with at all."""
    ends = Counter(end.line for end in joints.terminations)
    told = {i for f in joints.findings for i in f.about}
    for line in car.lines.values():
        # A clamped hose goes through its panel in one piece, in a grommet.
        pieces = len(line.passes) + 1 if line.construction is Construction.HOSE else 1
        if ends[line.id] >= 2 * pieces or line.id in told:
            continue
        if ends[line.id] == 0 and _is_joined_otherwise(line.id, joints):
            continue
        yield _finding(
            "no-chain",
            (line.id,),
            f"{line.id} has {ends[line.id]} of {2 * pieces} ends joined.",
            f"Look at {line.from_port} and {line.to_port}: their ends and the line's size.",
            line.system,
        )


def _is_joined_otherwise(line: str, joints: Joints) -> bool:
    return any(fit.line == line for fit in joints.fits)


def seals(car: Car, joints: Joints, takeoff: Takeoff) -> tuple[Finding, ...]:
    """Compare what the joints need with what the parts list holds.

    Parameters
    ----------
    car : Car
        The car document as read.
    joints : Joints
        The chains chosen.
    takeoff : Takeoff
        What is to be bought.

    Returns
    -------
    tuple of Finding
        One ``seal-missing`` for each joint whose seal no row names, or counts too few of.
    """
    rows: dict[str, list[Row]] = {}
    for row in takeoff.rows:
        for joint in row.because:
            rows.setdefault(joint, []).append(row)
    found: list[Finding] = []
    counted: Counter[str] = Counter()
    for spot in spots(car, joints):
        system = spot.system.id if spot.system else None
        for joint, _, need in spot.needs:
            if need.what in _IN_THE_PACK or _is_in_the_box(car, spot.ports, need):
                continue
            listed = next((r for r in rows.get(joint, ()) if _is_row_of(need, r)), None)
            if listed is None:
                found.append(_lacks(joint, need, system))
            elif need.what != "paste":
                counted[listed.code] += need.count
    for row in takeoff.rows:
        if counted[row.code] > row.need:
            found.append(
                _finding(
                    "seal-missing",
                    tuple(row.because),
                    f"{row.name}: the joints need {counted[row.code]}, the list has {row.need}.",
                    "This is a fault of the count: please report the document.",
                    None,
                )
            )
    return tuple(found)


def _is_row_of(need: SealNeed, row: Row) -> bool:
    """Whether a row that names the joint is what the joint needs.

    Seals go by their standard size; hardware is named by the catalogue, which sizes a clamp
    by the hose over the bead and a bolt by its own thread.
    """
    if row.group not in (_SEAL_GROUPS if need.is_seal else _HARDWARE_GROUPS):
        return False
    text = _plain(f"{row.code} {row.name}")
    what = _plain(need.what.removeprefix("face "))
    if need.what == "paste" or not need.is_seal or need.what == "clamp":
        return what in text
    return what in text and _plain(need.size) in text


def _plain(text: str) -> str:
    return text.casefold().replace("-", " ")


def _is_in_the_box(car: Car, ports: Iterable[str], need: SealNeed) -> bool:
    """Whether the gasket comes with what is screwed on, as a canister's does."""
    return need.what == "gasket" and any(
        car.components[port.component].kind == "filter canister"
        for port in map(car.port, ports)
        if port is not None
    )


def _lacks(joint: str, need: SealNeed, system: str | None) -> Finding:
    what = f"{need.count} {need.what} {need.size}".strip()
    return _finding(
        "seal-missing",
        (joint,),
        f"{joint} needs {what}, and no row of the parts list is for it.",
        "Add it to the order; a joint without its seal leaks.",
        system,
    )


def _finding(
    code: str, about: tuple[str, ...], reason: str, remedy: str, system: str | None
) -> Finding:
    return Finding(
        code=code,
        severity=RULES[code],
        about=about,
        reason=reason,
        remedy=remedy,
        source="common practice",
        grade=Grade.PRACTICE,
        system=system,
    )
