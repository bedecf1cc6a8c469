# SPDX-License-Identifier: Apache-2.0
"""The shelf from a file: a CSV with bin, part, and count or length."""

from pathlib import Path

from linewright.base.errors import OrderError, UnitError
from linewright.base.units import length
from linewright.desk.tables import csv_rows, decoded, read_bytes, xlsx_sheets
from linewright.order.model import Offcut, Shelf, ShelfItem

_COLUMNS = ("bin", "part", "count", "length")


def read(path: Path) -> Shelf:
    """Read what the shop owns.

    Parameters
    ----------
    path : Path
        CSV or XLSX with the columns bin, part (our own code), count, and length for an offcut
        ("1.2 m", "48 in"). A part with a length is an offcut; ``count`` of them are alike.

    Returns
    -------
    Shelf
        In the order of the file.

    Raises
    ------
    OrderError
        If the file cannot be read, or a row makes no sense; every row is listed.
    """
    if path.suffix.lower() == ".xlsx":
        rows = next((rows for _, rows in xlsx_sheets(path)), [])
    else:
        rows = csv_rows(decoded(read_bytes(path)), path.name)
    rows = [(number, cells) for number, cells in rows if any(cell.strip() for cell in cells)]
    if not rows:
        return Shelf()
    heads = [cell.strip().lower() for cell in rows[0][1]]
    if "part" not in heads:
        raise OrderError(
            f"{path.name} has no column part. Its first row names the columns: "
            f"{', '.join(_COLUMNS)}."
        )
    items: list[ShelfItem] = []
    offcuts: list[Offcut] = []
    faults: list[str] = []
    for number, cells in rows[1:]:
        said = {head: cell.strip() for head, cell in zip(heads, cells, strict=False)}
        try:
            _row(said, items, offcuts)
        except (OrderError, UnitError, ValueError) as error:
            faults.append(f"{path.name} row {number}: {error}")
    if faults:
        raise OrderError("\n".join(faults))
    return Shelf(tuple(items), tuple(offcuts))


def _row(said: dict[str, str], items: list[ShelfItem], offcuts: list[Offcut]) -> None:
    part, bin_ = said.get("part", ""), said.get("bin", "")
    if not part:
        raise OrderError("no part is named. Write its code as the parts list does.")
    count = said.get("count", "")
    if count and not (count.isascii() and count.isdigit()):
        raise OrderError(f'count "{count}" is no whole number of pieces.')
    many = int(count) if count else 1
    if said.get("length"):
        value = length(said["length"])
        if value <= 0:
            raise OrderError(f'length "{said["length"]}" is not above nothing.')
        offcuts += [Offcut(bin_, part, value)] * many
        return
    if not count:
        raise OrderError(f"{part} has neither a count nor a length.")
    items.append(ShelfItem(bin_, part, many))
