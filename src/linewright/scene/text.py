# SPDX-License-Identifier: Apache-2.0
"""How wide a text is: from the advance widths of the font it is set in."""

from functools import lru_cache

from linewright.scene.drawing import Anchor, Pen, Point, Text

#: Weights in use: running text and bold, of Inter's weight axis (100 to 900).
REGULAR = 400
BOLD = 600


@lru_cache(maxsize=2)
def _advances(weight: int) -> tuple[dict[int, float], float]:
    """Advance of each character [em] at a weight, and that of an unknown one."""
    from importlib.resources import files

    from fontTools.ttLib import TTFont
    from fontTools.varLib.models import normalizeLocation
    from fontTools.varLib.varStore import VarStoreInstancer

    source = files("fontpkg_inter").joinpath("files", "Inter[opsz,wght].ttf")
    with source.open("rb") as stream:
        font = TTFont(stream, lazy=True)
        axes = {a.axisTag: (a.minValue, a.defaultValue, a.maxValue) for a in font["fvar"].axes}
        place = normalizeLocation({"wght": weight}, axes)
        if "avar" in font:
            from fontTools.varLib.models import piecewiseLinearMap

            maps = font["avar"].segments
            place = {tag: piecewiseLinearMap(v, maps[tag]) for tag, v in place.items()}
        variations = font["HVAR"].table
        deltas = VarStoreInstancer(variations.VarStore, font["fvar"].axes, place)
        mapping = variations.AdvWidthMap.mapping if variations.AdvWidthMap else None
        em = font["head"].unitsPerEm
        metrics = font["hmtx"]
        order = {name: number for number, name in enumerate(font.getGlyphOrder())}

        def advance(glyph: str) -> float:
            index = mapping[glyph] if mapping is not None else order[glyph]
            return float((metrics[glyph][0] + deltas[index]) / em)

        known = font.getBestCmap()
        widths = {code: advance(known[code]) for code in sorted(known) if code < 0x2600}
        return widths, max(advance(".notdef"), 1.0)


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Width of a text without kerning.

    Parameters
    ----------
    text : str
        One line.
    size : float
        Height of the font's em square. [mm]
    bold : bool
        Whether it is set bold.

    Returns
    -------
    float
        Sum of the advance widths. [mm]

    Examples
    --------
    >>> round(text_width("O01", 10.0), 1) < round(text_width("O01", 10.0, bold=True), 1)
    True
    """
    widths, unknown = _advances(BOLD if bold else REGULAR)
    return size * sum(widths.get(ord(character), unknown) for character in text)


def set_text(
    text: str,
    at: Point,
    size: float,
    *,
    bold: bool = False,
    anchor: Anchor = Anchor.START,
    upwards: bool = False,
    pen: Pen = Pen.INK,
    about: str = "",
    is_clear: bool = False,
) -> Text:
    """Set one line of text, its width reckoned.

    Parameters
    ----------
    text : str
        What it says.
    at : tuple of float
        Where, on the baseline. [mm]
    size : float
        Height of the font's em square. [mm]
    bold : bool
        Whether it is set bold.
    anchor : Anchor
        Which point of the text stands there.
    upwards : bool
        Whether it runs up the sheet.
    pen : Pen
        How dark.
    about : str
        Id of the component or line that it belongs to.
    is_clear : bool
        Whether it keeps a rim of ground round its letters, over what it lies on.

    Returns
    -------
    Text
        The text with its width.
    """
    width = text_width(text, size, bold=bold)
    return Text(at, text, size, width, bold, anchor, upwards, pen, about, is_clear)


def shortened(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """Return a text that fits a width, cut at its end with an ellipsis where it must be.

    Parameters
    ----------
    text : str
        One line.
    width : float
        Room for it. [mm]
    size : float
        Height of the font's em square. [mm]
    bold : bool
        Whether it is set bold.

    Returns
    -------
    str
        The text, or what fits of it.
    """
    if text_width(text, size, bold=bold) <= width:
        return text
    while text and text_width(text + "…", size, bold=bold) > width:
        text = text[:-1]
    return text.rstrip() + "…"


def wrapped(text: str, width: float, size: float, *, bold: bool = False) -> tuple[str, ...]:
    """Break a text into lines that fit a width, between words.

    Parameters
    ----------
    text : str
        What it says.
    width : float
        Room for a line. [mm]
    size : float
        Height of the font's em square. [mm]
    bold : bool
        Whether it is set bold.

    Returns
    -------
    tuple of str
        The lines; a single word that is too wide stands alone.
    """
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, bold=bold) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
