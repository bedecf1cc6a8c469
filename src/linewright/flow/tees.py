# SPDX-License-Identifier: Apache-2.0
"""Losses of tees after Crane, by how the flow splits; a network takes constant ones instead.

The coefficient of a branch or of a run can be negative, and depends on the split, so a solver
that took it could be driven in circles: `loss` ("tee-run", "tee-branch") is on the safe side.
All are for legs of one bore, on the leg that carries the whole flow.
"""

from math import cos, radians


def joining_branch(share: float, angle: float = 90.0) -> float:
    """Return the loss from the branch into the run.

    Parameters
    ----------
    share : float
        Flow of the branch over the whole. [-]
    angle : float
        Between branch and run. [deg]

    Returns
    -------
    float
        On the common leg; may be negative. [-]

    Examples
    --------
    >>> round(joining_branch(0.5), 3)
    0.413
    """
    scale = 0.9 * (1.0 - share) if share <= 0.4 else 0.55
    slanted = 0.0 if angle >= 90.0 else 2.0 * cos(radians(angle))
    return scale * (1.0 + share**2 - 2.0 * (1.0 - share) ** 2 - slanted * share**2)


def joining_run(share: float) -> float:
    """Return the loss straight on where a branch joins at a right angle.

    Parameters
    ----------
    share : float
        Flow of the branch over the whole. [-]

    Returns
    -------
    float
        On the common leg. [-]

    Examples
    --------
    >>> joining_run(0.5)
    0.525
    """
    return 1.55 * share - share**2


def parting_branch(share: float) -> float:
    """Return the loss into a branch at a right angle.

    Parameters
    ----------
    share : float
        Flow of the branch over the whole. [-]

    Returns
    -------
    float
        On the common leg. [-]

    Examples
    --------
    >>> round(parting_branch(1.0), 2)
    1.69
    """
    return (1.0 + 0.3 * share**2) ** 2


def parting_run(share: float) -> float:
    """Return the loss straight on where a branch parts.

    Parameters
    ----------
    share : float
        Flow of the branch over the whole. [-]

    Returns
    -------
    float
        On the common leg; may be negative. [-]

    Examples
    --------
    >>> round(parting_run(0.25), 4)
    -0.0625
    """
    scale = 2.0 * (2.0 * share - 1.0) if share <= 0.5 else 0.3 * (2.0 * share - 1.0)
    return scale * share**2
