# SPDX-License-Identifier: Apache-2.0
"""What it costs to be surer: the chance that one order is enough against the price of spares."""

from linewright.base.money import digits
from linewright.scene.drawing import Anchor, Box, Circle, Drawing, Ink, Mark, Polyline
from linewright.scene.plots import SHEET, TEXT, TICK, Frame, Page, axis, put, room, whiskers
from linewright.scene.plots import says_lines as lines_of
from linewright.scene.text import set_text
from linewright.studies.spares import Curve

#: How near to one another two labels may stand. [mm]
_GAP = 4.5


def draw_curve(curve: Curve, currency: str, page: Page, best: int | None = None) -> Drawing:
    """Draw the chance that one order is enough against what its spares cost.

    Parameters
    ----------
    curve : Curve
        Sets of spares, from none on.
    currency : str
        Three letters, or nothing where prices are indices.
    page : Page
        What the title block says.
    best : int, optional
        Which point costs least in all, with a second order where it comes to it.

    Returns
    -------
    Drawing
        The sheet.
    """
    one = 10.0 ** digits(currency) if currency else 1.0
    costs = [point.net / one for point in curve.points]
    chances = [100.0 * point.chance.share for point in curve.points]
    most = 100.0 * curve.most.share
    said = (
        f"As it stands the order is enough with a chance of {chances[0]:.0f} %; with all spares "
        f"that help and are for sale, of {most:.0f} %. The rest is what nobody can buy ahead of."
    )
    whole = room(len(lines_of(said)))
    unit = currency or "price index"
    box = Box(whole.left + 18.0, whole.top + 6.0, whole.right - 22.0, whole.bottom - 14.0)
    frame = Frame(
        box,
        axis(f"Spares less the refunds to be expected, {unit}", costs),
        axis("Chance that nothing further is ordered, %", [*chances, most, 0.0]),
    )
    top = frame.at(0.0, most)[1]
    marks: list[Mark] = [*frame.axes(), Polyline(((box.left, top), (box.right, top)), Ink.LIMIT)]
    stairs: list[tuple[float, float]] = []
    for i, (cost, chance) in enumerate(zip(costs, chances, strict=True)):
        if i:
            stairs.append(frame.at(cost, chances[i - 1]))
        stairs.append(frame.at(cost, chance))
    marks.append(Polyline(tuple(stairs), Ink.CURVE))
    last = (-100.0, -100.0)
    for i, (cost, chance) in enumerate(zip(costs, chances, strict=True)):
        at = frame.at(cost, chance)
        error = 200.0 * curve.points[i].chance.error
        low, high = frame.at(cost, max(chance - error, 0.0)), frame.at(cost, chance + error)
        marks += [*whiskers(low, high), Circle(at, 0.9, Ink.SOLID)]
        words = f"{chance:.0f} %" + (", least in all" if i == best else "")
        is_free = abs(at[0] - last[0]) > _GAP or abs(at[1] - last[1]) > _GAP
        if is_free or i == best:
            spot = (at[0] + 1.8, at[1] + 3.4)
            marks.append(set_text(words, spot, TEXT if i == best else TICK, bold=i == best))
            last = at
    spot = (box.right, top - 1.4)
    marks.append(set_text("all that is for sale", spot, TICK, anchor=Anchor.END))
    key = (
        (Ink.CURVE, "the cheapest set of spares for each chance; whiskers: 95 % of counting"),
        (Ink.LIMIT, "what spares can reach"),
    )
    return put(page, "How sure one order is", said, marks, key, "", SHEET)
