# SPDX-License-Identifier: Apache-2.0
"""What callipers and a pitch gauge may read on an end that is made, and how well a reading fits."""

from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from math import isfinite

from linewright.base.errors import EndError
from linewright.ends.end import Family
from linewright.ends.sizes import Made
from linewright.tables.load import rows as table


class Origin(StrEnum):
    """Where a part comes from; it shifts ranks and removes nothing."""

    ANYWHERE = ""
    NORTH_AMERICA = "north america"
    JAPAN = "japan"
    BRITAIN = "britain"
    EUROPE = "europe"


@dataclass(frozen=True, slots=True)
class Measurement:
    """What was measured on one end. Lengths in m; None for what was not taken.

    ``diameter`` is the outside of a male thread or tube, or the bore of a female thread.
    The pitch is best taken as the length of five, divided by five. ``seat`` says in words
    what the end seals on, e.g. ``cone``, ``O-ring under a hex``, ``groove in a flat face``.
    """

    diameter: float
    is_male: bool
    pitch: float | None = None
    tpi: float | None = None
    taper: bool | None = None
    seat: str = ""
    origin: Origin = Origin.ANYWHERE
    is_tube: bool = False

    @property
    def step(self) -> float | None:
        """Pitch as measured or as counted. [m]"""
        return 0.0254 / self.tpi if self.tpi else self.pitch


@cache
def allowance(name: str) -> float:
    """Return one figure of ``measuring.csv``.

    Parameters
    ----------
    name : str
        The name of its row.

    Returns
    -------
    float
        Lengths in m, all else as in the table. [SI]
    """
    row = next(row for row in table("measuring") if row["name"] == name)
    return float(row["value"]) / (1000 if row["unit"] == "mm" else 1)


@cache
def commonness(family: Family, origin: Origin) -> float:
    """How often a family is met on parts of an origin.

    Parameters
    ----------
    family : Family
        The family.
    origin : Origin
        Where the part comes from.

    Returns
    -------
    float
        A weight for ranking only, greater than 0; 1 for the commonest anywhere. [-]
    """
    column = (origin or "anywhere").replace(" ", "_")
    rows = (row for row in table("origins") if row["family"] == family.value)
    return next((float(row[column]) for row in rows), 0.1)


def checked(measured: Measurement) -> Measurement:
    """Refuse a reading that no end of a fluid line can give.

    Parameters
    ----------
    measured : Measurement
        As taken.

    Returns
    -------
    Measurement
        The same.

    Raises
    ------
    EndError
        If a length is not a positive number of a size that ends have.
    """
    mm = measured.diameter * 1000
    if not (isfinite(mm) and 2.0 <= mm <= 200.0):
        raise EndError(
            f"a diameter of {mm:g} mm is outside what ends have, 2 to 200 mm. Check the unit and"
            " measure again."
        )
    step = measured.step
    if step is not None and not (isfinite(step) and 0.0003 <= step <= 0.005):
        raise EndError(
            f"a pitch of {step * 1000:g} mm is outside what threads of ends have, 0.3 to 5 mm."
            " Measure the length of five pitches and divide by five, or count threads per inch."
        )
    return measured


def pitch_of(one: Made) -> float | None:
    """Exact pitch of a size of end.

    Parameters
    ----------
    one : Made
        A size of end.

    Returns
    -------
    float or None
        From the threads per inch where it has them; None without a thread. [m]
    """
    return 0.0254 / float(one.tpi) if one.tpi else one.pitch


def span(one: Made, is_male: bool) -> tuple[float, float]:
    """Least and greatest diameter that a sound end of a size measures.

    Parameters
    ----------
    one : Made
        A size of end with a thread.
    is_male : bool
        Whether the outside of a male is meant, or the bore of a female.

    Returns
    -------
    tuple of float
        Both diameters, before any measuring error. [m]
    """
    if is_male and one.is_taper:
        return one.tip or one.major, one.major
    if is_male:
        return (
            one.major - allowance("male under basic most"),
            one.major - allowance("male over basic most"),
        )
    minor = one.minor or one.major
    return minor, minor + allowance("female minor spread") * (pitch_of(one) or 0.0)


def closeness(one: Made, measured: Measurement) -> float:
    """How well a size of end fits a reading.

    Parameters
    ----------
    one : Made
        A size of end with a thread.
    measured : Measurement
        What was taken.

    Returns
    -------
    float
        1 inside what the end may measure, falling to the table's figure at the measuring
        error, 0 beyond it. [-]
    """
    low, high = span(one, measured.is_male)
    error, edge = allowance("calliper error"), allowance("fit at the limit")
    off = max(low - measured.diameter, measured.diameter - high, 0.0)
    published = one.published_male if measured.is_male else one.published_female
    if published is not None:
        off = min(off, abs(measured.diameter - published))
    own, step = pitch_of(one), measured.step
    if off > error + 1e-9:
        return 0.0
    fit = 1 - (1 - edge) * off / error
    if step is not None:
        if own is None:
            return 0.0
        wrong = 5 * abs(own - step)
        limit = allowance("five pitches error")
        if wrong > limit + 1e-9:
            return 0.0
        fit *= 1 - (1 - edge) * wrong / limit
    return fit
