# SPDX-License-Identifier: Apache-2.0
"""The pieces of hose that a line is made of: one, or more where it passes panels."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from linewright.base.evidence import Figure, Grade, weakest
from linewright.base.ids import natural_key
from linewright.car.model import Car, Line, Tier
from linewright.joints.model import Joints, Termination
from linewright.joints.offered import setting
from linewright.routes.model import By
from linewright.routes.tiers import Length, band, share

_CHASSIS = "chassis"


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of hose with its two ends, before its lengths are worked out."""

    id: str
    line: Line
    ends: tuple[Termination, Termination]
    tier: Tier
    string: Figure | None
    straight: Figure | None
    crosses: bool
    is_shared_out: bool = False  # the length is a share of the line's, its panel not placed
    by: By = By.NOTHING

    @property
    def is_one_shape(self) -> bool:
        """Whether one moulded shape reaches from port to port: no hose is cut."""
        return is_one_shape(self.ends)


def is_one_shape(ends: Iterable[Termination]) -> bool:
    """Whether one moulded shape is the whole line.

    Parameters
    ----------
    ends : Iterable of Termination
        The ends of a piece.

    Returns
    -------
    bool
        True where its chain says so.
    """
    return any(end.chain is not None and end.chain.is_whole_line for end in ends)


def by_hose(joints: Joints) -> dict[str, dict[str, tuple[Termination, Termination]]]:
    """Both ends of every piece of hose, by line and by piece.

    Parameters
    ----------
    joints : Joints
        What the joints stage offered.

    Returns
    -------
    dict
        Line id → piece id → (end A, end B), pieces in order from A.
    """
    found: dict[str, dict[str, dict[str, Termination]]] = {}
    for end in joints.terminations:
        found.setdefault(end.line, {}).setdefault(end.hose, {})[end.side] = end
    return {
        line: {
            hose: (_end(ends, hose, line, "A"), _end(ends, hose, line, "B"))
            for hose, ends in sorted(hoses.items(), key=lambda item: natural_key(item[0]))
        }
        for line, hoses in found.items()
    }


def _end(ends: Mapping[str, Termination], hose: str, line: str, side: str) -> Termination:
    return ends.get(side) or Termination(hose, line, side, "", None)


def cut_up(
    car: Car,
    line: Line,
    whole: Length,
    hoses: Mapping[str, tuple[Termination, Termination]],
) -> tuple[Piece, ...]:
    """Share a line's length out to its pieces.

    Parameters
    ----------
    car : Car
        The car document as read.
    line : Line
        The line.
    whole : Length
        How long the whole line is.
    hoses : Mapping
        Piece id → its two ends, in order from A; empty stands for one piece without ends.

    Returns
    -------
    tuple of Piece
        In order from A. Where the place of a panel along the line is not typed the
        length is shared out evenly and each share is no better than a guess.
    """
    ends = dict(hoses) or {
        line.id: (_end({}, line.id, line.id, "A"), _end({}, line.id, line.id, "B"))
    }
    moves = _moves(car, line, len(ends))
    by = _by(whole)
    if len(ends) == 1:
        ((hose, pair),) = ends.items()
        piece = Piece(hose, line, pair, whole.tier, whole.string, whole.straight, moves[0], by=by)
        return (piece,)
    typed = _typed_lengths(line, whole, len(ends))
    is_even = not typed
    figures = (
        _even_shares(car, whole, len(ends))
        if is_even
        else tuple(share(car, whole, length) for length in typed)
    )
    if is_even and whole.string is not None:
        tier, by = Tier.GUESS, By.GUESS
    else:
        tier = whole.tier
    return tuple(
        Piece(hose, line, pair, tier, figures[i], None, moves[i], is_even, by)
        for i, (hose, pair) in enumerate(ends.items())
    )


def _by(whole: Length) -> By:
    """What the length of a whole line was taken from."""
    if whole.string is None:
        return By.NOTHING
    if not whole.is_typed:
        return By.STRAIGHT
    return {Tier.MOCKED_UP: By.MOCKED_UP, Tier.GUESS: By.GUESS}.get(whole.tier, By.STRING)


def _typed_lengths(line: Line, whole: Length, count: int) -> tuple[Figure, ...]:
    """Lengths of all pieces, where they are typed; the last may be left to the whole."""
    typed = line.passes_at
    if len(typed) == count - 1 and whole.string is not None:
        rest = whole.string.value - sum(length.value for length in typed)
        if rest > 0:
            grade = weakest([whole.string.grade, *(length.grade for length in typed)])
            typed = (*typed, Figure(rest, "m", grade, "what is left of the string"))
    return typed if len(typed) == count else ()


def _moves(car: Car, line: Line, count: int) -> tuple[bool, ...]:
    """Which pieces run to something that moves against the panel or the chassis."""
    if not line.crosses or count == 1:
        return (line.crosses,) * count
    rides = [_rides(car, port) for port in (line.from_port, line.to_port)]
    flags = [False] * count
    flags[0], flags[-1] = (body != _CHASSIS for body in rides)
    return tuple(flags) if any(flags) else (True,) * count


def _rides(car: Car, port_id: str) -> str:
    port = car.port(port_id)
    return car.components[port.component].rides if port else _CHASSIS


def _even_shares(car: Car, whole: Length, count: int) -> tuple[Figure | None, ...]:
    if whole.string is None:
        return (None,) * count
    part = whole.string.value / count
    spread = setting(car, "length-spread-guess")
    low, high = band(part, spread.value * part)
    figure = Figure(
        part,
        "m",
        weakest([whole.string.grade, spread.grade, Grade.PRACTICE]),
        "an even share of the line: where the panel is along it is not known",
        low,
        high,
    )
    return (figure,) * count
