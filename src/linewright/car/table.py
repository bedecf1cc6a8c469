# SPDX-License-Identifier: Apache-2.0
"""One table of the document, read key by key; what is wrong is collected, not raised."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from difflib import get_close_matches
from typing import Any, TypeVar

from linewright.base.errors import DocumentError, EndError, Fault, UnitError
from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding
from linewright.car.line_index import Path, shown_key

_T = TypeVar("_T")

#: More than these are not collected: nobody reads them, and the first explain the rest.
MOST_FAULTS = 200


def nearest(word: str, allowed: Iterable[str]) -> str:
    """Ask whether another word was meant.

    Parameters
    ----------
    word : str
        What was typed.
    allowed : Iterable of str
        What could have been meant.

    Returns
    -------
    str
        A blank and the question, or nothing where no word is near.

    Examples
    --------
    >>> nearest("fuell", ["fuel", "oil"])
    ' Did you mean "fuel"?'
    """
    words = list(dict.fromkeys(allowed))
    by_case = [w for w in words if w.casefold() == word.casefold()]
    near = by_case or get_close_matches(word[:80], words, 1, 0.6)
    return f' Did you mean "{near[0]}"?' if near else ""


def listed(words: Iterable[str], most: int = 24) -> str:
    """List words for a message.

    Parameters
    ----------
    words : Iterable of str
        In the order to show.
    most : int
        More of them are cut short.

    Returns
    -------
    str
        Joined by commas; "none" for none.
    """
    all_words = list(words)
    shown = ", ".join(all_words[:most])
    return f"{shown} ..." if len(all_words) > most else shown or "none"


def said(value: object) -> str:
    """Quote a value as it was typed, cut short where it is long.

    Parameters
    ----------
    value : object
        As the TOML reader gives it.

    Returns
    -------
    str
        One line.
    """
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            text = f'"{value}"'
        case dict():
            return "a table"
        case list():
            return "a list"
        case int() if value.bit_length() > 200:
            return "a number of more than 60 digits"
        case _:
            text = str(value)
    text = " ".join(text.split())
    return text if len(text) <= 62 else text[:57] + '..."'


class Log:
    """What reading one document met: faults, defaults that were taken, findings."""

    def __init__(self, file: str, lines: Mapping[Path, int]) -> None:
        self.file = file
        self.lines = lines
        self.found: list[Fault] = []
        self.assumed: list[tuple[str, str, Grade]] = []
        self.findings: list[Finding] = []
        #: Components whose kind is not known: what else is said of them cannot be judged.
        self.of_no_kind: set[str] = set()

    def line(self, path: Path) -> int | None:
        """Return the line of a key, or of the nearest table around it."""
        while path:
            if path in self.lines:
                return self.lines[path]
            path = path[:-1]
        return None

    def add(self, path: Path, message: str) -> None:
        """Note what is wrong at a key."""
        if len(self.found) < MOST_FAULTS:
            self.found.append(Fault(message, shown_key(path), self.line(path)))

    @property
    def is_full(self) -> bool:
        """Whether so much is wrong that more would not be read."""
        return len(self.found) >= MOST_FAULTS

    def assume(self, path: Path, value: str, grade: Grade) -> None:
        """Note a default that was taken, so that it can be shown."""
        self.assumed.append((shown_key(path), value, grade))

    def raise_if_any(self) -> None:
        """Raise all that was found, in the order of the document."""
        if self.found:
            ordered = sorted(dict.fromkeys(self.found), key=lambda f: f.line or 0)
            if self.is_full:
                ordered.append(Fault(f"and more; the first {MOST_FAULTS} are listed."))
            raise DocumentError(self.file, ordered)


class Table:
    """One table: asks for its keys, and refuses at the end what nobody asked for.

    Parameters
    ----------
    values : object
        What stands in the document; anything but a table is a fault.
    path : tuple
        Where it stands.
    log : Log
        Where to note what is wrong.
    what : str
        The noun for messages, as in "component".
    """

    def __init__(self, values: object, path: Path, log: Log, what: str) -> None:
        self.path = path
        self.log = log
        self.what = what
        self.values: dict[str, Any] = {}
        self.typed: dict[str, str] = {}
        self.known: list[str] = []
        if not isinstance(values, dict):
            log.add(path, f"{said(values)} is no {what}; write a table of keys and values.")
            return
        for key, value in values.items():
            plain = key.replace("_", "-")
            if plain in self.values:
                log.add((*path, key), f'stands twice, as "{self.typed[plain]}" and "{key}".')
                continue
            self.values[plain] = value
            self.typed[plain] = key

    def at(self, key: str) -> Path:
        """Return the path of one key, as it was typed."""
        return (*self.path, self.typed.get(key, key))

    def fault(self, key: str, message: str) -> None:
        """Note what is wrong with one key, or with the table for an empty key."""
        self.log.add(self.at(key) if key else self.path, message)

    def has(self, key: str) -> bool:
        """Whether a key was typed."""
        return key in self.values

    def raw(self, key: str) -> Any:
        """Return a value unread, and count its key as known."""
        if key not in self.known:
            self.known.append(key)
        return self.values.get(key)

    def text(self, key: str, default: str = "", *, most: int = 500) -> str:
        """Read a text."""
        value = self.raw(key)
        if value is None:
            return default
        if not isinstance(value, str):
            self.fault(key, f"{said(value)} is no text; write it in quotes.")
            return default
        if len(value) > most:
            self.fault(key, f"{said(value)} is too long; at most {most} letters.")
            return default
        return value.strip()

    def needed(self, key: str, example: str) -> str:
        """Read a text that must be there."""
        if not self.has(key):
            self.raw(key)
            self.fault("", f'"{key}" is missing; write for example {key} = "{example}".')
            return ""
        value = self.text(key)
        if not value and self.values[key] == "":
            self.fault(key, f'is empty; write for example {key} = "{example}".')
        return value

    def choice(self, key: str, allowed: Sequence[str], default: str) -> str:
        """Read one word of several."""
        value = self.text(key, default)
        if value == default or value in allowed:
            return value
        self.fault(
            key,
            f"{said(value)} is not allowed; allowed: {listed(allowed)}.{nearest(value, allowed)}",
        )
        return default

    def flag(self, key: str) -> bool | None:
        """Read true or false."""
        value = self.raw(key)
        if value is None or isinstance(value, bool):
            return value
        self.fault(key, f"{said(value)} is not allowed; allowed: true, false, without quotes.")
        return None

    def texts(self, key: str) -> tuple[str, ...]:
        """Read a list of texts; a single text is a list of one."""
        value = self.raw(key)
        if value is None:
            return ()
        items = [value] if isinstance(value, str) else value
        if not isinstance(items, list) or not all(isinstance(item, str) for item in items):
            self.fault(key, f'{said(value)} is no list of texts; write for example ["a", "b"].')
            return ()
        return tuple(item.strip() for item in items)

    def read(self, key: str, reader: Callable[[str], _T]) -> _T | None:
        """Read a text by a reader that raises what is wrong."""
        value = self.raw(key)
        if value is None:
            return None
        if not isinstance(value, str):
            if isinstance(value, int | float) and not isinstance(value, bool):
                try:
                    return reader(said(value))
                except (UnitError, EndError) as error:
                    self.fault(key, f"{error} A value with a unit stands in quotes.")
                    return None
            self.fault(key, f"{said(value)} is no value of this key; write it in quotes.")
            return None
        try:
            return reader(value)
        except (UnitError, EndError) as error:
            self.fault(key, str(error))
            return None

    def figure(
        self, key: str, reader: Callable[[str], float], unit: str, *, above: float | None = None
    ) -> Figure | None:
        """Read a quantity that the builder states; ``above`` is a limit it must exceed."""
        value = self.read(key, reader)
        if value is None:
            return None
        if above is not None and value <= above:
            self.fault(key, f"{said(self.values[key])} must be more than {above:g}.")
            return None
        return Figure(value, unit, Grade.STATED, "the car document")

    def table(self, key: str, what: str) -> "Table | None":
        """Return a table in this one."""
        value = self.raw(key)
        return None if value is None else Table(value, self.at(key), self.log, what)

    def items(self) -> Iterable[tuple[str, object]]:
        """Return what stands in a table whose keys are ids, as they were typed."""
        return [(self.typed[key], value) for key, value in self.values.items()]

    def done(self, also: Mapping[str, str] | None = None) -> None:
        """Refuse the keys that nobody asked for; ``also`` explains some of them."""
        article = "an" if self.what[0] in "aeiou" else "a"
        for key in self.values:
            if self.log.is_full:
                return
            if key in self.known:
                continue
            why = (also or {}).get(key)
            if why is not None:
                self.fault(key, why)
                continue
            self.fault(
                key,
                f"is no key of {article} {self.what}.{nearest(key, self.known)} "
                f"Allowed: {listed(self.known, 400)}.",
            )
