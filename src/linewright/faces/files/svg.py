# SPDX-License-Identifier: Apache-2.0
"""A drawing as SVG: millimetres, one style sheet, the same bytes each time."""

from dataclasses import replace
from html import escape

from linewright.scene.drawing import (
    Anchor,
    Circle,
    Drawing,
    Group,
    Ink,
    Mark,
    Pen,
    Polyline,
    Rect,
    Text,
)
from linewright.scene.linetypes import LINE_TYPES, ink_of

_LIGHT = {"ground": "#fefefe", "ink": "#1b1b1b", "quiet": "#595959", "card": "#f6f6f3",
          "rule": "#6b6b6b", "hair": "#b9b9b4"}  # fmt: skip
_DARK = {"ground": "#14171a", "ink": "#ececea", "quiet": "#a9adb0", "card": "#1d2125",
         "rule": "#7d8387", "hair": "#4a5055"}  # fmt: skip


def _number(value: float) -> str:
    """A length with two places, which is a hundredth of a millimetre."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _style(drawing: Drawing, dark: bool) -> str:
    c = _DARK if dark else _LIGHT
    system = ink_of(drawing.letter, dark=dark)
    scale = max(min(drawing.scale, 1.15), 0.7)

    def pen(width: float) -> str:
        return _number(width * scale)

    rules = [
        # Optical size, kerning and alternates off: widths are as reckoned from the font.
        'text{font-family:Inter,"Inter Variable",sans-serif;font-optical-sizing:none;'
        "font-kerning:none;font-variant-ligatures:none;"
        f'font-feature-settings:"calt" 0,"kern" 0;fill:{c["ink"]}}}',
        f".b{{font-weight:600}}.quiet{{fill:{c['quiet']}}}",
        "polyline,polygon,circle,rect{fill:none;stroke-linejoin:round}",
        f".card{{fill:{c['card']};stroke:{c['hair']};stroke-width:{pen(0.18)}}}",
        f".glyph{{stroke:{c['ink']};stroke-width:{pen(0.4)}}}",
        f".fine,.lead{{stroke:{c['ink']};stroke-width:{pen(0.25)}}}",
        f".dashed{{stroke:{c['ink']};stroke-width:{pen(0.3)};"
        f"stroke-dasharray:{pen(1)} {pen(0.7)}}}",
        f".solid{{fill:{c['ink']}}}",
        f".paper{{fill:{c['ground']}}}",
        f".panel{{stroke:{c['ink']};stroke-width:{pen(1.2)}}}",
        f".rule{{stroke:{c['rule']};stroke-width:0.2}}.frame{{stroke:{c['ink']};stroke-width:0.35}}",
        f".alert{{stroke:{c['ink']};stroke-width:{pen(0.45)}}}",
        f".fit{{stroke:{c['ink']};stroke-width:{pen(1.5)}}}",
        f".fit-core{{stroke:{c['ground']};stroke-width:{pen(0.85)}}}",
        f".arrow{{fill:{system}}}",
        f".open-arrow{{fill:{c['ground']};stroke:{system};stroke-width:{pen(0.35)}}}",
        f".system{{fill:{c['ink']}}}",
    ]
    letters = sorted({m.letter for m in drawing.marks if isinstance(m, Polyline) and m.letter})
    for letter in letters:
        kind = LINE_TYPES.get(letter, LINE_TYPES["A"])
        dashes = " ".join(pen(d) for d in kind.dashes)
        rules.append(
            f".pipe.l{letter}{{stroke:{system};stroke-width:{pen(kind.pen)}"
            + (f";stroke-dasharray:{dashes}" if dashes else "")
            + "}"
        )
    rules += _spatial_style(drawing, dark)
    rules += _plot_style(drawing, dark)
    return "".join(rules)


def _mixed(colour: str, ground: str, share: float) -> str:
    """A colour let down with the ground it stands on."""
    pairs = ((int(colour[i : i + 2], 16), int(ground[i : i + 2], 16)) for i in (1, 3, 5))
    return "#" + "".join(f"{round(c * share + g * (1 - share)):02x}" for c, g in pairs)


def _spatial_style(drawing: Drawing, dark: bool) -> list[str]:
    """Rules of views to scale, for what is drawn there and nothing else."""
    c = _DARK if dark else _LIGHT
    mixed = _mixed(c["rule"], c["ground"], 0.75)
    plain = {
        Ink.BODY: f"fill:{c['card']};stroke:{mixed};stroke-width:0.25",
        Ink.BEHIND: f"stroke:{mixed};stroke-width:0.18;stroke-dasharray:1.2 0.8",
        Ink.ZONE: f"stroke:{c['quiet']};stroke-width:0.22;stroke-dasharray:3 0.8 0.6 0.8",
        Ink.HATCH: f"stroke:{c['rule']};stroke-width:0.1",
        Ink.HALO: f"stroke:{c['ground']}",
        Ink.FITTING: f"stroke:{c['ink']}",
        Ink.RULER: f"stroke:{c['rule']};stroke-width:0.18",
        Ink.HIDDEN_CORE: f"stroke:{c['card']}",
    }
    used = {m.ink for m in drawing.marks if not isinstance(m, Text)}
    rules = [f".{ink.value}{{{rule}}}" for ink, rule in plain.items() if ink in used]
    if any(isinstance(m, Text) and m.is_clear for m in drawing.marks):
        rules.append(
            f".clear{{fill:{c['ground']};stroke:{c['ground']};stroke-width:0.9;"
            "stroke-linejoin:round}"
        )
    letters = {m.system for m in drawing.marks if isinstance(m, Polyline | Circle) and m.system}
    for letter in sorted(letters):
        colour = ink_of(letter, dark=dark)
        rules.append(
            f".hose.s{letter},.hose-axis.s{letter},.hidden.s{letter}{{stroke:{colour}}}"
            f".hose-core.s{letter}{{stroke:{_mixed(colour, c['ground'], 0.3)}}}"
        )
    if letters:
        rules.append(
            ".hose-axis{stroke-width:0.2}.hidden{stroke-dasharray:1.3 0.9}"
            "circle.hose,circle.hidden{stroke-width:0.25}circle.hidden{stroke-dasharray:0.8 0.6}"
        )
    return rules


def _plot_style(drawing: Drawing, dark: bool) -> list[str]:
    """Rules of plots, for what is drawn there and nothing else."""
    c = _DARK if dark else _LIGHT
    curve = f"stroke:{c['ink']};stroke-width:0.5"
    plain = {
        Ink.GRID: f"stroke:{c['hair']};stroke-width:0.15",
        Ink.CURVE: curve,
        Ink.CURVE_2: f"{curve};stroke-dasharray:3.2 1.2",
        Ink.CURVE_3: f"{curve};stroke-dasharray:5 1 0.9 1",
        Ink.CURVE_4: f"{curve};stroke-dasharray:0.9 0.9",
        Ink.AREA: f"fill:{_mixed(ink_of(drawing.letter, dark=dark), c['ground'], 0.22)}",
        Ink.BAR: f"fill:{_mixed(c['ink'], c['ground'], 0.8)}",
        Ink.LIMIT: f"stroke:{c['ink']};stroke-width:0.35;stroke-dasharray:2 1",
    }
    used = {m.ink for m in drawing.marks if not isinstance(m, Text)}
    return [f".{ink.value}{{{rule}}}" for ink, rule in plain.items() if ink in used]


def _points(mark: Polyline) -> str:
    return " ".join(f"{_number(x)},{_number(y)}" for x, y in mark.points)


def _classes(mark: Mark) -> str:
    if isinstance(mark, Polyline) and mark.ink is Ink.PIPE:
        return f"pipe l{mark.letter}"
    if isinstance(mark, Polyline | Circle) and mark.system:
        return f"{mark.ink.value} s{mark.system}"
    return "" if not hasattr(mark, "ink") else str(mark.ink.value)


def _pen(mark: Polyline) -> str:
    """Width of a stroke that has its own, and the dashes of a hose's centreline."""
    style = f"stroke-width:{_number(mark.width)}" if mark.width else ""
    if mark.ink is Ink.HOSE_AXIS and mark.letter in LINE_TYPES:
        dashes = " ".join(_number(d * 0.6) for d in LINE_TYPES[mark.letter].dashes)
        style += f"stroke-dasharray:{dashes}" if dashes else ""
    return f' style="{style}"' if style else ""


def _mark(mark: Mark) -> str:
    if isinstance(mark, Polyline):
        tag = "polygon" if mark.closed else "polyline"
        pen = _pen(mark)
        return f'<{tag} class="{_classes(mark)}" points="{_points(mark)}"{pen}/>'
    if isinstance(mark, Circle):
        x, y = mark.at
        return (
            f'<circle class="{_classes(mark)}" cx="{_number(x)}" cy="{_number(y)}" '
            f'r="{_number(mark.radius)}"/>'
        )
    if isinstance(mark, Rect):
        b = mark.box
        return (
            f'<rect class="{_classes(mark)}" x="{_number(b.left)}" y="{_number(b.top)}" '
            f'width="{_number(b.width)}" height="{_number(b.height)}"/>'
        )
    if mark.is_clear:
        # The rim of the whole word first: some readers would paint that of one letter over the
        # letter before it.
        plain = replace(mark, is_clear=False)
        return _text(plain, "clear") + _text(plain)
    return _text(mark)


def _text(mark: Text, more: str = "") -> str:
    x, y = mark.at
    known = (("b", mark.bold), (mark.pen.value, mark.pen is not Pen.INK), (more, bool(more)))
    names = [name for name, on in known if on]
    anchor = {Anchor.MIDDLE: "middle", Anchor.END: "end"}.get(mark.anchor)
    attributes = f' class="{" ".join(names)}"' if names else ""
    attributes += f' text-anchor="{anchor}"' if anchor else ""
    attributes += f' transform="rotate(-90 {_number(x)} {_number(y)})"' if mark.upwards else ""
    # textLength holds the reckoned width where another font has to stand in for Inter.
    return (
        f'<text x="{_number(x)}" y="{_number(y)}" font-size="{_number(mark.size)}" '
        f'textLength="{_number(mark.width)}" lengthAdjust="spacingAndGlyphs"{attributes}>'
        f"{escape(mark.text)}</text>"
    )


def _group(group: Group) -> str:
    title = f"<title>{escape(group.title)}</title>" if group.title else ""
    body = "".join(_mark(m) for m in group.marks)
    return f'<g data-about="{escape(group.about)}">{title}{body}</g>'


def svg(drawing: Drawing, *, dark: bool = False) -> str:
    """Write a drawing as an SVG document.

    Parameters
    ----------
    drawing : Drawing
        The drawing.
    dark : bool
        Whether it stands on a dark ground, for a screen.

    Returns
    -------
    str
        The document; the same drawing gives the same text.
    """
    w, h = _number(drawing.width), _number(drawing.height)
    ground = (_DARK if dark else _LIGHT)["ground"]
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" '
        f'viewBox="0 0 {w} {h}" role="img" aria-labelledby="title desc">',
        f'<title id="title">{escape(drawing.title)}</title>',
        f'<desc id="desc">{escape(drawing.description)}</desc>',
        f"<style>{_style(drawing, dark)}</style>",
        f'<rect width="{w}" height="{h}" style="fill:{ground}"/>',
        *(_group(g) for g in drawing.groups),
        "</svg>",
    ]
    return "\n".join(lines) + "\n"
