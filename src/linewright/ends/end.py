# SPDX-License-Identifier: Apache-2.0
"""An end: family, size and gender of one half of a connection."""

from dataclasses import dataclass
from enum import StrEnum


class Family(StrEnum):
    """The families of ends; the words are those of ``threads.csv`` where it has them."""

    FLARE_37 = "flare_37"
    FLARE_45 = "flare_45"
    INVERTED_FLARE = "inverted_flare"
    BUBBLE_FLARE = "bubble_flare"
    ORB_UNF = "orb_unf"
    ORFS = "orfs"
    NPT = "npt"
    NPTF = "nptf"
    BSPP = "bspp"
    BSPT = "bspt"
    ISO6149 = "iso6149"
    METRIC_FLAT_FACE = "metric_flat_face"
    BANJO = "banjo"  # an eye with its bolt (m); size is the bolt's thread
    BEAD = "bead"  # beaded tube for clamped hose; size is the tube OD in mm
    BARB = "barb"  # clamped or push-on spigot, small references too; size is the hose bore in mm
    TUBE = "tube"  # plain tube; size is the dash (OD in sixteenths) or "38 mm"
    FLANGE = "flange"  # bolted; size is the hole pattern, e.g. "2-bolt 38"
    VBAND = "vband"  # clamped flange; size is the pipe OD in mm
    WELD = "weld"  # to be welded; size empty, kind the metal
    SPINON = "spinon"  # filter mount: thread and gasket land
    QC = "qc"  # SAE J2044 quick connector; size in inches of the spigot
    HOSE = "hose"  # a hose, or what grips it; size dash or "38 mm", kind the hose family
    UNKNOWN = "unknown"
    OTHER = "other"  # thread as typed in size, seat in words in kind


class Gender(StrEnum):
    """Male, female, or none where the family has no genders."""

    MALE = "m"
    FEMALE = "f"
    NONE = ""


@dataclass(frozen=True, slots=True, order=True)
class End:
    """One half of a connection.

    ``str(end)`` is the canonical form used in tests, JSON and part codes:
    family, size, gender, and ``swivel`` where a nut turns, e.g.
    ``orb_unf -8 f``, ``bspp G 1/2 f``, ``flare_37 -10 f swivel``, ``hose -10 rubber``.
    Sizes: dash (``-8``) for flares, boss, face seal, hose; ``1/2`` for npt; ``G 1/2``;
    ``R 1/4`` male, ``Rc 1/4`` or ``Rp 1/4`` female; ``M18`` for iso6149; ``M18x1.5`` for
    flat face, bubble and banjo (``7/16-20`` and ``G 1/4`` banjos too); millimetres as a plain
    number for bead, barb, vband; ``3/4-16`` for spin-on; ``3/8`` for qc.
    """

    family: Family
    size: str
    gender: Gender = Gender.NONE
    swivel: bool = False
    kind: str = ""

    def __str__(self) -> str:
        words = [self.family.value, self.size, self.kind, self.gender.value]
        if self.swivel:
            words.append("swivel")
        return " ".join(word for word in words if word)

    @property
    def is_unknown(self) -> bool:
        """Whether nobody has measured this end yet."""
        return self.family is Family.UNKNOWN


UNKNOWN = End(Family.UNKNOWN, "")
