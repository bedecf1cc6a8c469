# SPDX-License-Identifier: Apache-2.0
"""Figures on paper: the builder's unit, no more digits than the grade deserves, its mark."""

from linewright.base.evidence import Figure, Grade
from linewright.base.shown import show_run
from linewright.base.telling import tape
from linewright.car.model import Tier

#: Mark of each grade on paper; the legend stands on every sheet that shows one.
MARKS = {
    Grade.READ: "R",
    Grade.DERIVED: "D",
    Grade.STATED: "S",
    Grade.RELAYED: "L",
    Grade.PRACTICE: "P",
    Grade.RECALLED: "M",
}

LEGEND = (
    "How a figure is known: R read in the source named, D derived from read figures, "
    "S stated by you, L relayed by a second-hand text, P practice of the trade, "
    "M from memory and still to be found."
)


#: Lengths of these tiers are shown as "about", to 10 mm or 1/2 in.
_ROUGH = (Tier.UNKNOWN, Tier.GUESS, Tier.PLACED)


def length(
    metres: float, show: str = "metric", *, is_rough: bool = False, unit: bool = True
) -> str:
    """Show a length as the builder reads it.

    Parameters
    ----------
    metres : float
        The length. [m]
    show : str
        ``metric`` or ``inch``.
    is_rough : bool
        Whether it deserves fewer digits, and the word "about".
    unit : bool
        Whether the unit stands behind it.

    Returns
    -------
    str
        Whole millimetres, or inches to the sixteenth.

    Examples
    --------
    >>> length(1.4523), length(1.4523, is_rough=True), length(0.9779, "inch")
    ('1,452 mm', 'about 1,450 mm', '38 1/2 in')
    """
    about = "about " if is_rough else ""
    if show == "inch":
        return f"{about}{tape(metres, 2 if is_rough else 16)}{' in' if unit else ''}"
    millimetres = metres * 1000
    rounded = round(millimetres / 10) * 10 if is_rough else round(millimetres)
    return f"{about}{rounded:,}{' mm' if unit else ''}"


def run(metres: float, show: str = "metric") -> str:
    """Show a length of hose to buy, in metres or feet.

    Parameters
    ----------
    metres : float
        The length. [m]
    show : str
        ``metric`` or ``inch``.

    Returns
    -------
    str
        Metres to the hundredth, or feet to the tenth.

    Examples
    --------
    >>> run(5.07), run(5.07, "inch")
    ('5.07 m', '16.6 ft')
    """
    return show_run(metres, show)


def marked(text: str, grade: Grade) -> str:
    """Put the mark of its grade behind a figure.

    Parameters
    ----------
    text : str
        The figure as shown.
    grade : Grade
        How it is known.

    Returns
    -------
    str
        The text, a blank, and the mark in brackets.

    Examples
    --------
    >>> marked("850 mm", Grade.DERIVED)
    '850 mm [D]'
    """
    return f"{text} [{MARKS[grade]}]"


def figure_length(figure: Figure | None, show: str, tier: Tier = Tier.STRING) -> str:
    """Show a length with its mark; a dash where there is none.

    Parameters
    ----------
    figure : Figure or None
        The length in metres.
    show : str
        ``metric`` or ``inch``.
    tier : Tier
        How the run is known: weak tiers get fewer digits.

    Returns
    -------
    str
        What to print.
    """
    if figure is None:
        return "–"
    return marked(length(figure.value, show, is_rough=tier in _ROUGH), figure.grade)
