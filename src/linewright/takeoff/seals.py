# SPDX-License-Identifier: Apache-2.0
"""What joints need beside their ends: seals in the right material, clamps, bolts, nuts.

A seal is a part with a standard's size and a material for the fluid and its temperature:
the same ring in hot oil and in coolant is two rows.
"""

from collections.abc import Iterable, Iterator

from linewright.base.evidence import weakest
from linewright.car.model import Car, Medium
from linewright.catalogue.sundries import clamp_for, hardware_for
from linewright.ends.end import End, Family
from linewright.ends.mating import SealNeed
from linewright.takeoff import girth
from linewright.takeoff.materials import Choice, choose
from linewright.takeoff.merge import Spares, Want, of_part
from linewright.takeoff.wanted import Spot

_SPIGOTS = (Family.BEAD, Family.BARB)

_CLAMPS = {
    "t-bolt": "T-bolt clamp",
    "fuel": "full-wrap fuel clamp",
    "worm": "worm-drive hose clamp",
}

#: Kinds whose gasket lies in the box with them.
_BRINGS_GASKET = ("filter canister",)


def wants(car: Car, found: Iterable[Spot]) -> Iterator[Want]:
    """Every seal and all hardware that the joints ask for.

    Parameters
    ----------
    car : Car
        The car document as read.
    found : Iterable of Spot
        The chains with their joints.

    Yields
    ------
    Want
        One for each need of each joint; paste is counted in `sundries`.
    """
    for spot in found:
        has_bolt = any(part.shape == "banjo bolt" for part in spot.chain.parts)
        for joint, mated, need in spot.needs:
            if need.what in ("paste", "olive") or (need.what == "banjo bolt" and has_bolt):
                continue
            if need.what == "gasket" and _is_in_the_box(car, spot):
                continue
            if need.what == "clamp":
                yield _clamp(car, spot, joint, mated.near, mated.far, need)
            elif need.is_seal:
                yield _seal(spot, joint, mated.near, mated.far, need)
            else:
                yield _hardware(spot, joint, need)


def _is_in_the_box(car: Car, spot: Spot) -> bool:
    kinds = [car.components[p.component].kind for i in spot.ports if (p := car.port(i))]
    return any(kind in _BRINGS_GASKET for kind in kinds)


def _seal(spot: Spot, joint: str, near: End, far: End, need: SealNeed) -> Want:
    choice = choose(need, near, far, spot.system)
    is_spin_on = Family.SPINON in (near.family, far.family)
    note = "comes with the plate as a rule: tick it off" if is_spin_on else choice.note
    name = _words(need, choice)
    part = hardware_for(need.what, need.size) if need.what == "gasket" else None
    if part is not None:  # a gasket of the catalogue has one code wherever it is written
        return of_part(
            part,
            name,
            "seals",
            spot.system.id if spot.system else None,
            joint,
            count=need.count,
            spares=Spares.SEAL,
            grade=weakest([need.grade, choice.grade]),
            is_certain=spot.is_certain,
            note=note,
        )
    return Want(
        code=name,
        name=name,
        group="seals",
        system=spot.system.id if spot.system else None,
        because=joint,
        count=need.count,
        spares=Spares.NONE if is_spin_on else Spares.SEAL,
        grade=weakest([need.grade, choice.grade]),
        is_certain=spot.is_certain,
        note=note,
    )


def _words(need: SealNeed, choice: Choice) -> str:
    what = {"o-ring": "O-ring", "face o-ring": "O-ring"}.get(need.what, need.what)
    return f"{what} {need.size}, {choice.material}" if choice.material else f"{what} {need.size}"


def _hardware(spot: Spot, joint: str, need: SealNeed) -> Want:
    return of_part(
        hardware_for(need.what, need.size),
        f"{need.what} {need.size}".strip(),
        "hardware",
        spot.system.id if spot.system else None,
        joint,
        count=need.count,
        spares=Spares.SEAL if need.what == "panel washer" else Spares.NONE,
        grade=need.grade,
        is_certain=spot.is_certain,
    )


def _clamp(car: Car, spot: Spot, joint: str, near: End, far: End, need: SealNeed) -> Want:
    """A clamp that holds the hose's outside on the bead, not its bore."""
    spigot = next((end for end in (near, far) if end.family in _SPIGOTS), far)
    over = girth.on_spigot(car, girth.named(spigot.size), spot.line)
    kind = clamp_kind(spot)
    part = clamp_for(kind, over.value)
    size = f"{over.value * 1000:g} mm"
    return of_part(
        part,
        f"{_CLAMPS[kind]}, for {size}",
        "hardware",
        spot.system.id if spot.system else None,
        joint,
        count=need.count,
        spares=Spares.SEAL,
        grade=weakest([need.grade, over.grade]),
        is_certain=spot.is_certain,
        note=f"for {size}: {over.basis}",
    )


def clamp_kind(spot: Spot) -> str:
    """Which sort of clamp holds a hose here.

    Parameters
    ----------
    spot : Spot
        The chain that ends on the spigot.

    Returns
    -------
    str
        ``t-bolt`` for charge air, ``fuel`` (full wrap) for fuel and for reference hoses,
        ``worm`` for the rest.
    """
    medium = spot.system.medium if spot.system else None
    is_reference = spot.line is not None and spot.line.service == "reference"
    if medium is Medium.FUEL or is_reference:
        return "fuel"
    return "t-bolt" if medium is Medium.AIR else "worm"
