# SPDX-License-Identifier: Apache-2.0
"""What the checks have to say, in the units of the car."""

from dataclasses import replace

from linewright.base.finding import Finding
from linewright.base.telling import told
from linewright.checks.model import Checked


def in_units(checked: Checked, show: str) -> Checked:
    """Say all that was found in the units of a car.

    Parameters
    ----------
    checked : Checked
        Findings, proof, risks and steps, with metric quantities.
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    Checked
        The same in the units of the car; numbers that overrules are held against stay in SI.
    """
    if show != "inch":
        return checked
    return Checked(
        tuple(finding_in(finding, show) for finding in checked.findings),
        tuple(replace(p, by=told(p.by, show), reason=told(p.reason, show)) for p in checked.proof),
        tuple(
            replace(risk, what=told(risk.what, show), remedy=told(risk.remedy, show))
            for risk in checked.risks
        ),
        tuple(replace(step, text=told(step.text, show)) for step in checked.steps),
    )


def finding_in(finding: Finding, show: str) -> Finding:
    """Say one finding in the units of a car.

    Parameters
    ----------
    finding : Finding
        With metric quantities.
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    Finding
        Its reason, way out, value and limit in the units of the car.
    """
    return replace(
        finding,
        reason=told(finding.reason, show),
        remedy=told(finding.remedy, show),
        value=told(finding.value, show) if finding.value is not None else None,
        limit=told(finding.limit, show) if finding.limit is not None else None,
    )
