# SPDX-License-Identifier: Apache-2.0
"""Reading the rows of a takeoff, as the worked systems do."""

from linewright.catalogue import stock
from linewright.takeoff.model import HoseRow, Row, Takeoff


def ends(row: Row) -> tuple[str, ...]:
    return tuple(str(end) for end in stock.generic().part(row.code).ends)


def group(takeoff: Takeoff, group: str) -> list[Row]:
    return [row for row in takeoff.rows if row.group == group]


def only(rows: list[Row], *words: str) -> Row:
    found = [row for row in rows if all(word in row.name for word in words)]

    assert len(found) == 1, (words, [row.name for row in rows])
    return found[0]


def hose(takeoff: Takeoff, size: str) -> HoseRow:
    return next(row for row in takeoff.hoses if row.size == size)
