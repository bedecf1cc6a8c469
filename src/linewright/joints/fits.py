# SPDX-License-Identifier: Apache-2.0
"""Two ports screwed together, ports closed by a plug or a cap, bulkheads in their panel."""

from collections.abc import Iterator

from linewright.base.evidence import Known
from linewright.base.finding import Finding, Severity
from linewright.car.model import Car, Component, Port
from linewright.catalogue.stock import Catalogue
from linewright.ends.counterpart import counterpart
from linewright.ends.end import Family
from linewright.ends.mates import mates
from linewright.ends.words import show
from linewright.joints import reasons, steps
from linewright.joints.chain import Options, join
from linewright.joints.missing import missing_step
from linewright.joints.model import Chain, Fit, Joints, Mated
from linewright.joints.offered import is_aluminium, merged
from linewright.joints.place import Place
from linewright.joints.rank import is_special, joint_weight

_CLOSURES = ("plug", "cap")


def fits(car: Car, catalogue: Catalogue) -> Joints:
    """Offer all that stands on a port without a hose.

    Parameters
    ----------
    car : Car
        The car document as read.
    catalogue : Catalogue
        Parts to build with.

    Returns
    -------
    Joints
        Fits only: components on ports, plugs and caps, bulkheads, in the document's order.
    """
    found: list[Joints] = []
    for component in car.components.values():
        if component.on is not None:
            found.append(_on(car, catalogue, component))
        if component.part is not None and component.part.startswith("bulkhead"):
            found.append(_bulkhead(car, catalogue, component))
    for closed in car.closed.values():
        port = car.port(closed.what)
        if port is not None and closed.how in _CLOSURES:
            found.append(_closed(car, catalogue, port, closed.how))
    return merged(found)


def mount(car: Car, component: Component, host: Port) -> Port | None:
    """The port by which a component is screwed on another's port.

    Parameters
    ----------
    car : Car
        The car document as read.
    component : Component
        What is screwed on.
    host : Port
        The port that carries it.

    Returns
    -------
    Port or None
        The one that the document or the kind names; else the first free one that mates
        with the host; else the first free one; None if it has no free port.
    """
    named = component.ports.get(component.mount or "mount")
    if named is not None:
        return named
    taken = {p for line in car.lines.values() for p in (line.from_port, line.to_port)}
    taken |= set(car.closed) | {c.on for c in car.components.values() if c.on}
    free = [port for port in component.ports.values() if port.id not in taken]
    direct = (port for port in free if mates(host.end, port.end).ok)
    return next(direct, next(iter(free), None))


def _on(car: Car, catalogue: Catalogue, component: Component) -> Joints:
    host = car.port(component.on or "")
    if host is None:
        return merged(())
    own = mount(car, component, host)
    if own is None:
        return merged(())
    ids = (host.id, own.id)
    if host.end.is_unknown or own.end.is_unknown:
        return Joints((), (Fit(ids, "on", None),))
    options = Options(is_aluminium=is_aluminium(car, host), room=None)
    chains = join(host.end, own.end, catalogue, options=options)
    place = Place(car, own.id, host)
    if not chains:
        finding = _no_mate(place, host, own, catalogue, options)
        return Joints((), (Fit(ids, "on", None),), (finding,))
    chain = reasons.coded(place, chains[0])
    return Joints(
        (),
        (Fit(ids, "on", chain),),
        reasons.findings(place, chain),
        steps.steps(place, chain),
    )


def _no_mate(
    place: Place, host: Port, own: Port, catalogue: Catalogue, options: Options
) -> Finding:
    mating = mates(host.end, own.end)
    step, remedy = missing_step(host.end, own.end, catalogue, options)
    code = "look-alike-thread" if mating.look_alike else "no-mate"
    why = mating.why.rstrip(".")
    hazard = mating.hazard.rstrip(".")
    hazard = f" {hazard[0].upper()}{hazard[1:]}." if hazard else ""
    if mating.look_alike:
        right = show(counterpart(host.end))
        remedy = f"Take the one whose end is made for the port ({right}), or change the port."
    guess = ""
    for port, other in ((own, host), (host, own)):
        if port.from_kind and port.known is Known.GUESS:
            kind = place.car.components[port.component].kind
            guess = (
                f" But {show(port.end)} at {port.id} is only the guess that the kind "
                f'"{kind}" brings.'
            )
            remedy = (
                f"Look at {port.id} and type its own end under [ports], such as "
                f'"{port.id}" = "{show(counterpart(other.end))}". If it is as guessed: {remedy}'
            )
            break
    return Finding(
        code=code,
        severity=Severity.STOP,
        about=(host.id, own.id),
        reason=(
            f"{own.id} ({show(own.end)}) on {host.id} ({show(host.end)}): {why}.{hazard} And {step}"
            f"{guess}"
        ),
        remedy=remedy,
        source=mating.source,
        grade=mating.grade,
        system=place.system,
    )


def close(car: Car, port: Port, catalogue: Catalogue) -> Chain | None:
    """Plug or cap for a port.

    Parameters
    ----------
    car : Car
        The car document as read.
    port : Port
        The port to be shut.
    catalogue : Catalogue
        Parts to build with.

    Returns
    -------
    Chain or None
        One part and one joint; None if no single part shuts it.
    """
    best: tuple[tuple[int, float, str], Chain] | None = None
    for part, index in catalogue.facing(port.end):
        if part.shape not in _CLOSURES or len(part.ends) != 1:
            continue
        mating = mates(port.end, part.ends[index])
        weight = joint_weight(
            port.end, part.ends[index], mating, is_aluminium=is_aluminium(car, port)
        )
        special = int(is_special(part))
        chain = Chain(
            port=port.end,
            parts=(part,),
            joints=(Mated(port.end, part.ends[index], mating),),
            bore=None,
            price_index=part.price_index,
            stick_out=part.stick_out,
            rank=(0.0, float(special), 0.0, float(weight), 0.0, part.price_index, part.stick_out),
            reason="the plug or cap of the port's own family and size",
        )
        key = (special, part.price_index, part.code)
        if best is None or key < best[0]:
            best = (key, chain)
    return best[1] if best else None


def _closed(car: Car, catalogue: Catalogue, port: Port, how: str) -> Joints:
    if port.end.is_unknown:
        return Joints((), (Fit((port.id,), how, None),))
    place = Place(car, port.id, port)
    chain = close(car, port, catalogue)
    if chain is None:
        finding = Finding(
            code="no-chain",
            severity=Severity.STOP,
            about=(port.id,),
            reason=f"{port.id} ({show(port.end)}): no plug or cap that the trade sells shuts it.",
            remedy=(
                "Measure the port again; if it is right, describe the plug in your hand under "
                "[parts], or say why the port stays open."
            ),
            system=place.system,
        )
        return Joints((), (Fit((port.id,), how, None),), (finding,))
    chain = reasons.coded(place, chain)
    return Joints(
        (),
        (Fit((port.id,), chain.parts[0].shape, chain),),
        reasons.findings(place, chain),
        steps.steps(place, chain),
    )


def bulkhead_part(catalogue: Catalogue, dash: str, angle: int = 0) -> Chain | None:
    """Bulkhead fitting for one dash, as a chain of its own.

    Parameters
    ----------
    catalogue : Catalogue
        Parts to build with.
    dash : str
        Dash of both cones.
    angle : int
        Its change of direction. [deg]

    Returns
    -------
    Chain or None
        The part without joints (its cones belong to the hoses); None if none is sold.
    """
    found = [
        part
        for part in catalogue.parts
        if part.shape == "bulkhead"
        and part.angle == angle
        and len(part.ends) == 2
        and all(e.family is Family.FLARE_37 and e.size == dash for e in part.ends)
    ]
    if not found:
        return None
    part = min(found, key=lambda p: (is_special(p), p.price_index, p.code))
    return Chain(
        port=part.ends[0],
        parts=(part,),
        joints=(),
        bore=part.bore,
        price_index=part.price_index,
        stick_out=0.0,
        rank=(0.0, float(is_special(part)), 0.0, 0.0, 0.0, part.price_index, 0.0),
        reason="the bulkhead fitting of the line's own dash",
    )


def _bulkhead(car: Car, catalogue: Catalogue, component: Component) -> Joints:
    ids = tuple(port.id for port in component.ports.values())
    dashes = _dashes(component)
    dash = next(dashes, None)
    chain = bulkhead_part(catalogue, dash) if dash else None
    fit = Fit(ids, "bulkhead", chain, component.panel)
    return Joints((), (fit,))


def _dashes(component: Component) -> Iterator[str]:
    for port in component.ports.values():
        if port.end.family is Family.FLARE_37:
            yield port.end.size
