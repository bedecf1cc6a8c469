# SPDX-License-Identifier: Apache-2.0
"""Where the two ports of a hose may be too, as far as they are known: draws by their names.

Half of the variance of a port is that of what carries it, a component or a panel, and moves
all that it carries alike; the other half is the port's own. Both are drawn under their names,
so each line that meets the same port meets the same draws of it.
"""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import radians, sqrt
from typing import TYPE_CHECKING

from linewright.base.draws import stream
from linewright.base.evidence import Placed
from linewright.base.vectors import ahead, cross, dot, unit
from linewright.car.model import Car
from linewright.joints.offered import setting
from linewright.space.model import Frame

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

#: What each shares: half of the variance.
_HALF = sqrt(0.5)


@dataclass(frozen=True, slots=True)
class Known:
    """One end as it is known: its name, and its frame. What carries it stands before the dot."""

    port: str
    frame: Frame

    @property
    def carrier(self) -> str:
        """The component or panel that it is on."""
        return self.port.partition(".")[0]


@dataclass(frozen=True, slots=True)
class Doubt:
    """How often the ends of a hose are drawn, and what is sure enough.

    ``draws`` are those that choose a pair of hose ends, as many more count its share; so many
    ``pairs`` are asked, the cheapest of those that work. A share of ``enough`` asks for nothing
    more; a dearer pair is taken where its share is more than ``margin`` higher. ``gap`` is the
    share of each clearance that has to be left in a draw. [-] ``grades`` are ways to know an
    end better, the easiest first: name, place [m], turn [rad].
    """

    seed: int = 1
    draws: int = 48
    pairs: int = 4
    enough: float = 0.9
    margin: float = 0.1
    gap: float = 0.5
    grades: tuple[tuple[str, float, float], ...] = ()


def doubt(car: Car) -> Doubt:
    """How sureness is counted in a car.

    Parameters
    ----------
    car : Car
        The car document as read.

    Returns
    -------
    Doubt
        Settings of the car or of the trade, and its seed.
    """
    return Doubt(
        car.seed,
        max(1, round(setting(car, "sureness-draws").value)),
        max(1, round(setting(car, "sureness-pairs").value)),
        setting(car, "sureness-enough").value,
        setting(car, "sureness-margin").value,
        setting(car, "sureness-gap").value,
        tuple(
            (
                str(each),
                setting(car, f"place-spread-{each}").value,
                radians(setting(car, f"tilt-spread-{each}").value),
            )
            for each in (Placed.TAPED, Placed.MOCKED_UP, Placed.FINAL)
        ),
    )


@lru_cache(maxsize=4096)
def _normals(seed: int, kind: str, name: str, count: int) -> "Floats":
    """Six normal numbers for each draw: place and turn. More draws do not change the first."""
    found: Floats = stream(seed, kind, name).normal(size=(count, 6))
    found.setflags(write=False)
    return found


def drawn(known: Known, seed: int, first: int, last: int) -> "Floats":
    """Draw one end.

    Parameters
    ----------
    known : Known
        The end.
    seed : int
        Of the document.
    first, last : int
        Which draws, counted from 0, the last not included.

    Returns
    -------
    ndarray, shape (n, 12)
        Origin [m], out, right and up of the port, with its frame's ``spread`` along each axis
        and its ``tilt`` about each.

    Notes
    -----
    A turn that is normal about each of the three axes tilts the port by its two parts square
    to the way it points, each with a sigma of ``tilt``; the third turns its elbow.

    Examples
    --------
    >>> up = Frame((0.0, 0.0, 0.3), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
    >>> drawn(Known("T.feed", up), 1, 0, 2)[1].tolist()
    [0.0, 0.0, 0.3, 0.0, 0.0, 1.0, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0]
    """
    import numpy as np

    frame = known.frame
    out = unit(frame.out)
    right = unit(ahead(frame.side, out, -dot(frame.side, out)))
    axes = np.array([out, right, cross(out, right)])
    if not frame.spread and not frame.tilt:
        still = np.concatenate([np.array(frame.origin), axes.reshape(-1)])
        return np.repeat(still[None], last - first, axis=0)
    shared = _normals(seed, "carrier", known.carrier, last)[first:]
    own = _normals(seed, "port", known.port, last)[first:]
    origin = np.array(frame.origin) + _HALF * frame.spread * (shared[:, :3] + own[:, :3])
    turn = _HALF * frame.tilt * (shared[:, 3:] + own[:, 3:])
    angle = np.linalg.norm(turn, axis=1)
    about = turn / np.where(angle > 0.0, angle, 1.0)[:, None]
    # Rodrigues: v cos t + (k x v) sin t + k (k.v)(1 - cos t), for the three axes at once.
    c, s = np.cos(angle)[:, None, None], np.sin(angle)[:, None, None]
    k = about[:, None, :]
    along = np.sum(k * axes[None], axis=2, keepdims=True)
    turned = axes[None] * c + np.cross(k, axes[None]) * s + k * along * (1.0 - c)
    return np.concatenate([origin, turned.reshape(-1, 9)], axis=1)


def surer(known: Known, spread: float | None = None, tilt: float | None = None) -> Known:
    """The same end, better known.

    Parameters
    ----------
    known : Known
        The end.
    spread, tilt : float, optional
        What is known of its place and direction then, if that is better. [m, rad]

    Returns
    -------
    Known
        With the lesser of both.
    """
    frame = known.frame
    return replace(
        known,
        frame=replace(
            frame,
            spread=frame.spread if spread is None else min(spread, frame.spread),
            tilt=frame.tilt if tilt is None else min(tilt, frame.tilt),
        ),
    )
