# SPDX-License-Identifier: Apache-2.0
"""What an overrule accepts, held against a finding as the finding prints it."""

import re
from math import pi

from linewright.base.dimensions import RANKINE, ZERO_CELSIUS
from linewright.base.finding import Finding, Overrule
from linewright.base.telling import half_place

#: One printed unit in SI, by what stands behind the number of a finding's value.
_UNITS = {
    "%": 0.01,
    "mm": 1e-3,
    "µm": 1e-6,
    "bar": 1e5,
    "bar absolute": 1e5,
    "kPa": 1e3,
    "K": 1.0,
    "L": 1e-3,
    "L/min": 1e-3 / 60.0,
    "s": 1.0,
    "m/s": 1.0,
    "°": pi / 180.0,
    "°C": 1.0,
    "": 1.0,
}

#: What stands at the zero of a unit, in SI: kelvin at 0 °C.
_ZERO = {"°C": 273.15}

_VALUE = re.compile(
    r"(?P<number>-?\d+(?:\.(?P<places>\d+))?) ?"
    r"(?P<unit>%|mm|µm|bar absolute|bar|kPa|K|L/min|L|m/s|s|°C|°|)(?P<rest>.*)"
)

#: No margin is as wide as this; a temperature in °F is. [K]
_WARM = 200.0

#: How far a value may rise over what was accepted before it counts as worse. [-]
_TOLERANCE = 1e-9


def is_worse(finding: Finding, overrule: Overrule, show: str = "metric") -> bool:
    """Tell whether a finding got worse than what was accepted.

    What is accepted is typed as the finding prints it: "30 %" of an area kept means 30 % or
    more; "20 mm" of stick-out means 20 mm or less. Half of the last printed place is allowed,
    so that a value typed off the finding always covers it.

    Parameters
    ----------
    finding : Finding
        As it is now.
    overrule : Overrule
        The builder's decision.
    show : str
        ``metric`` or ``inch``: in what the car prints it.

    Returns
    -------
    bool
        False too where the finding has no number, or none was accepted.
    """
    if finding.measure is None or overrule.accepted is None:
        return False
    now, is_less_worse = _held(finding)
    before = _difference(finding, overrule.accepted, show)
    allowed = _TOLERANCE * max(1.0, abs(before))
    # A value may have been typed off either print.
    allowed += max(_half_place(finding), 1.001 * half_place(finding.value or "", show))
    rise = before - now if is_less_worse else now - before
    return rise > allowed


def _difference(finding: Finding, accepted: float, show: str) -> float:
    """What was accepted; of a difference printed in °F it was read as a temperature."""
    like = _met(finding.value)
    if show != "inch" or like is None or like["unit"] != "K" or accepted < _WARM:
        return accepted
    return accepted - (ZERO_CELSIUS - 32 * RANKINE)


def _met(text: str | None) -> re.Match[str] | None:
    met = _VALUE.fullmatch(text or "")
    return met if met is not None and not met["rest"] else None


def _si(met: re.Match[str]) -> float:
    return float(met["number"]) * _UNITS[met["unit"]] + _ZERO.get(met["unit"], 0.0)


def _half_place(finding: Finding) -> float:
    """Half of the last place that a finding prints. [SI]"""
    like = _met(finding.value)
    return 0.5 * _UNITS[like["unit"]] / 10 ** len(like["places"] or "") if like else 0.0


def _held(finding: Finding) -> tuple[float, bool]:
    """The number that is held against what was accepted, and whether less of it is worse.

    A measure that is not what is printed, as the room that is missing where the room that is
    there is printed, cannot be held against what a builder reads off: then the printed value
    is, and its limit tells which way is worse.
    """
    assert finding.measure is not None
    if finding.printed is not None:
        return finding.printed, finding.is_less_worse
    like = _met(finding.value)
    if like is None:
        return finding.measure, finding.is_less_worse
    value = _si(like)
    limit = _VALUE.match(finding.limit or "")
    is_under = limit is not None and value < (
        float(limit["number"]) * _UNITS[like["unit"]] + _ZERO.get(like["unit"], 0.0)
    )
    slack = 1.001 * _half_place(finding) + _TOLERANCE * max(1.0, abs(finding.measure))
    # The measure has more digits than the print; it serves where it is the same number.
    now = finding.measure if abs(value - finding.measure) <= slack else value
    return now, finding.is_less_worse or is_under


def shown(accepted: float, finding: Finding) -> str:
    """Print what was accepted in the unit that the finding prints.

    Parameters
    ----------
    accepted : float
        What was accepted. [SI unit of the finding's value]
    finding : Finding
        The finding.

    Returns
    -------
    str
        As in "30 %"; a plain number where the finding prints none.
    """
    like = _met(finding.value)
    if like is None:
        return f"{accepted:g}"
    number = (accepted - _ZERO.get(like["unit"], 0.0)) / _UNITS[like["unit"]]
    return _joined(f"{round(number, 6):g}", like["unit"])


def now(finding: Finding) -> str:
    """Print the value that a finding has now.

    Parameters
    ----------
    finding : Finding
        The finding.

    Returns
    -------
    str
        With a space before its unit.
    """
    like = _met(finding.value)
    if like is None:
        return f"{finding.measure:g}"
    return _joined(like["number"], like["unit"])


def _joined(number: str, unit: str) -> str:
    return f"{number}{unit}" if unit == "°" else f"{number} {unit}".rstrip()
