# SPDX-License-Identifier: Apache-2.0
"""The GLB reads back: named nodes, metres, y up, tubes of the right girth and length."""

import io
import json
import struct
from math import pi

import numpy as np
import pytest
import trimesh

from linewright.faces.files.glb import glb, tube
from linewright.scene.spatial_things import Space
from linewright.space.path import length
from tests.unit.scene.spaces import BENT, bay, box, straight


def read(space: Space) -> trimesh.Scene:
    data = glb(space)

    assert data is not None
    return trimesh.load(io.BytesIO(data), file_type="glb")


def test_every_hose_body_zone_and_wall_is_a_node_of_its_name() -> None:
    names = set(read(bay()).graph.nodes_geometry)

    assert names == {
        "O01",
        "O01.A",
        "O01.B",
        "O02",
        "body:ENG",
        "body:can",
        "body:acc",
        "zone:wheel",
        "wall:firewall",
    }


def test_extents_are_metres_with_y_up_and_forward_along_z() -> None:
    scene = read(Space((box("ENG", (0.5, -0.2, 0.9), (0.6, 0.4, 0.2)),)))
    low, high = scene.bounds

    # Car: x 0.2..0.8 rearward, y -0.4..0.0 to the right, z 0.8..1.0 up.
    assert low == pytest.approx([0.0, 0.8, -0.8])
    assert high == pytest.approx([0.4, 1.0, -0.2])


def test_every_mesh_is_closed_and_faces_outward() -> None:
    for name, mesh in read(bay()).geometry.items():
        assert mesh.is_watertight, name
        assert mesh.volume > 0, name


def test_a_tube_holds_as_much_as_its_length_times_its_section() -> None:
    mesh = read(Space(hoses=(straight("O01", (0, 0, 0), (0.3, 0.4, 0), 0.02),))).geometry["O01"]
    section = 24 / 2 * 0.01**2 * np.sin(2 * pi / 24)

    assert mesh.volume == pytest.approx(0.5 * section, rel=1e-4)


def test_a_bent_tube_keeps_its_length_and_its_girth_round_the_bends() -> None:
    mesh = read(bay()).geometry["O01"]
    section = 24 / 2 * 0.0127**2 * np.sin(2 * pi / 24)

    # Pappus: a section swept square to its middle holds section × way.
    assert mesh.volume == pytest.approx(length(BENT) * section, rel=5e-3)
    corners, _ = tube(((0, 0, 0), (1, 0, 0), (1, 1, 0)), 0.1)
    mitre = np.array(corners[24:48]) - np.array([1.0, 0.0, 0.0])
    off = np.abs(mitre @ np.array([0.0, 0.0, 1.0])).max()
    assert off == pytest.approx(0.1, rel=1e-2)
    along = np.abs(np.array(corners[:24])[:, 1]).max()
    assert np.abs(mitre[:, 1]).max() == pytest.approx(along, rel=1e-6)


def test_hoses_have_the_colour_of_their_system() -> None:
    data = glb(bay())
    assert data is not None
    size = struct.unpack("<I", data[12:16])[0]
    tree = json.loads(data[20 : 20 + size])
    mesh = next(m for m in tree["meshes"] if m["name"] == "O01")
    material = tree["materials"][mesh["primitives"][0]["material"]]

    colour = material["pbrMetallicRoughness"]["baseColorFactor"]
    assert colour == pytest.approx([0xD5 / 255, 0x5E / 255, 0.0, 1.0], abs=1e-3)


def test_the_same_car_gives_the_same_bytes_and_an_empty_one_none() -> None:
    assert glb(bay()) == glb(bay())
    assert glb(Space()) is None
