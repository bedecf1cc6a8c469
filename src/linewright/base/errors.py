# SPDX-License-Identifier: Apache-2.0
"""The tree of errors: an error stops, a finding goes on.

::

    LinewrightError
    ├── TableError(ValueError)          a shipped table is damaged
    ├── UnitError(ValueError)           a typed quantity cannot be read
    ├── EndError(ValueError)            a typed end cannot be read
    │   └── AmbiguousEndError           it can be read in several ways: ``readings``
    ├── CatalogueError(LookupError)     no such part, or a part that cannot exist
    ├── DocumentError(ValueError)       the car document is not usable: ``faults``
    ├── RouteError(ValueError)          a run of hose that geometry does not allow
    ├── FlowError(ValueError)           a network that cannot be solved: ``faults``
    ├── OrderError(ValueError)          offers or wishes that no sum can be made of
    ├── ShopError(RuntimeError)         the shop cannot do what was asked; nothing changed in it
    │   └── ConflictError               somebody saved first: ``head``
    ├── MissingToolError(RuntimeError)  something needed is not installed here
    └── OutputError(OSError)            a result could not be written
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any


class LinewrightError(Exception):
    """Anything that linewright itself refuses; faces print it plainly."""


class TableError(LinewrightError, ValueError):
    """A shipped table is damaged or cites a source that is not there."""


class UnitError(LinewrightError, ValueError):
    """A typed quantity cannot be read."""


class EndError(LinewrightError, ValueError):
    """A typed end cannot be read."""


class AmbiguousEndError(EndError):
    """A typed end can be read in several ways; ``readings`` lists them.

    Parameters
    ----------
    message : str
        What was typed, the readings, and how to tell them apart.
    readings : Sequence
        The ends that the text may mean, likeliest first.
    """

    def __init__(self, message: str, readings: Sequence[Any] = ()) -> None:
        super().__init__(message)
        self.readings = tuple(readings)


class CatalogueError(LinewrightError, LookupError):
    """No such part, or a part that the trade does not sell."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong in a document: where, which key, what is allowed."""

    message: str
    key: str = ""
    line: int | None = None

    def __str__(self) -> str:
        place = f"line {self.line}: " if self.line else ""
        return f"{place}{self.key + ': ' if self.key else ''}{self.message}"


class DocumentError(LinewrightError, ValueError):
    """The car document is not usable; ``faults`` lists every reason.

    Parameters
    ----------
    file : str
        Name of the document, as the builder typed it.
    faults : Sequence of Fault
        All that was found wrong, in the order of the document.
    """

    def __init__(self, file: str, faults: Sequence[Fault]) -> None:
        self.file = file
        self.faults = tuple(faults)
        super().__init__(
            "\n".join(f"{file}{',' if fault.line else ':'} {fault}" for fault in self.faults)
        )


class RouteError(LinewrightError, ValueError):
    """A run of hose that geometry does not allow."""


class FlowError(LinewrightError, ValueError):
    """A flow network cannot be solved as it stands; ``faults`` lists why.

    Parameters
    ----------
    message : str
        All faults in words, a line each.
    faults : Sequence
        The same as values.
    """

    def __init__(self, message: str, faults: Sequence[Any] = ()) -> None:
        super().__init__(message)
        self.faults = tuple(faults)


class OrderError(LinewrightError, ValueError):
    """Offers, terms or wishes of which no order can be made."""


class ShopError(LinewrightError, RuntimeError):
    """The shop cannot do what was asked; nothing has changed in it."""


class MissingToolError(LinewrightError, RuntimeError):
    """Something that is needed is not installed here."""


class OutputError(LinewrightError, OSError):
    """A result could not be written."""
