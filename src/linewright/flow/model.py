# SPDX-License-Identifier: Apache-2.0
"""What comes out of flow: the state of each port and line, margins, and what limits. SI."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding


@dataclass(frozen=True, slots=True)
class Band:
    """A computed value with the limits of its central 95 %."""

    value: float
    low: float
    high: float


class Verdict(StrEnum):
    """How a value stands to its limit."""

    MET = "met"
    NOT_MET = "not met"
    UNSURE = "not known well enough"  # the limit lies within the band


@dataclass(frozen=True, slots=True)
class PortState:
    """A port in a condition: flow into its component [kg/s], absolute pressure [Pa], [K]."""

    port: str
    flow: Band
    pressure: Band
    temperature: Band


@dataclass(frozen=True, slots=True)
class Loss:
    """One place where pressure is lost: ``what`` in words, ``where`` the ids, [Pa]."""

    what: str
    where: tuple[str, ...]
    drop: Band
    share: float  # of the loss of its circuit, 0 to 1 [-]


@dataclass(frozen=True, slots=True)
class LineState:
    """A line in a condition.

    ``flow`` is from A to B [kg/s], ``drop`` the loss of pressure from port to port without
    height [Pa], ``velocity`` in its hose [m/s]. ``is_between`` marks a flow between laminar
    and turbulent, where the loss is a band and no figure.
    """

    line: str
    flow: Band
    drop: Band
    velocity: float
    reynolds: float
    is_between: bool
    losses: tuple[Loss, ...] = ()
    density: float | None = None  # of what flows in it [kg/m3]


@dataclass(frozen=True, slots=True)
class Margin:
    """A value that must stay on one side of a limit.

    ``what`` names the rule ("pump inlet"), ``where`` the port, line or component. ``unit`` is
    of value and limit, and ``least`` tells that the limit is a least one. ``measure`` says
    what would settle an unsure verdict. ``shown`` tells how people are shown a pressure [Pa]:
    absolute, gauge (absolute in here all the same), or difference; "" as its rule has it.
    ``doubt`` says why it is not known, where that is not the band.
    """

    what: str
    where: str
    value: Band
    limit: Figure
    unit: str
    is_least: bool
    verdict: Verdict
    measure: str = ""
    shown: str = ""
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class Limiting:
    """The one element that costs a system most of a margin, and what a larger size gives.

    ``next_size`` is the next size of its line, or of a limit that is missed the first one that
    meets it; empty where no larger hose helps.
    """

    where: str
    share: float
    margin: str
    size: str = ""
    next_size: str = ""
    value: float | None = None
    next_value: float | None = None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Series:
    """A value over the time of a condition; all of equal length, [s] and ``unit``.

    ``low`` and ``high`` bound the central 95 % of each value; they are empty where none is known.
    A difference of temperature has the unit "K diff".
    """

    what: str
    where: str
    unit: str
    times: tuple[float, ...]
    values: tuple[float, ...]
    low: tuple[float, ...] = ()
    high: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class PumpCurve:
    """What a pump gives and what its circuit takes, flow by flow.

    ``rises`` and ``takes`` [Pa] stand at ``flows`` [m3/s]; ``least`` and ``most`` bound the
    central 95 % of ``takes`` where they are known. ``flow`` and ``rise`` are where they meet.
    """

    pump: str
    flows: tuple[float, ...]
    rises: tuple[float, ...]
    takes: tuple[float, ...]
    flow: Band
    rise: Band
    least: tuple[float, ...] = ()
    most: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class WalkStep:
    """A place on a walk: ``what`` was passed on the way to it, and the pressure there [Pa]."""

    what: str
    where: tuple[str, ...]
    pressure: Band


@dataclass(frozen=True, slots=True)
class Walk:
    """Pressures along a circuit, from one pump to the next; the first step is the start."""

    circuit: str
    steps: tuple[WalkStep, ...]


@dataclass(frozen=True, slots=True)
class SystemState:
    """One system in one condition.

    ``heat`` has the heat that each component gives to the fluid, less than 0 for a cooler [W].
    ``also`` holds a second steady state where the system has two (a cooler choked by cold oil).
    ``stands`` is the temperature at which all of it stands after a hard run, where the condition
    has it so in place of letting it settle [K].
    """

    system: str
    condition: str
    ports: Mapping[str, PortState] = field(default_factory=dict)
    lines: Mapping[str, LineState] = field(default_factory=dict)
    heat: Mapping[str, Band] = field(default_factory=dict)
    margins: tuple[Margin, ...] = ()
    limiting: Limiting | None = None
    series: tuple[Series, ...] = ()
    also: "SystemState | None" = None
    pumps: tuple[PumpCurve, ...] = ()
    walks: tuple[Walk, ...] = ()
    stands: Band | None = None


@dataclass(frozen=True, slots=True)
class SizeRow:
    """A line in one size, in the condition that asks most of it."""

    line: str
    size: str
    hose: str
    condition: str
    bore: float  # [m]
    drop: Band | None  # [Pa]; None where it cannot be had
    velocity: float  # [m/s]
    volume: float  # [m3]
    mass: float | None  # with its fluid [kg]
    price_index: float | None
    is_chosen: bool
    why: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a fitted sensor should show in a condition: a pressure over the air outside."""

    sensor: str
    port: str
    condition: str
    quantity: str  # pressure or temperature
    value: Band
    unit: str


@dataclass(frozen=True, slots=True)
class Assumed:
    """A figure that nobody gave: whose, which, what stands in, and how it is known."""

    where: str
    what: str
    figure: Figure
    give: str  # what to type to have it otherwise


@dataclass(frozen=True, slots=True)
class Sway:
    """How far a reading moves when an assumed figure moves by one sigma of its spread.

    The reading is that of ``sensor`` in ``condition``, in the unit of its `Reading`; the
    figure is the `Assumed` of ``where`` and ``what``.
    """

    sensor: str
    condition: str
    where: str
    what: str
    by: float


@dataclass(frozen=True, slots=True)
class Flows:
    """All that flow has to say of a car."""

    states: tuple[SystemState, ...] = ()
    sizes: tuple[SizeRow, ...] = ()
    readings: tuple[Reading, ...] = ()
    assumed: tuple[Assumed, ...] = ()
    findings: tuple[Finding, ...] = ()
    grade: Grade = Grade.PRACTICE
    sways: tuple[Sway, ...] = ()

    def state(self, system: str, condition: str) -> SystemState | None:
        """Return one system in one condition, or None."""
        return next(
            (s for s in self.states if (s.system, s.condition) == (system, condition)), None
        )
