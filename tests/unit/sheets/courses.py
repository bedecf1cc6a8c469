# SPDX-License-Identifier: Apache-2.0
"""Courses of hoses made by hand for the tests of what is told of them."""

from math import pi

from linewright.routes.route import BandRow, Clearance, Route
from linewright.space.model import EndShape, Setting
from linewright.space.path import Path, length


def elbow_course() -> Route:
    """A hose with two elbows and one bend; its numbers are made up."""
    path = Path(((0.0, 0.0, 0.0), (0.3, 0.0, 0.0), (0.3, 0.3, 0.0)), (0.1,))
    elbow = EndShape(90, 0.062, 0.034, stick_out=0.02, price_index=2.0)
    other = EndShape(45, 0.08, 0.02, price_index=1.8)
    return Route(
        "O07",
        Setting(elbow, pi / 2, (0.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, -1.0)),
        Setting(other, 0.0, (0.3, 0.3, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)),
        path,
        length(path),
        210.0,
        0.05,
        Clearance(0.012, "ENG", (0.3, 0.0, 0.1)),
        band=(
            BandRow(90, 45, True, 0.6, 0.05, 1, 3.8, 2.25, 0.97),
            BandRow(0, 0, True, 0.9, 0.274, 3, 2.5, 4.5, 0.4),
            BandRow(0, 90, False, price_index=3.0, why_not="ENG is in the way"),
            BandRow(45, 90, False, price_index=3.0, why_not="ENG is in the way"),
        ),
        sureness=0.97,
        to_be_sure="measure the direction of ENG.oil-out to 3°",
        holes=(("firewall", (0.1, 0.0, 0.0)),),
        highs=((0.1, 0.2, 0.3),),
    )


def straight_course() -> Route:
    """A straight hose between two straight ends, with nothing near."""
    path = Path(((0.0, 0.0, 0.0), (0.5, 0.0, 0.0)), ())
    end = EndShape(0, 0.06, 0.0)
    return Route(
        "O02",
        Setting(end, 0.0, (0.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
        Setting(end, 0.0, (0.5, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
        path,
        length(path),
        None,
        0.0,
        None,
    )
