# SPDX-License-Identifier: Apache-2.0
"""Cars and the saved revisions of their documents: added to, never overwritten."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256
from itertools import pairwise

from sqlalchemy import Connection, Row, select
from sqlalchemy.exc import IntegrityError

from linewright.base.errors import ShopError
from linewright.base.ids import natural_key
from linewright.shop import schema
from linewright.shop.store import Shop

#: A document longer than this is no car's. [characters]
LONGEST = 5_000_000

_LONGEST_NAME = 200

# Ways that step along the changes, where the others make one.
_STEPPING = ("undo", "redo")


@dataclass(frozen=True, slots=True)
class Revision:
    """One saved state of a car's document.

    ``number`` counts from 1 in each car. ``way`` is ``typed``, ``undo``, ``redo`` or
    ``restored``; for the last three, ``restores`` is the revision whose text came back.
    """

    car: str
    number: int
    text: str
    saved_at: datetime
    who: str
    why: str
    way: str = "typed"
    restores: int | None = None

    @property
    def sha256(self) -> str:
        """Digest of the text, as a plan's record names it."""
        return sha256(self.text.encode()).hexdigest()

    @property
    def holds(self) -> int:
        """Which revision the car stands at: after an undo or redo, an earlier one."""
        return self.restores if self.way in _STEPPING and self.restores else self.number


class ConflictError(ShopError):
    """Somebody saved first: ``head`` is what stands there now."""

    def __init__(self, message: str, head: Revision) -> None:
        super().__init__(message)
        self.head = head


@dataclass(frozen=True, slots=True)
class _Car:
    """The row of a car."""

    id: int
    name: str
    added_at: datetime
    added_by: str


@dataclass(frozen=True, slots=True)
class _Trace:
    """A revision without its text, which is long."""

    number: int
    way: str
    holds: int


@dataclass(frozen=True, slots=True)
class CarInShop:
    """A car of the shop and its newest revision."""

    name: str
    added_at: datetime
    added_by: str
    head: Revision


def _now() -> datetime:
    return datetime.now(UTC)


class Cars:
    """The cars of a shop.

    Parameters
    ----------
    shop : Shop
        An open shop.
    clock : callable, optional
        Tells the time, for saying when a revision was saved.
    """

    def __init__(self, shop: Shop, clock: Callable[[], datetime] = _now) -> None:
        self._shop = shop
        self._clock = clock

    def names(self) -> tuple[str, ...]:
        """List the names of all cars, in the order people count in."""
        with self._shop.reading() as connection:
            found = connection.execute(select(schema.car.c.name)).scalars().all()
        return tuple(sorted(found, key=natural_key))

    def all(self) -> tuple[CarInShop, ...]:
        """List all cars with their newest revisions."""
        return tuple(self.car(name) for name in self.names())

    def car(self, name: str) -> CarInShop:
        """Find a car by its name, in whatever case it is written.

        Raises
        ------
        ShopError
            If there is none.
        """
        with self._shop.reading() as connection:
            row = self._row(connection, name)
            return CarInShop(row.name, row.added_at, row.added_by, _head(connection, row))

    def add(self, name: str, text: str, who: str, why: str = "added") -> Revision:
        """Add a car with the first revision of its document.

        Parameters
        ----------
        name : str
            A name that no car of the shop has, case aside.
        text : str
            The document. It need not be usable: a half-written one is kept as well.
        who, why : str
            Who added it, and why.

        Returns
        -------
        Revision
            Its revision 1.

        Raises
        ------
        ShopError
            If the name is empty, too long or taken, or the text too long.
        """
        name = _name(name)
        _check(text, who)
        try:
            with self._shop.writing() as connection:
                at = self._clock()
                connection.execute(
                    schema.car.insert().values(
                        name=name, key=name.casefold(), added_at=at, added_by=who
                    )
                )
                car = self._row(connection, name)
                return self._insert(connection, car, Revision(name, 1, text, at, who, why))
        except ShopError as error:
            if isinstance(error.__cause__, IntegrityError):
                raise ShopError(
                    f'There is a car "{name}" in {self._shop.name}. '
                    "Save a new revision of it, or choose another name."
                ) from error
            raise

    def save(self, name: str, text: str, who: str, why: str, base: int) -> Revision:
        """Save a new revision on top of the one that it was made from.

        Parameters
        ----------
        name : str
            The car.
        text : str
            The whole document as it is now.
        who, why : str
            Who saved it, and why.
        base : int
            Number of the revision that the text was made from.

        Returns
        -------
        Revision
            The new revision; the newest one where the text has not changed.

        Raises
        ------
        ConflictError
            If somebody saved in between; ``head`` is what stands there.
        ShopError
            If there is no such car, or the text is too long.
        """
        _check(text, who)

        def step(connection: Connection, car: _Car, head: Revision) -> Revision:
            if text == head.text:
                return head
            return self._insert(
                connection, car, Revision(car.name, base + 1, text, self._clock(), who, why)
            )

        return self._on_top(name, base, step)

    def undo(self, name: str, who: str, base: int) -> Revision:
        """Bring back the text before the last change, as a new revision.

        Raises
        ------
        ConflictError
            If somebody saved in between.
        ShopError
            If nothing is left to undo.
        """

        def choose(past: tuple[_Trace, ...]) -> tuple[int, str]:
            at = past[-1].holds
            if at == 1:
                raise ShopError(f'"{name}" stands at its first revision: nothing to undo.')
            # Where the car stood before that change.
            return past[at - 2].holds, f"revision {at} undone"

        return self._bring_back(name, who, base, "undo", choose)

    def redo(self, name: str, who: str, base: int) -> Revision:
        """Bring back what was undone last, as a new revision.

        Raises
        ------
        ConflictError
            If somebody saved in between.
        ShopError
            If nothing was undone since the last change.
        """

        def choose(past: tuple[_Trace, ...]) -> tuple[int, str]:
            undone = _undone(past)
            if not undone:
                raise ShopError(f'Nothing was undone in "{name}" since its last change.')
            return undone[-1], f"revision {undone[-1]} done again"

        return self._bring_back(name, who, base, "redo", choose)

    def restore(self, name: str, number: int, who: str, why: str, base: int) -> Revision:
        """Bring back the text of any revision, as a new one.

        Raises
        ------
        ConflictError
            If somebody saved in between.
        ShopError
            If there is no such car or revision.
        """

        def choose(past: tuple[_Trace, ...]) -> tuple[int, str]:
            if not 1 <= number <= len(past):
                raise _no_revision(name, number, len(past))
            return number, why

        return self._bring_back(name, who, base, "restored", choose)

    def history(self, name: str) -> tuple[Revision, ...]:
        """List all revisions of a car, oldest first.

        Raises
        ------
        ShopError
            If there is no such car.
        """
        with self._shop.reading() as connection:
            row = self._row(connection, name)
            return _past(connection, row)

    def revision(self, name: str, number: int | None = None) -> Revision:
        """Fetch one revision of a car, the newest one where no number is given.

        Raises
        ------
        ShopError
            If there is no such car or revision.
        """
        with self._shop.reading() as connection:
            row = self._row(connection, name)
            return _head(connection, row) if number is None else _fetch(connection, row, number)

    def _bring_back(
        self,
        name: str,
        who: str,
        base: int,
        way: str,
        choose: Callable[[tuple[_Trace, ...]], tuple[int, str]],
    ) -> Revision:
        """Save the text of an earlier revision, chosen from what was saved so far."""

        def step(connection: Connection, car: _Car, head: Revision) -> Revision:
            number, why = choose(_traces(connection, car))
            text = _fetch(connection, car, number).text
            if text == head.text and way == "restored":
                return head
            made = Revision(car.name, base + 1, text, self._clock(), who, why, way, number)
            return self._insert(connection, car, made)

        _check("", who)
        return self._on_top(name, base, step)

    def _on_top(
        self, name: str, base: int, step: Callable[[Connection, _Car, Revision], Revision]
    ) -> Revision:
        """Take a step if ``base`` is the newest revision, or tell who came first."""
        try:
            with self._shop.writing() as connection:
                car = self._row(connection, name)
                head = _head(connection, car)
                if head.number != base:
                    raise _conflict(head, base)
                return step(connection, car, head)
        except ShopError as error:
            # Two writers at once, where the database let both in: the second one is refused.
            if isinstance(error.__cause__, IntegrityError):
                raise _conflict(self.revision(name), base) from error
            raise

    def _row(self, connection: Connection, name: str) -> _Car:
        key = " ".join(name.split()).casefold()
        row = connection.execute(select(schema.car).where(schema.car.c.key == key)).one_or_none()
        if row is None:
            names = connection.execute(select(schema.car.c.name)).scalars().all()
            known = ", ".join(sorted(names, key=natural_key)) or "none yet"
            raise ShopError(f'There is no car "{name}" in {self._shop.name}. Cars there: {known}.')
        return _Car(row.id, row.name, row.added_at, row.added_by)

    @staticmethod
    def _insert(connection: Connection, car: _Car, made: Revision) -> Revision:
        connection.execute(
            schema.revision.insert().values(
                car_id=car.id,
                number=made.number,
                way=made.way,
                restores=made.restores,
                text=made.text,
                sha256=made.sha256,
                saved_at=made.saved_at,
                who=made.who,
                why=made.why,
            )
        )
        return made


def _name(name: str) -> str:
    name = " ".join(name.split())
    if not name:
        raise ShopError("A car needs a name.")
    if len(name) > _LONGEST_NAME:
        raise ShopError(
            f"A car's name has {len(name)} letters, at most {_LONGEST_NAME} are kept. Shorten it."
        )
    if not name.isprintable():
        raise ShopError(f"A car's name holds a character that cannot be printed: {name!r}.")
    return name


def _check(text: str, who: str) -> None:
    if len(text) > LONGEST:
        raise ShopError(
            f"The document has {len(text):,} characters, at most {LONGEST:,} are kept. "
            "Is it a car's?"
        )
    if "\0" in text:
        raise ShopError("The document holds a null character: it is not a text.")
    if not who.strip():
        raise ShopError("Say who saves it.")


def _revision(car: str, row: Row[tuple[object, ...]]) -> Revision:
    found = Revision(
        car, row.number, row.text, row.saved_at, row.who, row.why, row.way, row.restores
    )
    if found.sha256 != row.sha256:
        raise ShopError(
            f'Revision {row.number} of "{car}" is damaged: its text does not match its digest. '
            "Fetch the shop from its backup."
        )
    return found


def _past(connection: Connection, car: _Car) -> tuple[Revision, ...]:
    t = schema.revision
    found = connection.execute(select(t).where(t.c.car_id == car.id).order_by(t.c.number)).all()
    return tuple(_revision(car.name, each) for each in found)


def _traces(connection: Connection, car: _Car) -> tuple[_Trace, ...]:
    t = schema.revision
    found = connection.execute(
        select(t.c.number, t.c.way, t.c.restores).where(t.c.car_id == car.id).order_by(t.c.number)
    ).all()
    return tuple(
        _Trace(r.number, r.way, r.restores if r.way in _STEPPING else r.number) for r in found
    )


def _head(connection: Connection, car: _Car) -> Revision:
    t = schema.revision
    found = connection.execute(
        select(t).where(t.c.car_id == car.id).order_by(t.c.number.desc()).limit(1)
    ).one()
    return _revision(car.name, found)


def _fetch(connection: Connection, car: _Car, number: int) -> Revision:
    t = schema.revision
    found = connection.execute(
        select(t).where(t.c.car_id == car.id, t.c.number == number)
    ).one_or_none()
    if found is None:
        raise _no_revision(car.name, number, _head(connection, car).number)
    return _revision(car.name, found)


def _undone(past: tuple[_Trace, ...]) -> list[int]:
    """What was undone since the last change and not done again, last undone at the end."""
    undone: list[int] = []
    for before, after in pairwise(past):
        if after.way == "undo":
            undone.append(before.holds)
        elif after.way == "redo":
            undone.pop()
        else:
            undone.clear()
    return undone


def _no_revision(name: str, number: int, newest: int) -> ShopError:
    return ShopError(f'"{name}" has no revision {number}: they go from 1 to {newest}.')


def _conflict(head: Revision, base: int) -> ConflictError:
    return ConflictError(
        f'"{head.car}" has moved on: {head.who} saved revision {head.number} '
        f"({head.why}), while this was made from revision {base}. Nothing is overwritten: "
        "compare the two, then save on top of the newer one.",
        head,
    )
