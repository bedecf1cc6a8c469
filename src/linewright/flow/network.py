# SPDX-License-Identifier: Apache-2.0
"""A network of nodes and links, as the solver takes it. SI, pressures absolute.

A node has either a fixed pressure or a demand. A link carries a mass flow, positive from ``a``
to ``b``; density and viscosity may differ from link to link, so that hot and cold legs stand
side by side, and mass is what every node conserves.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class FrictionLaw(StrEnum):
    """How the friction factor of a line is had."""

    CHURCHILL = "Churchill"
    # 64/Re, a cubic between 2000 and 4000, Swamee-Jain: to compare with general-purpose engines
    GENERAL = "general-purpose"


@dataclass(frozen=True, slots=True)
class State:
    """What fills a link: density [kg/m3] and kinematic viscosity [m2/s]."""

    density: float
    viscosity: float


@dataclass(frozen=True, slots=True)
class Node:
    """A point of the network.

    ``height`` is upward [m], ``pressure`` the fixed pressure [Pa] or None where it is sought,
    ``demand`` what is drawn there, less than 0 for what is fed [kg/s].
    """

    id: str
    height: float = 0.0
    pressure: float | None = None
    demand: float = 0.0


@dataclass(frozen=True, slots=True)
class Line:
    """Hose, tube or pipe: friction in all regimes, bends, and loss coefficients.

    ``length`` along the centreline, ``bore``, ``roughness`` [m]. Of the length, ``arc`` is laid
    in bends of ``bend_radius`` to the centreline [m], and loses more. ``k`` is the sum of loss
    coefficients on the bore, and ``k_laminar`` the sum of those over the Reynolds number: the
    drop of both is (k + k_laminar / Re) times the velocity head [-]. ``pitch`` of the waves of
    a convoluted hose [m], 0 for a smooth one.
    """

    id: str
    a: str
    b: str
    length: float
    bore: float
    roughness: float = 0.0
    k: float = 0.0
    k_laminar: float = 0.0
    arc: float = 0.0
    bend_radius: float = 0.0
    pitch: float = 0.0
    law: FrictionLaw = FrictionLaw.CHURCHILL


@dataclass(frozen=True, slots=True)
class Loss:
    """A filter, a core, any drop with a part that grows with flow and one with its square.

    At a flow q [m3/s] the drop is ``viscous`` [1/m3] times dynamic viscosity times q, and
    ``inertial`` [1/m4] times half the density times q squared.
    """

    id: str
    a: str
    b: str
    viscous: float
    inertial: float


@dataclass(frozen=True, slots=True)
class Orifice:
    """A hole, jet or restrictor.

    ``coefficient`` is of discharge at high Reynolds number, ``ratio`` of its ``bore`` [m] to
    that of the pipe. At low numbers the coefficient is divided by 1 + ``slow`` / sqrt(Re).
    """

    id: str
    a: str
    b: str
    bore: float
    coefficient: float = 0.61
    ratio: float = 0.0
    slow: float = 10.0


@dataclass(frozen=True, slots=True)
class Centrifugal:
    """A pump of head a0 + a1 q + a2 q|q| at the speed of its curve, from ``a`` to ``b``.

    ``curve`` is (a0 [m], a1 [s/m2], a2 [s2/m5]), and must fall as the flow q [m3/s] grows.
    ``speed`` is over that of the curve [-]: q goes as it, head as its square.
    """

    id: str
    a: str
    b: str
    curve: tuple[float, float, float]
    speed: float = 1.0


@dataclass(frozen=True, slots=True)
class Displacement:
    """A positive displacement pump, from ``a`` to ``b``.

    It gives ``displacement`` [m3] times ``speed`` [turns/s] less ``slip`` [m3] times the rise
    of pressure over dynamic viscosity: it leaks more when the fluid is hot.
    """

    id: str
    a: str
    b: str
    displacement: float
    speed: float
    slip: float


@dataclass(frozen=True, slots=True)
class Relief:
    """A spring-loaded valve: shut below ``opens`` [Pa] from ``a`` to ``b``.

    It passes ``flow`` [m3/s] at ``rise`` [Pa] above that, and in proportion.
    """

    id: str
    a: str
    b: str
    opens: float
    rise: float
    flow: float


@dataclass(frozen=True, slots=True)
class Check:
    """A valve that lets nothing back: shut below ``opens`` [Pa] from ``a`` to ``b``.

    Open, it loses ``opens`` and as a `Loss` of ``viscous`` [1/m3] and ``inertial`` [1/m4].
    """

    id: str
    a: str
    b: str
    viscous: float
    inertial: float
    opens: float = 0.0


@dataclass(frozen=True, slots=True)
class Regulator:
    """A back-pressure regulator: holds the pressure at ``a`` by what it lets go to ``b``.

    It begins to open at ``holds`` [Pa] above its reference, and passes ``flow`` [m3/s] at
    ``rise`` [Pa] more. The reference is the fixed pressure of node ``reference``, a manifold,
    or else the absolute ``reference_pressure`` [Pa]. Wide open it is a `Loss` of ``viscous``
    [1/m3] and ``inertial`` [1/m4]. It lets nothing back.
    """

    id: str
    a: str
    b: str
    holds: float
    rise: float
    flow: float
    viscous: float
    inertial: float
    reference: str | None = None
    reference_pressure: float = 0.0


@dataclass(frozen=True, slots=True)
class Reducing:
    """A reducing regulator: holds the pressure at ``b``, as far as that at ``a`` allows.

    It shuts at ``holds`` [Pa] above its reference, and passes ``flow`` [m3/s] at ``rise`` [Pa]
    less. Reference, loss when wide open and way as for a `Regulator`.
    """

    id: str
    a: str
    b: str
    holds: float
    rise: float
    flow: float
    viscous: float
    inertial: float
    reference: str | None = None
    reference_pressure: float = 0.0


Link = Line | Loss | Orifice | Centrifugal | Displacement | Relief | Check | Regulator | Reducing


@dataclass(frozen=True, slots=True)
class Network:
    """Nodes, links, and what fills the links.

    ``fluid`` fills every link that ``states`` does not name.
    """

    nodes: tuple[Node, ...]
    links: tuple[Link, ...]
    fluid: State
    states: Mapping[str, State] = field(default_factory=dict)

    def state(self, link: str) -> State:
        """Return what fills a link."""
        return self.states.get(link, self.fluid)
