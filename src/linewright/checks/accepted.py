# SPDX-License-Identifier: Apache-2.0
"""What an overrule accepts, held against a finding as the finding prints it."""

import re

from linewright.base.finding import Finding, Overrule

#: One printed unit in SI, by what stands behind the number of a finding's value.
_UNITS = {"%": 0.01, "mm": 1e-3, "µm": 1e-6, "bar": 1e5, "m/s": 1.0, "": 1.0}

_VALUE = re.compile(r"(?P<number>-?\d+(?:\.(?P<places>\d+))?) ?(?P<unit>%|mm|µm|bar|m/s|)")

#: How far a value may rise over what was accepted before it counts as worse. [-]
_TOLERANCE = 1e-9


def is_worse(finding: Finding, overrule: Overrule) -> bool:
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

    Returns
    -------
    bool
        False too where the finding has no number, or none was accepted.
    """
    if finding.measure is None or overrule.accepted is None:
        return False
    now = finding.measure if finding.printed is None else finding.printed
    allowed = _TOLERANCE * max(1.0, abs(overrule.accepted))
    like = _VALUE.fullmatch(finding.value or "")
    if like is not None:
        allowed += 0.5 * _UNITS[like["unit"]] / 10 ** len(like["places"] or "")
    rise = overrule.accepted - now if finding.is_less_worse else now - overrule.accepted
    return rise > allowed


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
    like = _VALUE.fullmatch(finding.value or "")
    if like is None:
        return f"{accepted:g}"
    return f"{round(accepted / _UNITS[like['unit']], 6):g} {like['unit']}".rstrip()


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
    like = _VALUE.fullmatch(finding.value or "")
    if like is None:
        return f"{finding.measure:g}"
    return f"{like['number']} {like['unit']}".rstrip()
