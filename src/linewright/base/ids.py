# SPDX-License-Identifier: Apache-2.0
"""Ids of components, ports, lines and systems, and their order."""

import re
from typing import NewType

ComponentId = NewType("ComponentId", str)
PortId = NewType("PortId", str)
LineId = NewType("LineId", str)
SystemId = NewType("SystemId", str)

_WORD = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*\Z")
_NUMBER = re.compile(r"(\d+)")


def is_word(text: str) -> bool:
    """Whether `text` can be the id of a component, port, system or panel.

    Parameters
    ----------
    text : str
        The id as typed.

    Returns
    -------
    bool
        True for letters, digits and single inner hyphens, at most 40 long.

    Examples
    --------
    >>> is_word("oil-tank"), is_word("oil tank"), is_word("-x")
    (True, False, False)
    """
    return len(text) <= 40 and _WORD.match(text) is not None


def natural_key(text: str) -> tuple[tuple[int, int, str], ...]:
    """Sort key that puts O99 before O100.

    Parameters
    ----------
    text : str
        An id, or several joined by a blank.

    Returns
    -------
    tuple
        Runs of digits as numbers, all else as text.

    Examples
    --------
    >>> sorted(["O100", "O99", "F05b", "F05a"], key=natural_key)
    ['F05a', 'F05b', 'O99', 'O100']
    """
    parts = _NUMBER.split(text)
    return tuple((1, int(p), "") if p.isdigit() else (0, 0, p) for p in parts if p)
