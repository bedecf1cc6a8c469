# SPDX-License-Identifier: Apache-2.0
"""``linewright shop``: cars and their revisions, listed, added, saved, exported, compared."""

import getpass
import sys
import textwrap
from collections.abc import Iterable, Sequence
from pathlib import Path

from linewright.base.errors import DocumentError, ShopError
from linewright.base.shown import show_length
from linewright.car.read import read_text
from linewright.plan.compare import Difference
from linewright.plan.compare import compare as compared
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.shop.revisions import Cars, Revision
from linewright.shop.store import Shop, open_shop

_WIDTH = 100


def _opened(where: str) -> Shop:
    if where:
        return open_shop(where)
    import platformdirs

    return open_shop(platformdirs.user_data_path("linewright") / "shop.sqlite")


def _who(said: str) -> str:
    if said.strip():
        return said.strip()
    try:
        return getpass.getuser()
    except (OSError, KeyError):
        raise ShopError("Say who saves it: --who NAME.") from None


def _text(file: Path) -> str:
    try:
        return file.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise ShopError(
            f"{file} is not UTF-8 text: byte {error.start + 1} cannot be read. Save it as UTF-8."
        ) from error
    except OSError as error:
        raise ShopError(f"{file} cannot be read: {error.strerror or error}.") from error


def _columns(rows: Sequence[Sequence[str]], indent: str = "  ") -> None:
    """Print rows as columns, the last one as it is."""
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]) - 1)]
    for row in rows:
        cells = [cell.ljust(width) for cell, width in zip(row, widths, strict=False)]
        print(indent + "  ".join((*cells, row[-1])).rstrip())


def _when(revision: Revision) -> str:
    return f"{revision.saved_at.astimezone():%Y-%m-%d %H:%M}"


def _faults(text: str, file: str) -> tuple[str, str]:
    """Tell the name that a document gives its car, and what is wrong with it."""
    try:
        return read_text(text, file).name, ""
    except DocumentError as error:
        return "", str(error)


def _kept(revision: Revision, fault: str) -> int:
    print(f'"{revision.car}" is kept as revision {revision.number}.')
    if fault:
        print("It cannot be planned as it is:", file=sys.stderr)
        print(fault, file=sys.stderr)
    return 0


def list_cars(where: str) -> int:
    """Print the cars of a shop."""
    with _opened(where) as shop:
        cars = Cars(shop).all()
        name = shop.name
    if not cars:
        print(f"No car yet in {name}. Add one: linewright shop add CAR.toml")
        return 0
    print(f"{name}: {len(cars)} car{'' if len(cars) == 1 else 's'}")
    _columns(
        [
            (car.name, f"revision {car.head.number}", _when(car.head), car.head.who, car.head.why)
            for car in cars
        ]
    )
    return 0


def add(where: str, file: Path, name: str, who: str) -> int:
    """Add a car from its document; one that cannot be planned yet is kept as well."""
    text = _text(file)
    said, fault = _faults(text, str(file))
    with _opened(where) as shop:
        made = Cars(shop).add(name or said or file.stem, text, _who(who))
    return _kept(made, fault)


def save(where: str, car: str, file: Path, why: str, base: int | None, who: str) -> int:
    """Save a new revision of a car's document."""
    text = _text(file)
    _, fault = _faults(text, str(file))
    with _opened(where) as shop:
        cars = Cars(shop)
        head = cars.revision(car)
        made = cars.save(car, text, _who(who), why, head.number if base is None else base)
    if made.number == head.number:
        print(f'"{made.car}" has not changed since revision {made.number}.')
        return 0
    return _kept(made, fault)


def undo(where: str, car: str, who: str) -> int:
    """Bring back what stood there before the last change."""
    with _opened(where) as shop:
        cars = Cars(shop)
        made = cars.undo(car, _who(who), cars.revision(car).number)
    return _back(made)


def redo(where: str, car: str, who: str) -> int:
    """Bring back what was undone last."""
    with _opened(where) as shop:
        cars = Cars(shop)
        made = cars.redo(car, _who(who), cars.revision(car).number)
    return _back(made)


def _back(made: Revision) -> int:
    print(f'"{made.car}" is back at revision {made.restores}; that is kept as {made.number}.')
    return 0


def log(where: str, car: str) -> int:
    """Print the revisions of a car, newest first."""
    with _opened(where) as shop:
        past = Cars(shop).history(car)
    print(past[0].car)
    _columns([(f"{r.number:4}", _when(r), r.who, r.why) for r in reversed(past)])
    return 0


def export(where: str, car: str, file: Path) -> int:
    """Write a revision of a car's document to a file, or print it."""
    with _opened(where) as shop:
        found = _found(Cars(shop), car)
    if str(file) == "-":
        sys.stdout.write(found.text)
        return 0

    from linewright.faces.files.whole import write_whole

    write_whole(file, found.text)
    print(f'"{found.car}", revision {found.number}, written to {file}.')
    return 0


def _found(cars: Cars, said: str) -> Revision:
    """Read ``NAME`` or ``NAME@N``; a name may hold an @ of its own."""
    name, _, number = said.rpartition("@")
    if name and number.isdecimal():
        return cars.revision(name, int(number))
    return cars.revision(said)


def _planned(revision: Revision) -> Plan:
    return make(read_text(revision.text, f"{revision.car}@{revision.number}"))


def compare(where: str, before: str, after: str) -> int:
    """Print what changed from one revision or car to another."""
    with _opened(where) as shop:
        cars = Cars(shop)
        first = _found(cars, before)
        second = _found(cars, after) if after else cars.revision(first.car)
    plans = _planned(first), _planned(second)
    found = compared(*plans)
    print(f"{first.car}, revision {first.number} → {second.car}, revision {second.number}")
    if found.is_nothing:
        print("  Nothing changed: the same parts, lines and findings.")
        return 0
    tell(found, plans[1].car.show)
    return 0


def tell(found: Difference, show: str) -> None:
    """Print a difference in the units of a car."""
    if found.parts:
        print("\nParts to order:")
        _columns([(f"{p.before} → {p.after}", p.name) for p in found.parts])
    if found.hoses:
        print("\nHose needed:")
        _columns(
            [
                (f"{show_length(h.before, show)} → {show_length(h.after, show)}", h.name)
                for h in found.hoses
            ]
        )
    if found.lines:
        print("\nLines:")
        for line in found.lines:
            words = [f"{what} {a or '–'} → {b or '–'}" for what, a, b in line.what]
            lengths = [("–" if n is None else show_length(n, show)) for n in line.length]
            if lengths[0] != lengths[1]:
                words.append(f"length {lengths[0]} → {lengths[1]}")
            _told(line.run, words)
    for title, findings in (("Findings gained", found.gained), ("Findings lost", found.lost)):
        if findings:
            print(f"\n{title}:")
            for finding in findings:
                _told(f"{finding.severity} {finding.code}", [", ".join(finding.about)])


def _told(first: str, words: Iterable[str]) -> None:
    text = f"{first}: {'; '.join(words)}"
    print(textwrap.fill(text, _WIDTH, initial_indent="  ", subsequent_indent="      "))
