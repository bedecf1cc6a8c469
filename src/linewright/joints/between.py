# SPDX-License-Identifier: Apache-2.0
"""What a chain between two bare ends has to do, told from their families alone."""

from linewright.ends.end import End, Family
from linewright.joints.chain import Options

_SPIGOTS = (Family.BEAD, Family.BARB)


def options_between(near: End, far: End) -> Options:
    """Options under which a plan would join two ends.

    Parameters
    ----------
    near : End
        The end to start from.
    far : End
        The end to arrive at.

    Returns
    -------
    Options
        The angle open; joiners and reducing couplers where clamped hose is what joins, a
        tube nut where one is plain tube.

    Examples
    --------
    >>> bead = End(Family.BEAD, "38")
    >>> options_between(bead, bead).has_reducers
    True
    """
    is_clamped = _is_clamped(near) and _is_clamped(far)
    is_hose = _is_clamped_hose(near) or _is_clamped_hose(far)
    return Options(
        angle=None,
        has_joiners=is_clamped or is_hose,
        has_reducers=is_clamped or is_hose,
        is_tube=Family.TUBE in (near.family, far.family),
    )


def _is_clamped_hose(end: End) -> bool:
    return end.family is Family.HOSE and end.kind == "clamped"


def _is_clamped(end: End) -> bool:
    return end.family in _SPIGOTS or _is_clamped_hose(end)
