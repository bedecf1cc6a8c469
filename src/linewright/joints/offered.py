# SPDX-License-Identifier: Apache-2.0
"""What every part of this package gives back and how it is put together; settings."""

from collections.abc import Iterable

from linewright.base.evidence import Figure
from linewright.car.model import Car, Port
from linewright.joints.model import Joints
from linewright.tables import practice

NOTHING = Joints((), ())


def merged(found: Iterable[Joints]) -> Joints:
    """Put several results together, in their order.

    Parameters
    ----------
    found : Iterable of Joints
        Results of lines, fits and so on.

    Returns
    -------
    Joints
        All of them.
    """
    every = tuple(found)
    return Joints(
        terminations=tuple(t for j in every for t in j.terminations),
        fits=tuple(f for j in every for f in j.fits),
        findings=tuple(f for j in every for f in j.findings),
        steps=tuple(s for j in every for s in j.steps),
    )


def setting(car: Car, name: str) -> Figure:
    """A default of the trade, or what the builder put in its place.

    Parameters
    ----------
    car : Car
        The car document as read.
    name : str
        The setting's name, as in tables/data/settings.csv.

    Returns
    -------
    Figure
        The value in SI with its grade.
    """
    typed = car.settings.get(name)
    return typed if typed is not None else practice.setting(name)


def cited(car: Car, name: str) -> str:
    """Where a limit comes from: the document where the builder set it, else its source.

    Parameters
    ----------
    car : Car
        The car document as read.
    name : str
        The setting's name.

    Returns
    -------
    str
        ``the car document``, or a key of the sources.
    """
    return "the car document" if name in car.settings else practice.source_of(name)


def angle_word(angle: int) -> str:
    """An angle as it is said in the trade.

    Parameters
    ----------
    angle : int
        Change of direction. [deg]

    Returns
    -------
    str
        ``straight`` or ``90°``.

    Examples
    --------
    >>> angle_word(0), angle_word(45)
    ('straight', '45°')
    """
    return "straight" if angle == 0 else f"{angle}°"


def is_aluminium(car: Car, port: Port) -> bool:
    """Whether a port is cut in aluminium: by its own material, else its component's.

    Parameters
    ----------
    car : Car
        The car document as read.
    port : Port
        The port.

    Returns
    -------
    bool
        False also where the material is not known.
    """
    owner = car.components.get(port.component)
    return "alumin" in (port.material or (owner.material if owner else ""))
