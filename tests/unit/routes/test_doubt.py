# SPDX-License-Identifier: Apache-2.0
"""Draws of ports: as wide as they are known, shared by what carries them, the same each time."""

from dataclasses import replace
from math import radians, sqrt

import numpy as np
import pytest

from linewright.base.errors import DocumentError
from linewright.car.read import read_text
from linewright.routes.doubt import Known, doubt, drawn, surer
from linewright.space.model import Frame

UP = Frame((0.3, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))


def _known(port: str, spread: float = 0.0, tilt: float = 0.0) -> Known:
    return Known(port, replace(UP, spread=spread, tilt=radians(tilt)))


def test_places_scatter_as_wide_as_they_are_known() -> None:
    found = drawn(_known("T.a", spread=0.008), 1, 0, 4000)

    np.testing.assert_allclose(found[:, :3].mean(axis=0), (0.3, 0.0, 0.0), atol=6e-4)
    np.testing.assert_allclose(found[:, :3].std(axis=0), 0.008, rtol=0.05)


def test_directions_scatter_as_wide_as_they_are_known_and_axes_stay_square() -> None:
    found = drawn(_known("T.a", tilt=5.0), 1, 0, 4000)
    axes = found[:, 3:].reshape(-1, 3, 3)
    leans = np.arccos(np.clip(found[:, 5], -1.0, 1.0))

    # Two normal parts of 5°: the mean square of the lean is twice that of each.
    assert sqrt(np.mean(leans**2) / 2) == pytest.approx(radians(5.0), rel=0.05)
    np.testing.assert_allclose(
        axes @ axes.transpose(0, 2, 1), np.broadcast_to(np.eye(3), (4000, 3, 3)), atol=1e-12
    )
    np.testing.assert_allclose(np.linalg.det(axes), 1.0)


def test_ports_of_one_component_move_and_lean_together_by_half_of_their_variance() -> None:
    a, b = (drawn(_known(name, 0.01, 5.0), 1, 0, 4000) for name in ("T.a", "T.b"))

    assert np.corrcoef(a[:, 0], b[:, 0])[0, 1] == pytest.approx(0.5, abs=0.05)
    assert np.corrcoef(a[:, 3], b[:, 3])[0, 1] == pytest.approx(0.5, abs=0.05)


def test_ports_of_two_components_move_apart() -> None:
    a, b = (drawn(_known(name, 0.01), 1, 0, 4000) for name in ("T.a", "U.a"))

    assert abs(np.corrcoef(a[:, 0], b[:, 0])[0, 1]) < 0.05


def test_a_port_is_drawn_alike_for_each_line_that_meets_it_and_for_more_draws() -> None:
    few = drawn(_known("T.a", 0.01, 5.0), 1, 0, 5)
    drawn(_known("V.c", 0.01), 1, 0, 50)

    np.testing.assert_array_equal(drawn(_known("T.a", 0.01, 5.0), 1, 0, 50)[:5], few)
    assert not np.array_equal(drawn(_known("T.a", 0.01, 5.0), 2, 0, 5), few)


def test_what_is_measured_better_keeps_its_draws_and_narrows_them() -> None:
    wide = _known("T.a", 0.03, 10.0)
    close = surer(wide, spread=0.01)

    np.testing.assert_allclose(
        drawn(close, 1, 0, 9)[:, :3] - UP.origin, (drawn(wide, 1, 0, 9)[:, :3] - UP.origin) / 3.0
    )
    assert surer(close, spread=0.02, tilt=radians(30.0)) == close


TEXT = """
linewright = 1
[car]
name = "X"
seed = 7
[systems.oil]
fluid = "15W-50"
[components.FP]
kind = "fuel pump"
[settings]
sureness-draws = 12
"""


def test_the_seed_and_the_settings_of_the_document_are_taken() -> None:
    asked = doubt(read_text(TEXT))

    assert (asked.seed, asked.draws) == (7, 12)
    assert [name for name, _, _ in asked.grades] == ["taped", "mocked-up", "final"]
    assert doubt(read_text(TEXT.replace("seed = 7", ""))).seed == 1


def test_a_seed_that_is_no_whole_number_is_refused() -> None:
    with pytest.raises(DocumentError) as caught:
        read_text(TEXT.replace("seed = 7", 'seed = "lucky"'))

    assert str(caught.value) == (
        'car.toml, line 5: car.seed: "lucky" is no seed; write a whole number from 0 on, as 1.'
    )
