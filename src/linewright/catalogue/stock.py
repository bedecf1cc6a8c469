# SPDX-License-Identifier: Apache-2.0
"""The catalogue: every generic part, found by code, by what it faces, by the hose it grips."""

import difflib
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from functools import cache
from types import MappingProxyType

from linewright.base.errors import CatalogueError
from linewright.catalogue import adaptors, branches, clamped, elbows, hose_ends, plugs, sundries
from linewright.catalogue.part import Part
from linewright.catalogue.trade import Offer, offers
from linewright.ends.end import End, Family
from linewright.ends.mates import mates

#: Which function makes which shape of ``trade.csv``.
MAKERS: Mapping[str, Callable[[Offer], Part]] = MappingProxyType(
    {
        **dict.fromkeys(adaptors.SHAPES, adaptors.adaptor),
        "elbow": elbows.elbow,
        "bulkhead": elbows.bulkhead,
        "banjo adaptor": elbows.banjo,
        "banjo hose end": elbows.banjo,
        "hose end": hose_ends.hose_end,
        "tee": branches.branch,
        "y block": branches.branch,
        "gauge adaptor": branches.branch,
        "barb tee": branches.branch,
        "take-off plate": branches.filter_mount,
        "filter head": branches.filter_mount,
        "plug": plugs.closure,
        "cap": plugs.closure,
        "bung": plugs.bung,
        "drain flange": plugs.drain_flange,
        "coupler": clamped.silicone,
        "silicone": clamped.silicone,
        "pipe": clamped.pipe,
        "bead joiner": clamped.joiner,
        "v-band flange": clamped.v_band_flange,
        "tube nut": clamped.tube_nut,
    }
)


#: Families whose sizes are millimetres of one spigot, named a little apart (63 and 63.5).
_CLAMPED = (Family.BEAD, Family.BARB)


def _size_word(end: End) -> str:
    """What two ends must share before it is worth asking whether they mate.

    Ends of one thread, pipe, bolt pattern or hose have one size word; the letters before it
    (G, R, Rc) differ. A wrong word here would hide a part: the tests compare with asking all.
    """
    if end.family in _CLAMPED or end.kind == "clamped":
        return "clamped"
    return end.size.rpartition(" ")[2]


class Catalogue:
    """Parts that can be bought, and those that a builder holds in his hand.

    Parameters
    ----------
    parts : Iterable of Part
        The parts; a code may come once.

    Raises
    ------
    CatalogueError
        If two parts have one code.
    """

    __slots__ = ("_by_code", "_by_end", "_by_hose", "_by_word", "_facing", "parts")

    parts: tuple[Part, ...]

    def __init__(self, parts: Iterable[Part]) -> None:
        self.parts = tuple(sorted(parts, key=lambda part: part.code))
        self._by_code = {part.code: part for part in self.parts}
        if len(self._by_code) != len(self.parts):
            counted = Counter(part.code for part in self.parts)
            twice = next(code for code, count in counted.items() if count > 1)
            raise CatalogueError(
                f"part code {twice!r} is there twice; give the second part a code of its own"
            )
        self._by_end: dict[End, list[tuple[Part, int]]] = {}
        hoses: dict[tuple[str, str], list[Part]] = {}
        for part in self.parts:
            for index, end in enumerate(part.ends):
                self._by_end.setdefault(end, []).append((part, index))
                if end.family is Family.HOSE and end.kind != "clamped":
                    hoses.setdefault((end.kind, end.size), []).append(part)
        self._by_hose = {
            key: tuple(sorted(found, key=lambda p: (p.angle, p.price_index, p.code)))
            for key, found in hoses.items()
        }
        self._by_word: dict[str, list[End]] = {}
        for end in self._by_end:
            self._by_word.setdefault(_size_word(end), []).append(end)
        self._facing: dict[End, tuple[tuple[Part, int], ...]] = {}

    def __len__(self) -> int:
        return len(self.parts)

    @property
    def ends(self) -> tuple[End, ...]:
        """Every different end in the catalogue."""
        return tuple(self._by_end)

    def part(self, code: str) -> Part:
        """Part of a code.

        Parameters
        ----------
        code : str
            The code.

        Returns
        -------
        Part
            The part.

        Raises
        ------
        CatalogueError
            If there is none; the message has the nearest codes.
        """
        found = self._by_code.get(code)
        if found is not None:
            return found
        near = difflib.get_close_matches(code, self._by_code, n=3, cutoff=0.6)
        hint = f"the nearest codes are {', '.join(near)}" if near else "no code is near it"
        raise CatalogueError(
            f"part {code!r}: the catalogue has no such code; {hint}. "
            "A part that you hold in your hand goes under [parts]."
        )

    def facing(self, end: End) -> tuple[tuple[Part, int], ...]:
        """Parts that mate with an end.

        Parameters
        ----------
        end : End
            Any end.

        Returns
        -------
        tuple of (Part, int)
            Each part with the index of its end that mates, in the order of the codes. Asked
            again, the same end costs a look-up.
        """
        found = self._facing.get(end)
        if found is None:
            matched = [
                entry
                for other in self._by_word.get(_size_word(end), ())
                if mates(end, other).ok
                for entry in self._by_end[other]
            ]
            matched.sort(key=lambda entry: (entry[0].code, entry[1]))
            found = self._facing[end] = tuple(matched)
        return found

    def hose_ends(self, ends_key: str, dash: str) -> tuple[Part, ...]:
        """Parts that grip a hose: hose ends, and banjos on the hose.

        Parameters
        ----------
        ends_key : str
            Family of ends that the hose takes: ``rubber``, ``PTFE`` or ``push-on``.
        dash : str
            Dash size of the hose.

        Returns
        -------
        tuple of Part
            Sorted by angle, then price, then code; empty where the trade has none.
        """
        return self._by_hose.get((ends_key, dash), ())

    def of_shape(self, shape: str) -> tuple[Part, ...]:
        """Parts of one shape.

        Parameters
        ----------
        shape : str
            The shape, as `Part.shape` has it.

        Returns
        -------
        tuple of Part
            In the order of the codes.
        """
        return tuple(part for part in self.parts if part.shape == shape)

    def with_parts(self, extra: Iterable[Part]) -> "Catalogue":
        """A catalogue that also has parts which a builder holds.

        Parameters
        ----------
        extra : Iterable of Part
            The parts; they need not be sold anywhere.

        Returns
        -------
        Catalogue
            A new catalogue; this one stays as it is.

        Raises
        ------
        CatalogueError
            If a code is taken.
        """
        added = tuple(extra)
        return Catalogue((*self.parts, *added)) if added else self


@cache
def generic() -> Catalogue:
    """All that the trade sells, made once in a process.

    Returns
    -------
    Catalogue
        The generic catalogue.

    Raises
    ------
    CatalogueError
        If ``trade.csv`` offers a part that cannot exist.
    """
    parts = [MAKERS[offer.shape](offer) for offer in offers()]
    parts += sundries.sundries()
    parts += (clamp.part for clamp in sundries.clamps())
    return Catalogue(parts)
