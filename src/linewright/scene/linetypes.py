# SPDX-License-Identifier: Apache-2.0
"""Letters of the line types: what each means, its colour and its dashes.

Colours are from the set of Okabe and Ito (2008), told apart by the colour-blind; those of it
that are too pale on paper (3:1) stand on the dark ground only. Meaning never rests on colour:
the letter heads every line's number, and the dashes differ.
"""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LineType:
    """How the lines of one letter look; dashes in mm, stroke and gap in turn."""

    letter: str
    words: str
    light: str
    dark: str
    dashes: tuple[float, ...] = ()
    pen: float = 0.7  # width of the stroke [mm]


#: Colours of Okabe and Ito, black and white added for the two grounds.
ORANGE, SKY, GREEN, BLUE, VERMILION, PURPLE = (
    "#e69f00",
    "#56b4e9",
    "#009e73",
    "#0072b2",
    "#d55e00",
    "#cc79a7",
)

LINE_TYPES: Mapping[str, LineType] = {
    t.letter: t
    for t in (
        LineType("O", "oil", VERMILION, ORANGE),
        LineType("C", "engine coolant", GREEN, GREEN, (7.0, 1.1)),
        LineType("W", "charge coolant", BLUE, SKY, (8.0, 0.9, 1.0, 0.9, 1.0, 0.9)),
        LineType("F", "fuel", PURPLE, PURPLE, (8.0, 0.9, 1.0, 0.9)),
        LineType("A", "charge air", "#1b1b1b", "#f2f2ee", (), 1.1),
        LineType("V", "vent, breather, bleed", "", "", (2.2, 1.3), 0.5),
        LineType("D", "drain, by gravity", "", "", (3.4, 1.2, 0.7, 1.2), 0.5),
        LineType("R", "reference: signal, no flow", "", "", (0.7, 1.0), 0.5),
    )
}
"""By letter; vents, drains and references have no colour of their own, they take the system's."""


def ink_of(system_letter: str, *, dark: bool = False) -> str:
    """Colour of a system.

    Parameters
    ----------
    system_letter : str
        Its letter.
    dark : bool
        Whether it stands on the dark ground.

    Returns
    -------
    str
        The colour as #rrggbb; that of charge air (ink) for a letter of the builder's own.

    Examples
    --------
    >>> ink_of("O"), ink_of("O", dark=True)
    ('#d55e00', '#e69f00')
    """
    known = LINE_TYPES.get(system_letter)
    if known is None or not known.light:
        known = LINE_TYPES["A"]
    return known.dark if dark else known.light
