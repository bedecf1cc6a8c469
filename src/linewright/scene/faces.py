# SPDX-License-Identifier: Apache-2.0
"""Which side of a card each port is on, and the ways a card may be turned."""

from dataclasses import dataclass
from itertools import permutations

from linewright.car.model import Role
from linewright.scene.network import SCREWED_ON, SENSOR, Node, Pin

#: Pitch of the grid. [mm]
CELL = 4.0

#: Height of type at scale 1. [mm]
ID_SIZE, NAME_SIZE, PORT_SIZE = 3.2, 2.7, 2.6

RIGHT, DOWN, LEFT, UP = range(4)

_SIDES = {
    Role.IN: LEFT,
    Role.RETURN: LEFT,
    Role.OUT: RIGHT,
    Role.VENT: UP,
    Role.FILL: UP,
    Role.SENSOR: UP,
    Role.DRAIN: DOWN,
    Role.EMPTY: DOWN,
}


@dataclass(frozen=True, slots=True)
class Face:
    """A way to draw a card: left and right changed over or not, ports on sides of their own."""

    flip: bool = False
    sides: tuple[tuple[str, int], ...] = ()  # port id, side; only for joints of lines

    def side(self, pin: Pin) -> int:
        """Side that a port is on."""
        for key, side in self.sides:
            if key == pin.id:
                return side
        side = natural_side(pin)
        return side ^ 2 if self.flip and side in (LEFT, RIGHT) else side


#: As the kind has it: inlets left.
PLAIN = Face()


def is_joint(node: Node) -> bool:
    """Whether a component is a mere joint of lines, drawn as a dot with ports on any side.

    Parameters
    ----------
    node : Node
        The component.

    Returns
    -------
    bool
        True for a tee whose ports all carry lines.
    """
    words = node.kind.lower().replace("-", " ").split()
    return "tee" in words and 2 <= len(node.pins) <= 4 and all(p.linked for p in node.pins)


def faces(node: Node) -> tuple[Face, ...]:
    """Ways to draw a component.

    Parameters
    ----------
    node : Node
        The component.

    Returns
    -------
    tuple of Face
        As it is and mirrored; for a joint of lines, its ports on the sides in any order.
    """
    if not is_joint(node):
        return PLAIN, Face(True)
    ids = [p.id for p in node.pins]
    return tuple(
        Face(sides=tuple(zip(ids, sides, strict=True)))
        for sides in permutations((LEFT, RIGHT, DOWN, UP), len(ids))
    )


def natural_side(pin: Pin) -> int:
    """Side of a card that a port belongs on, by what it does.

    Parameters
    ----------
    pin : Pin
        The port.

    Returns
    -------
    int
        0 right, 1 down, 2 left, 3 up.
    """
    if pin.leaf == SENSOR:
        return UP
    if pin.leaf == SCREWED_ON:
        return DOWN
    if pin.side is not None:
        return pin.side
    if pin.role in (Role.VENT, Role.FILL, Role.EMPTY):
        return _SIDES[pin.role]
    if pin.flows_in is not None:
        return LEFT if pin.flows_in else RIGHT
    return _SIDES.get(pin.role, RIGHT) if pin.role is not None else UP
