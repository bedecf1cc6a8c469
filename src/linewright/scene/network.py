# SPDX-License-Identifier: Apache-2.0
"""One system as drawn: components with the ports they have in it, and the links between."""

from dataclasses import dataclass

from linewright.car.model import Role

#: What ends a port on the diagram without a line.
PLUG, CAP, OPEN, UNKNOWN, MISSING, SENSOR, SCREWED_ON = (
    "plug",
    "cap",
    "open",
    "unknown",
    "missing",
    "sensor",
    "on",
)


@dataclass(frozen=True, slots=True)
class Pin:
    """A port as drawn: its name, its role, and what ends it where no line does."""

    id: str
    name: str
    role: Role | None
    linked: bool
    leaf: str = ""
    leaf_id: str = ""  # component screwed on
    leaf_kind: str = ""
    leaf_name: str = ""
    side: int | None = None  # 0 right, 1 down, 2 left, 3 up, where what it mates with decides
    flows_in: bool | None = None  # by the line on it; None where it carries none


@dataclass(frozen=True, slots=True)
class Node:
    """A component as drawn, with the ports that belong to the system."""

    id: str
    kind: str
    name: str
    pins: tuple[Pin, ...]
    panel: str = ""
    height: float | None = None  # of its highest port or itself, in the car [m]
    remark: str = ""
    in_line: bool = False  # stands in a line: a pass through a panel, a check valve at its end


@dataclass(frozen=True, slots=True)
class Link:
    """A line as drawn, a piece of it, or two ports screwed together (then ``is_fit``).

    ``number`` is what is written on it: O01, or O01a where a panel makes two hoses of it;
    empty on the short pieces beside what stands in the line.
    """

    id: str
    source: str  # port id
    target: str
    letter: str
    number: str = ""
    size: str = ""
    note: str = ""  # what stands behind the size: "suction", "return"
    is_fit: bool = False
    has_arrow: bool = True


@dataclass(frozen=True, slots=True)
class Network:
    """One system, ready to be laid out."""

    id: str
    letter: str
    fluid: str
    nodes: tuple[Node, ...]
    links: tuple[Link, ...]


def owner(port_id: str) -> str:
    """Id of the component that a port belongs to.

    Parameters
    ----------
    port_id : str
        As in ``FH.in-L``.

    Returns
    -------
    str
        What stands before the point.
    """
    return port_id.partition(".")[0]
