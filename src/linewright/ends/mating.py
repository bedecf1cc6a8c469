# SPDX-License-Identifier: Apache-2.0
"""The answer to "does this seal with that": types shared by `mates` and its callers."""

from dataclasses import dataclass

from linewright.base.evidence import Grade


@dataclass(frozen=True, slots=True)
class SealNeed:
    """What one joint needs beside its two ends.

    ``what`` is one of: o-ring, face o-ring, washer, panel washer, gasket, paste, clamp,
    bolt, banjo bolt, nut, olive. ``size`` is the standard's word, e.g. ``AS568-908``,
    ``22 mm bore``. ``is_seal`` tells seals (material by fluid) from hardware.
    """

    what: str
    size: str
    count: int = 1
    is_seal: bool = True
    source: str = ""
    grade: Grade = Grade.PRACTICE


@dataclass(frozen=True, slots=True)
class Mating:
    """What comes of putting two ends together.

    ``ok`` is False also for unknown ends; ``why`` then says so. ``look_alike`` is True
    where the threads run together but nothing seals; ``hazard`` says what then happens.
    ``is_counted`` is False for welds and for the hose in its own end (not joints).
    """

    ok: bool
    why: str
    seals: tuple[SealNeed, ...] = ()
    look_alike: bool = False
    hazard: str = ""
    is_taper: bool = False
    is_counted: bool = True
    source: str = ""
    grade: Grade = Grade.PRACTICE
