# SPDX-License-Identifier: Apache-2.0
"""Components that are bought with the fittings: what the document says is to be had."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace

from linewright.base.evidence import Grade
from linewright.car.model import Car, Component
from linewright.catalogue import stock
from linewright.catalogue.part import Part
from linewright.ends.end import End, Family
from linewright.ends.words import show
from linewright.takeoff.merge import Want
from linewright.takeoff.wanted import Spot

#: What is bought whole and used up, with what lies in its box.
_USED_UP = {"filter canister": "with its gasket"}


def wants(car: Car, found: Iterable[Spot]) -> Iterator[Want]:
    """Components to buy: catalogue shapes such as tees, and what is used up.

    Parameters
    ----------
    car : Car
        The car document as read.
    found : Iterable of Spot
        The chains; a bulkhead that sits in one is counted there.

    Yields
    ------
    Want
        One for each component that is not in hand or in the post.
    """
    placed = {port.partition(".")[0] for spot in found if spot.fit for port in spot.ports}
    for component in car.components.values():
        if component.have != "no" or component.part is None:
            continue
        if component.part in _USED_UP:
            yield _used_up(component)
        elif not (component.part.startswith("bulkhead") and component.id in placed):
            yield _shape(component)


def _used_up(component: Component) -> Want:
    known = sorted(show(port.end) for port in component.ports.values() if not port.end.is_unknown)
    ends = f", {known[0]}" if known else ""
    name = f"{component.part} {component.id}, {_USED_UP[component.part or '']}"
    return Want(
        code=f"{component.part} {component.id}",
        name=name + ends,
        group="components",
        system=component.system,
        because=component.id,
        grade=Grade.STATED,
        is_certain=all(p.known.is_confirmed for p in component.ports.values()),
    )


def _shape(component: Component) -> Want:
    ends = [
        _of_its_metal(port.end, component.material)
        for port in component.ports.values()
        if not port.end.is_unknown
    ]
    part = _part(component.part or "", ends)
    words = ", ".join(sorted(show(end) for end in ends))
    return Want(
        code=part.code if part else f"{component.part} {words}".strip(),
        name=part.name if part else f"{component.part}, {words}".strip(", "),
        group="adaptors",
        system=component.system,
        because=component.id,
        price_index=part.price_index if part else None,
        availability=part.availability.value if part else "special",
        is_certain=all(p.known.is_confirmed for p in component.ports.values()),
        note="" if part else "no generic part has just these ends: buy it as described",
    )


def _of_its_metal(end: End, material: str) -> End:
    """A side for the weld, of the metal that the component is made of where it says none."""
    if end.family is Family.WELD and not end.kind and material:
        return replace(end, kind=material)
    return end


def _part(shape: str, ends: list[End]) -> Part | None:
    wanted = Counter(ends)
    return next(
        (
            part
            for part in stock.generic().parts
            if shape in part.shape and len(part.ends) == len(ends) and Counter(part.ends) == wanted
        ),
        None,
    )
