# SPDX-License-Identifier: Apache-2.0
"""What forbids an order, on its first page."""

from linewright.plan.model import Plan
from linewright.sheets.table import Column, Table


def stops(plan: Plan) -> Table:
    """List the stops of a plan: what they are about is not to be ordered.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Table
        One row a stop.
    """
    return Table(
        "order-stops",
        "Do not order yet, stops first",
        (Column("Stop", 1.0), Column("About", 1.2), Column("Why", 4.0)),
        tuple((f.code, ", ".join(f.about), f.reason) for f in plan.stops),
        note="What a stop is about is not to be ordered: settle it first, or hold it.",
        empty="None.",
    )
