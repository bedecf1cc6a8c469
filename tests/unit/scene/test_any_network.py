# SPDX-License-Identifier: Apache-2.0
"""Diagrams of networks nobody would build: whatever is typed, nothing overlaps."""

from collections.abc import Callable
from random import Random

import pytest

from linewright.car.kinds import KINDS
from linewright.car.model import Role
from linewright.scene.drawing import Drawing
from linewright.scene.network import Link, Network, Node, Pin
from linewright.scene.paper import Title
from linewright.scene.schematic import compose
from tests.unit.scene import test_labels as geometry

_LEAVES = ("plug", "cap", "open", "unknown", "missing", "sensor", "on")

PROOFS: tuple[Callable[[Drawing], None], ...] = (
    geometry.test_no_text_overlaps_another,
    geometry.test_no_text_is_cut_by_a_stroke_of_a_line_or_a_symbol,
    geometry.test_no_text_lies_across_a_circle,
    geometry.test_no_text_leaves_its_ground_or_the_sheet,
    geometry.test_no_two_boxes_overlap,
    geometry.test_lines_never_lie_on_each_other,
    geometry.test_every_numbered_line_shows_its_number_and_every_component_its_id,
)


def _network(seed: int) -> Network:
    """Up to 14 components of any kind, their ports joined at random."""
    chance = Random(seed)
    parts, free = [], []
    for i in range(chance.randint(2, 14)):
        names = [
            "".join(chance.choice("abcdefghij-") for _ in range(chance.randint(1, 13))) + str(k)
            for k in range(chance.randint(1, 7))
        ]
        pins = [(f"C{i}.{name}", name, chance.choice([None, *Role])) for name in names]
        parts.append((f"C{i}", chance.choice(sorted(KINDS)), pins))
        free += [p[0] for p in pins]
    chance.shuffle(free)
    links = []
    for j in range(chance.randint(1, len(free) // 2)):
        letter = chance.choice("OOOVDR")
        name = f"{letter}{j:02}"
        note = chance.choice(["", "suction", "return"])
        links.append(
            Link(
                name,
                free[2 * j],
                free[2 * j + 1],
                letter,
                name,
                chance.choice(["-10", "38 mm", ""]),
                note,
                has_arrow=letter != "R",
            )
        )
    into = {k.target: True for k in links} | {k.source: False for k in links}
    nodes = []
    for key, kind, ports in parts:
        pins = []
        for port, name, role in ports:
            leaf = "" if port in into else chance.choice(_LEAVES)
            rider = "PS" * chance.randint(1, 6) if leaf in ("sensor", "on") else ""
            pins.append(
                Pin(
                    port,
                    name,
                    role,
                    port in into,
                    leaf,
                    rider,
                    "pressure sensor",
                    "thing" if leaf == "on" else "",
                    flows_in=into.get(port),
                )
            )
        nodes.append(
            Node(key, kind, kind + " of some long name" * chance.randint(0, 2), tuple(pins))
        )
    return Network("x", "O", "10W-40", tuple(nodes), tuple(links))


def _prove(seed: int) -> None:
    net = _network(seed)
    drawing = compose(net, Title("Any", "Any system", "", "", 1, 1))
    for proof in PROOFS:
        proof(drawing)
    geometry.test_no_line_runs_through_a_box(drawing)


@pytest.mark.parametrize("seed", range(12))
def test_nothing_overlaps_on_any_network(seed: int) -> None:
    _prove(seed)


@pytest.mark.prove
@pytest.mark.parametrize("seed", range(100, 300))
def test_nothing_overlaps_on_two_hundred_networks(seed: int) -> None:
    _prove(seed)
