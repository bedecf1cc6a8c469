# SPDX-License-Identifier: Apache-2.0
"""The car as the builder tells it: values only, in SI, every default marked."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from linewright.base.evidence import Figure, Grade, Known, Placed
from linewright.base.finding import Finding, Overrule
from linewright.catalogue.part import Part
from linewright.ends.end import UNKNOWN, End

Vector = tuple[float, float, float]


class Role(StrEnum):
    """What a port does. The first five carry flow in service."""

    IN = "in"
    OUT = "out"
    RETURN = "return"
    VENT = "vent"
    DRAIN = "drain"
    EMPTY = "empty"
    FILL = "fill"
    SENSOR = "sensor"
    SPARE = "spare"

    @property
    def is_inlet(self) -> bool:
        """Whether fluid enters the component here."""
        return self in (Role.IN, Role.RETURN)


class Medium(StrEnum):
    """Class of fluid; decides seals, hoses, functions and the letter of a line."""

    OIL = "oil"
    COOLANT = "coolant"
    CHARGE_COOLANT = "charge coolant"
    FUEL = "fuel"
    AIR = "charge air"


class Tier(StrEnum):
    """How the length of a line is known, weakest first."""

    UNKNOWN = "unknown"
    GUESS = "guess"
    STRING = "string"
    PLACED = "placed"
    MOCKED_UP = "mocked-up"


class Construction(StrEnum):
    """What a line is made of."""

    HOSE = "hose"  # flexible hose with screwed ends
    TUBE = "tube"  # hard tube, flared
    CLAMPED = "clamped"  # rubber or silicone hose clamped on beads or barbs
    PIPE = "pipe"  # charge pipe with couplers


class Shape(StrEnum):
    """Shape of a body, in its own axes; what is round stands upright there."""

    BOX = "box"
    CYLINDER = "cylinder"
    CAPSULE = "capsule"
    MESH = "mesh"


class ZoneKind(StrEnum):
    """What a zone asks of the lines near it."""

    HOT = "hot"
    KEEP_OUT = "keep-out"
    MOVING = "moving"
    DRIVER = "driver"
    SPILL_SENSITIVE = "spill-sensitive"

    @property
    def is_solid(self) -> bool:
        """Whether lines stay out of it; the others only ask for care."""
        return self not in (ZoneKind.DRIVER, ZoneKind.SPILL_SENSITIVE)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a component is: the car position of one point that can be touched."""

    at: Vector
    anchor: str = "middle"
    yaw: float = 0.0
    pitch: float = 0.0
    roll: float = 0.0
    placed: Placed = Placed.GUESS


@dataclass(frozen=True, slots=True)
class Mesh:
    """A drawn body in a file of its own; ``scale`` is what one of its units is [m]."""

    file: str  # as typed, from the folder of the document
    scale: float


@dataclass(frozen=True, slots=True)
class Body:
    """A thing without ports that lines go round: a frame rail, a gearbox, a wheel.

    ``size`` is the extent along its own axes [m]; None only for a mesh, whose own origin is
    the point that ``place`` puts in the car.
    """

    id: str
    place: Place
    shape: Shape = Shape.BOX
    size: Vector | None = None
    mesh: Mesh | None = None
    rides: str = "chassis"
    note: str = ""
    line_number: int | None = None


@dataclass(frozen=True, slots=True)
class Zone:
    """A room in which something holds for lines: a body of its own, or what ``of`` names.

    ``surface`` is the temperature of what is hot [K]. ``travel`` is how far a moving thing
    goes each way from where it was measured, along the car's axes [m].
    """

    id: str
    kind: ZoneKind
    body: Body | None = None
    of: str | None = None  # id of a component or of a body
    surface: Figure | None = None
    is_shielded: bool = False
    travel: Vector = (0.0, 0.0, 0.0)
    line_number: int | None = None


@dataclass(frozen=True, slots=True)
class Guide:
    """A way through the car that lines are told to follow: points in the car's frame [m]."""

    id: str
    points: tuple[Vector, ...]
    rides: str = "chassis"
    note: str = ""
    line_number: int | None = None


@dataclass(frozen=True, slots=True)
class Travel:
    """How far what rides on a body goes along the car's axes from where it was measured.

    ``low`` is the way back along x, y and z, never more than nothing; ``high`` the way on. [m]
    """

    low: Vector
    high: Vector
    grade: Grade = Grade.STATED
    basis: str = "the car document"


@dataclass(frozen=True, slots=True)
class Step:
    """From some time on in a condition, other figures hold; ``at`` counts from its start [s]."""

    at: float
    figures: Mapping[str, Figure]


@dataclass(frozen=True, slots=True)
class Running:
    """What the driver and the surroundings do; what the fluids do is the answer.

    ``figures`` are by key, in SI: engine-speed [rad/s], power (share of the full, [-]), boost
    (over ambient [Pa]), air [K], altitude [m], car-speed [m/s], voltage [V]. A key that is not
    there comes from the condition of that name that every car has. ``start`` has the
    temperature of each system's fluid at its start [K]; ``off`` the pumps and fans that stand.
    With ``lasts`` [s] or ``steps`` the condition is followed through time, else it is steady.
    """

    figures: Mapping[str, Figure] = field(default_factory=dict)
    start: Mapping[str, Figure] = field(default_factory=dict)
    off: tuple[str, ...] = ()
    lasts: Figure | None = None
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class Condition:
    """Which way is down for a fluid in the car, and what the car does meanwhile.

    ``down`` is a unit vector, gravity and acceleration together. ``is_held`` tells what lasts
    (level, parked on a slope) from what passes in seconds.
    """

    name: str
    down: Vector
    is_held: bool = False
    grade: Grade = Grade.STATED
    basis: str = ""
    running: Running = field(default_factory=Running)


@dataclass(frozen=True, slots=True)
class Port:
    """An end on a component.

    ``end`` is `UNKNOWN` where nobody has measured it or where the text can be read in
    several ways; then ``readings`` lists them. ``role`` is None if neither the builder nor the
    kind says. ``at`` and ``points`` are in the component's frame, ``at_car`` and
    ``points_car`` in the car's. ``from_kind`` marks a port that the kind brought along,
    ``points_from_kind`` a direction that nobody has looked at. ``placed`` is how its own place
    and direction are known, where that differs from its component's.
    """

    id: str
    component: str
    name: str
    end: End = UNKNOWN
    typed: str = ""
    readings: tuple[End, ...] = ()
    is_gender_assumed: bool = False
    role: Role | None = None
    medium: Medium | None = None
    known: Known = Known.UNKNOWN
    at: Vector | None = None
    at_car: Vector | None = None
    points: Vector | None = None
    points_car: Vector | None = None
    material: str = ""
    depth: float | None = None  # threaded depth of the hole [m]
    spot_face: float | None = None  # diameter of the flat face round it [m]
    room: float | None = None  # free space straight out from the port [m]
    bore: float | None = None  # stated bore [m]
    note: str = ""
    from_kind: bool = False
    line_number: int | None = None
    points_from_kind: bool = False
    placed: Placed | None = None


@dataclass(frozen=True, slots=True)
class Component:
    """A thing with ports. ``traits`` holds what a kind may ask for (bypass, boosted ...)."""

    id: str
    kind: str
    name: str = ""
    system: str | None = None
    place: Place | None = None
    size: Vector | None = None
    round: bool = False
    volume: Figure | None = None
    rides: str = "chassis"
    material: str = ""
    on: str | None = None  # id of the port it is screwed on, e.g. "FH.gauge"
    mount: str | None = None  # name of its own port that goes there
    part: str | None = None  # catalogue shape to buy it as (tee, bulkhead, check valve ...)
    panel: str | None = None  # the panel a bulkhead sits in
    origin: str = ""
    have: str = "no"  # "yes" in hand, "posted", or "no"
    mass: Figure | None = None
    ports: Mapping[str, Port] = field(default_factory=dict)
    traits: Mapping[str, str | float | bool] = field(default_factory=dict)
    line_number: int | None = None
    shape: Shape | None = None  # None where neither size nor mesh is known
    mesh: Mesh | None = None


#: Size of a line that is left to the tool.
AUTO = "auto"


@dataclass(frozen=True, slots=True)
class LineEnd:
    """What the builder says of one end of a line; None means open or default."""

    angle: int | None = None
    swivel: str | None = None  # "full" or "fixed"
    size: str | None = None  # dash of the hose end, where it is typed apart
    hose: str | None = None  # hose family of the hose end, where it is typed apart
    via: tuple[str, ...] = ()  # part codes the builder insists on, from the port outwards
    fit: tuple[str, ...] = ()  # extra functions at this end: "screen", "check valve", "jet 1 mm"


@dataclass(frozen=True, slots=True)
class Line:
    """What connects two ports. End A is ``from``; flow goes from A to B.

    ``size`` is a dash for hose and tube, "38" (bore in mm) for clamped hose and pipe, or
    "auto". ``string`` is port face to port face unless ``string_from`` is "collar".
    ``service`` is the role it serves: pressure, suction, return, vent, drain, reference, bleed.
    """

    id: str
    from_port: str
    to_port: str
    system: str | None
    medium: Medium | None
    size: str
    hose: str
    construction: Construction
    service: str = "pressure"
    ends: tuple[LineEnd, LineEnd] = (LineEnd(), LineEnd())
    tier: Tier = Tier.UNKNOWN
    string: Figure | None = None
    string_from: str = "port"  # or "collar"
    crosses: bool = False  # from one body to another that moves against it
    passes: tuple[str, ...] = ()  # panels, in order from A
    passes_at: tuple[Figure, ...] = ()  # lengths of the pieces, where typed
    follows: tuple[str, ...] = ()  # lines or guides, in order from A
    sleeve: str = ""
    note: str = ""
    line_number: int | None = None
    clearance: Figure | None = None  # to bodies and other lines, where typed
    most_bends: int | None = None
    is_crimped: bool = False  # made up by a shop: its ends cannot be turned afterwards


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole that a panel has already; ``line`` is whose it is, "" for any."""

    at: Vector
    bore: float | None = None  # [m]
    line: str = ""


@dataclass(frozen=True, slots=True)
class Panel:
    """A wall that lines pass: firewall, floor, bulkhead.

    ``at`` is a point of the middle of its thickness, ``points`` its normal. ``size`` is how far
    it goes (level, and square to that) about ``at``; without it the wall has no edge. Where
    ``is_skin``, the car ends at it: it points outward, and nothing is laid beyond.
    """

    id: str
    thickness: Figure
    material: str = "steel"
    at: Vector | None = None
    points: Vector | None = None
    size: tuple[float, float] | None = None
    holes: tuple[Hole, ...] = ()
    placed: Placed = Placed.GUESS
    is_skin: bool = False


@dataclass(frozen=True, slots=True)
class System:
    """The lines and components that share one fluid."""

    id: str
    medium: Medium
    fluid: str
    hose: str = ""
    size: str = ""
    letter: str = ""
    temperature: Figure | None = None  # hottest in service [K]
    gauge_pressure: Figure | None = None  # highest in service, over ambient [Pa]
    line_number: int | None = None


@dataclass(frozen=True, slots=True)
class Closed:
    """How a port, or a function that nobody typed, is answered without a line.

    ``how`` is plug, cap, open or none; all but plug and cap need a ``reason``.
    """

    what: str
    how: str
    reason: str = ""
    line_number: int | None = None


@dataclass(frozen=True, slots=True)
class Car:
    """All that the builder says of one car."""

    name: str
    datum: str = ""
    use: str = ""
    show: str = "metric"
    note: str = ""
    seed: int = 1  # where the draws of what is not known begin
    ground: float | None = None  # z of the ground [m]; None where it was not said
    systems: Mapping[str, System] = field(default_factory=dict)
    components: Mapping[str, Component] = field(default_factory=dict)
    lines: Mapping[str, Line] = field(default_factory=dict)
    panels: Mapping[str, Panel] = field(default_factory=dict)
    parts: tuple[Part, ...] = ()
    closed: Mapping[str, Closed] = field(default_factory=dict)
    overrules: tuple[Overrule, ...] = ()
    retired: tuple[str, ...] = ()
    settings: Mapping[str, Figure] = field(default_factory=dict)  # [settings] over defaults
    bodies: Mapping[str, Body] = field(default_factory=dict)
    zones: Mapping[str, Zone] = field(default_factory=dict)
    guides: Mapping[str, Guide] = field(default_factory=dict)
    movement: Mapping[str, Figure | Travel] = field(default_factory=dict)  # a figure: all ways [m]
    conditions: Mapping[str, Condition] = field(default_factory=dict)  # as typed
    findings: tuple[Finding, ...] = ()  # of reading: ambiguous ends, assumed genders
    assumed: tuple[tuple[str, str, Grade], ...] = ()  # key, value as shown, grade: all defaults
    sha256: str = ""
    file: str = ""

    def port(self, port_id: str) -> Port | None:
        """Return the port with this id, or None."""
        component, _, name = port_id.partition(".")
        owner = self.components.get(component)
        return owner.ports.get(name) if owner else None

    @property
    def ports(self) -> tuple[Port, ...]:
        """All ports, in the order of the document."""
        return tuple(p for c in self.components.values() for p in c.ports.values())
