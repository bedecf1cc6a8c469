# SPDX-License-Identifier: Apache-2.0
"""One way for all rules to say what they found."""

from linewright.base.codes import RULES
from linewright.base.evidence import Grade
from linewright.base.finding import Finding, Severity


def raised(
    code: str,
    about: tuple[str, ...],
    reason: str,
    remedy: str,
    *,
    system: str | None = None,
    value: str | None = None,
    limit: str | None = None,
    measure: float | None = None,
    printed: float | None = None,
    is_less_worse: bool = False,
    severity: Severity | None = None,
    source: str = "common practice",
    grade: Grade = Grade.PRACTICE,
) -> Finding:
    """Make a finding with the usual weight of its code.

    Parameters
    ----------
    code : str
        One of `base.codes.RULES`.
    about : tuple of str
        The ids it is about.
    reason : str
        What is wrong, with the numbers.
    remedy : str
        The way out.
    system : str or None
        The system it belongs to.
    value, limit : str or None
        For reading.
    measure : float or None
        How bad it is: higher is worse. [-]
    printed : float or None
        The number of ``value``, where it is not the measure. [SI]
    is_less_worse : bool
        Whether less of what is printed is worse.
    severity : Severity or None
        None for the usual weight of the code.
    source : str
        Where the rule is from.
    grade : Grade
        How far to trust it.

    Returns
    -------
    Finding
        Not overruled.

    Examples
    --------
    >>> raised("open-port", ("FC.drain",), "It is open.", "Plug it.").severity
    <Severity.STOP: 'stop'>
    """
    return Finding(
        code=code,
        severity=RULES[code] if severity is None else severity,
        about=about,
        reason=reason,
        remedy=remedy,
        value=value,
        limit=limit,
        source=source,
        grade=grade,
        system=system,
        measure=measure,
        printed=printed,
        is_less_worse=is_less_worse,
    )
