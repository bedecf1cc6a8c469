# SPDX-License-Identifier: Apache-2.0
"""What a check has to say, and the work steps that a sheet prints."""

from dataclasses import dataclass
from enum import StrEnum

from linewright.base.evidence import Grade


class Severity(StrEnum):
    """How much a finding weighs, worst first.

    A stop means: do not order or build. An ask means that data is missing.
    """

    STOP = "stop"
    WARN = "warn"
    ASK = "ask"
    NOTE = "note"

    @property
    def rank(self) -> int:
        """Place in the order of weight, 0 for a stop. [-]"""
        return tuple(Severity).index(self)


@dataclass(frozen=True, slots=True)
class Overrule:
    """A builder's decision to live with a finding."""

    code: str
    about: tuple[str, ...]
    reason: str
    by: str = ""
    when: str = ""
    accepted: float | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding: code, weight, what it is about, and the way out.

    ``measure`` is the number that an overrule is held against: higher is worse;
    None where the finding has no number. ``value`` and ``limit`` are for reading.
    ``printed`` is the number of ``value`` in SI where it is not the measure itself (a share
    kept, a distance between two ports); ``is_less_worse`` says that less of it is worse. What
    an overrule accepts is typed as it is printed.
    """

    code: str
    severity: Severity
    about: tuple[str, ...]
    reason: str
    remedy: str = ""
    value: str | None = None
    limit: str | None = None
    source: str = ""
    grade: Grade = Grade.PRACTICE
    system: str | None = None
    measure: float | None = None
    overruled: Overrule | None = None
    printed: float | None = None
    is_less_worse: bool = False

    @property
    def key(self) -> tuple[str, tuple[str, ...]]:
        """Identity of the finding: its code and the sorted ids it is about."""
        return self.code, tuple(sorted(self.about))


@dataclass(frozen=True, slots=True)
class WorkStep:
    """A line that a sheet prints for the hand at the vice; not a finding."""

    code: str
    about: tuple[str, ...]
    text: str
