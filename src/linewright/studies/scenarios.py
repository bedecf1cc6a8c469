# SPDX-License-Identifier: Apache-2.0
"""Drawn builds: for each, which parts are short, and by how many."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linewright.base import draws
from linewright.studies.model import Case, Cause, Stock

Counts = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Drawn:
    """So many builds, drawn.

    ``codes`` are the parts that any cause touches, in the order of the columns of ``short``
    (builds × codes): how many pieces, or tenths of a metre of hose, are short [-]. ``lost`` marks
    builds in which something came up that nothing bought ahead would have covered; it counts
    such causes. ``hits`` (builds × causes) tells which way each cause came out, 0 as planned.
    """

    codes: tuple[str, ...]
    short: Counts
    lost: Counts
    hits: NDArray[np.int16]
    change: Counts
    spare: Counts
    hose: Counts

    @property
    def sufficient(self) -> Flags:
        """The builds for which nothing further had to be ordered (builds)."""
        enough: Flags = (self.lost == 0) & ~(self.short > 0).any(axis=1)
        return enough


def draw(case: Case, count: int, purpose: str) -> Drawn:
    """Draw builds.

    Parameters
    ----------
    case : Case
        What may go wrong, and what is had.
    count : int
        How many builds. [-]
    purpose : str
        What they are for: draws that chose something never judge it, so each purpose has
        streams of its own.

    Returns
    -------
    Drawn
        The same for the same case, count and purpose, whatever else the case holds.
    """
    codes = _codes(case)
    column = {code: i for i, code in enumerate(codes)}
    parts = len(codes) - len(case.stocks)
    change = np.zeros((count, parts), np.int64)
    lost = np.zeros(count, np.int64)
    hits = np.zeros((count, len(case.causes)), np.int16)
    for number, cause in enumerate(case.causes):
        way = ways(case, cause, count, purpose)
        hits[:, number] = way
        for which, outcome in enumerate(cause.outcomes, 1):
            hit = way == which
            lost += hit & (not outcome.is_coverable)
            for code, more in outcome.change:
                if code in column:
                    change[hit, column[code]] += more
    for loss in case.losses:
        stream = draws.stream(case.seed, purpose, "lost", loss.code)
        share = min(loss.share * case.errors, 1.0)
        change[:, column[loss.code]] += stream.binomial(loss.count, share, count)
    spare = np.array(
        [case.have.get(code, 0) - case.need.get(code, 0) for code in codes[:parts]], np.int64
    )
    hose = np.zeros((count, len(case.stocks)), np.int64)
    for number, stock in enumerate(case.stocks):
        hose[:, number] = lengths_short(case, stock, count, purpose)
    short = np.hstack((np.maximum(change - spare, 0), hose))
    return Drawn(codes, short, lost, hits, change, spare, hose)


def ways(case: Case, cause: Cause, count: int, purpose: str) -> NDArray[np.int16]:
    """Draw which way a cause comes out.

    Parameters
    ----------
    case : Case
        Its seed, and how its chances are scaled.
    cause : Cause
        The cause. Causes with one tie share a stream, so that they come out together.
    count : int
        How many builds. [-]
    purpose : str
        What they are for.

    Returns
    -------
    numpy.ndarray
        0 as planned, else the number of the outcome, counted from 1 (builds).
    """
    names = ("tie", cause.tie) if cause.tie else ("cause", cause.id)
    drawn = draws.stream(case.seed, purpose, *names).random(count)
    # What is surely other than planned is that however kind the estimates are.
    errors = 1.0 if cause.share >= 1.0 else case.errors
    shares = np.array([o.share for o in cause.outcomes]) * errors
    whole = shares.sum()
    if whole > 1.0:
        shares /= whole
    # Planned stands first, so that tied causes fail together and the surest one fails last.
    edges = np.concatenate(((max(1.0 - shares.sum(), 0.0),), shares)).cumsum()
    found: NDArray[np.int16] = np.searchsorted(edges[:-1], drawn, side="right").astype(np.int16)
    return found


def lengths_short(case: Case, stock: Stock, count: int, purpose: str) -> Counts:
    """Draw the lengths of the pieces of one hose, and cut them from what is had.

    Parameters
    ----------
    case : Case
        Its seed, and how its scatter is scaled.
    stock : Stock
        What is had of the hose, and its pieces.
    count : int
        How many builds. [-]
    purpose : str
        What they are for.

    Returns
    -------
    numpy.ndarray
        Hose that was short, in tenths of a metre, rounded up (builds). [0.1 m]

    Notes
    -----
    The longest piece goes first into the shortest length that takes it. That may call a build
    short that a better cutting plan would have saved, never the other way round.
    """
    if not stock.pieces:
        return np.zeros(count, np.int64)
    common = draws.stream(case.seed, purpose, "tape").standard_normal(count)
    scatter = np.empty((count, len(stock.pieces)))
    for i, piece in enumerate(stock.pieces):
        own = draws.stream(case.seed, purpose, "piece", piece.piece).standard_normal(count)
        error = case.errors * (piece.sigma * own + piece.common * common)
        scatter[:, i] = piece.length * np.maximum(1.0 + error - piece.slack, 0.0)
    # A piece is cut as planned where it comes out shorter: what is saved is not counted on.
    scatter = np.maximum(scatter, [p.length * (1.0 - p.slack) for p in stock.pieces])
    return _missing(-np.sort(-scatter, axis=1), stock)


def _missing(pieces: NDArray[np.float64], stock: Stock) -> Counts:
    """Cut pieces (builds × pieces, longest first) from what is had; tell what is left over."""
    builds = np.arange(len(pieces))
    left = np.tile(np.array((*stock.lengths, 0.0)), (len(pieces), 1))  # 0 where nothing is had
    missing = np.zeros(len(pieces))
    for length in pieces.T:
        fits = left >= length[:, None] - 1e-9
        best = np.where(fits, left, np.inf).argmin(axis=1)
        is_cut = fits[builds, best]
        left[builds, best] -= np.where(is_cut, length + stock.kerf, 0.0)
        missing += np.where(is_cut, 0.0, length + stock.kerf)
    found: Counts = np.ceil(missing * 10 - 1e-6).astype(np.int64)
    return found


def _codes(case: Case) -> tuple[str, ...]:
    touched: dict[str, None] = {}
    gains: defaultdict[str, int] = defaultdict(int)
    for cause in case.causes:
        for outcome in cause.outcomes:
            for code, more in outcome.change:
                gains[code] = max(gains[code], more)
    for code in sorted(gains):
        if gains[code] > 0:  # what is only needed less is never short
            touched[code] = None
    for loss in case.losses:
        touched[loss.code] = None
    for code, need in case.need.items():
        if case.have.get(code, 0) < need:  # short from the start
            touched[code] = None
    return (*touched, *(stock.code for stock in case.stocks))


class Settled:
    """Drawn builds as they would be with more and more causes settled before ordering."""

    def __init__(self, drawn: Drawn, case: Case) -> None:
        self._drawn, self._case = drawn, case
        parts = drawn.change.shape[1]
        self._column = {code: i for i, code in enumerate(drawn.codes[:parts])}
        self._change = drawn.change.copy()
        self._lost = drawn.lost.copy()
        self._is_hose_enough: Flags = np.asarray(~(drawn.hose > 0).any(axis=1))
        self._enough: Flags = drawn.sufficient

    @property
    def count(self) -> int:
        """Builds for which nothing further had to be ordered."""
        return int(self._enough.sum())

    def tried(self, numbers: Sequence[int]) -> int:
        """Count the builds that would be enough if some causes were settled too.

        Parameters
        ----------
        numbers : sequence of int
            Which causes: what was ordered is then right for them.

        Returns
        -------
        int
            Builds for which nothing further had to be ordered.
        """
        rows = self._hit(numbers)
        _, _, enough = self._without(rows, numbers)
        return self.count - int(self._enough[rows].sum()) + int(enough.sum())

    def settle(self, numbers: Sequence[int]) -> None:
        """Settle some causes for good."""
        rows = self._hit(numbers)
        self._change[rows], self._lost[rows], self._enough[rows] = self._without(rows, numbers)

    def _hit(self, numbers: Sequence[int]) -> Counts:
        found: Counts = np.flatnonzero((self._drawn.hits[:, list(numbers)] > 0).any(axis=1))
        return found

    def _without(self, rows: Counts, numbers: Sequence[int]) -> tuple[Counts, Counts, Flags]:
        change, lost = self._change[rows], self._lost[rows]
        for number in numbers:
            for which, outcome in enumerate(self._case.causes[number].outcomes, 1):
                hit = self._drawn.hits[rows, number] == which
                lost = lost - (hit & (not outcome.is_coverable))
                for code, more in outcome.change:
                    if code in self._column:
                        change[hit, self._column[code]] -= more
        enough = (lost == 0) & ~(change > self._drawn.spare).any(axis=1)
        return change, lost, enough & self._is_hose_enough[rows]
