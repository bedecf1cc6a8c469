# SPDX-License-Identifier: Apache-2.0
"""What the joints stage hands on: chains, terminations, fits."""

from dataclasses import dataclass

from linewright.base.finding import Finding, WorkStep
from linewright.catalogue.part import Part
from linewright.ends.end import End
from linewright.ends.mating import Mating


@dataclass(frozen=True, slots=True)
class Mated:
    """One pair of ends put together: ``near`` is on the port's side."""

    near: End
    far: End
    mating: Mating


@dataclass(frozen=True, slots=True)
class Chain:
    """Parts in order from a port outwards, with the joints between them.

    ``parts`` includes the hose end where the chain ends in a hose. ``bore`` is the least
    bore [m] (None if unknown), ``stick_out`` [m] is measured from the port face along the
    port's axis up to the first elbow's outlet axis. ``rank`` sorts chains, best first; its
    fields are named in `joints.rank`. ``codes`` are finding codes that this chain carries.
    """

    port: End
    parts: tuple[Part, ...]
    joints: tuple[Mated, ...]
    bore: float | None
    price_index: float
    stick_out: float
    rank: tuple[float, ...]
    codes: tuple[str, ...] = ()
    reason: str = ""
    is_whole_line: bool = False  # one silicone shape from port to port: no hose is cut

    @property
    def joint_count(self) -> int:
        """Joints that can leak: welds and the hose in its own end are not counted. [-]"""
        return sum(j.mating.is_counted for j in self.joints)

    @property
    def adaptors(self) -> tuple[Part, ...]:
        """The parts between the port and the hose end."""
        return tuple(p for p in self.parts if "hose end" not in p.shape)

    @property
    def hose_end(self) -> Part | None:
        """The hose end at the far side, if the chain ends in a hose."""
        last = self.parts[-1] if self.parts else None
        return last if last is not None and "hose end" in last.shape else None


@dataclass(frozen=True, slots=True)
class Termination:
    """One end of one hose: the port, the chosen chain, and what else would do.

    ``hose`` is the id of the piece of hose (``F05a``; the line's own id where no panel
    splits it), ``side`` A or B. ``angle`` is None while the builder leaves it open; then
    ``angles`` lists the candidates and the chain carries a straight hose end as stand-in.
    ``is_routed`` says that the angle comes from a course in space, ``sureness`` for what share
    of the ports' tolerance it works, where that was reckoned, and ``is_sure`` whether that is
    enough to order it. ``elbows`` are chains with a moulded elbow that may stand at the end of a
    clamped hose in place of the hose alone.
    """

    hose: str
    line: str
    side: str
    port: str
    chain: Chain | None
    alternatives: tuple[Chain, ...] = ()
    angle: int | None = None
    angles: tuple[int, ...] = ()
    is_bulkhead: bool = False
    is_routed: bool = False
    sureness: float | None = None
    is_sure: bool = True
    elbows: tuple[Chain, ...] = ()


@dataclass(frozen=True, slots=True)
class Fit:
    """Two ports screwed together, or a port and its plug: no hose between them.

    ``how`` is on (component on a port), plug, cap, or bulkhead (fitting in a panel).
    """

    ports: tuple[str, ...]
    how: str
    chain: Chain | None
    panel: str | None = None
    line: str | None = None


@dataclass(frozen=True, slots=True)
class Joints:
    """All that could be joined, with what stands in the way."""

    terminations: tuple[Termination, ...]
    fits: tuple[Fit, ...]
    findings: tuple[Finding, ...] = ()
    steps: tuple[WorkStep, ...] = ()
