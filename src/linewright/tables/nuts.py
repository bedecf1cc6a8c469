# SPDX-License-Identifier: Apache-2.0
"""Widths across flats, for the spanner: nuts of bulkhead fittings."""

from functools import cache

from linewright.base.evidence import Figure, Grade
from linewright.tables.load import rows


@cache
def bulkhead_flats(dash: str) -> Figure | None:
    """Width across flats of the nut of a bulkhead fitting.

    Parameters
    ----------
    dash : str
        Dash of the fitting.

    Returns
    -------
    Figure or None
        In m; None where no table has it: measure the nut.

    Examples
    --------
    >>> bulkhead_flats("-6").value
    0.02065
    """
    for row in rows("bulkhead_nuts"):
        if row["dash"] == dash:
            basis = f"{row['source']}, {row['place']}"
            return Figure(float(row["flats_mm"]) / 1000, "m", Grade(row["grade"]), basis)
    return None
