# SPDX-License-Identifier: Apache-2.0
"""What is screwed on an end: the same family and size, the other gender."""

from dataclasses import replace

from linewright.ends.end import End, Family, Gender

_NUTS = (Family.FLARE_37, Family.FLARE_45)


def counterpart(end: End) -> End:
    """The end that would be screwed on an end.

    Parameters
    ----------
    end : End
        An end with a gender.

    Returns
    -------
    End
        Its mate of the same family: a nut on a flare, R in Rc.

    Examples
    --------
    >>> str(counterpart(End(Family.FLARE_37, "-8", Gender.MALE)))
    'flare_37 -8 f swivel'
    """
    other = Gender.FEMALE if end.gender is Gender.MALE else Gender.MALE
    size = end.size
    if end.family is Family.BSPT:
        size = f"{'R' if other is Gender.MALE else 'Rc'} {size.split()[-1]}"
    is_nut = other is Gender.FEMALE and end.family in _NUTS
    return replace(end, gender=other, swivel=is_nut, size=size)
