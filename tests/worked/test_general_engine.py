# SPDX-License-Identifier: Apache-2.0
"""The same looped networks in an independent general-purpose engine (wntr's, of the tests only)."""

from pathlib import Path

import numpy as np
import pytest

from linewright.flow.pack import pack
from linewright.flow.solve import Variants, solve, solve_many
from tests.engine import Engine
from tests.networks import looped


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("pipes", [20, 60])
def test_flows_are_within_a_thousandth_of_the_largest(
    pipes: int, seed: int, tmp_path: Path
) -> None:
    network = looped(pipes, seed)
    solution = solve(pack(network))
    with Engine(network, tmp_path) as engine:
        trouble = engine.run()
        flows = engine.flows()
    largest = max(abs(f) for f in flows)

    assert len(network.links) == pipes
    assert trouble == 0
    # Asked is 1e-3; the engine itself stops at 1e-5.
    assert max(abs(solution.flows - flows)) <= 1e-5 * largest


def test_the_networks_have_laminar_uncertain_and_turbulent_flow() -> None:
    for seed in range(6):
        packed = pack(looped(60, seed))
        flows = np.abs(solve(packed).flows)
        reynolds = 4.0 * flows / (np.pi * packed.bore * packed.density * packed.viscosity)

        assert (reynolds < 2000.0).any()
        assert ((reynolds > 2000.0) & (reynolds < 4000.0)).any()
        assert (reynolds > 4000.0).any()


def test_variants_of_a_batch_are_what_the_engine_finds_one_by_one(tmp_path: Path) -> None:
    network = looped(60, 1)
    packed = pack(network)
    draw = np.random.default_rng(5)
    shape = (20, len(network.links))
    bores = packed.bore * draw.uniform(0.8, 1.25, shape)
    lengths = packed.length * draw.uniform(0.7, 1.4, shape)
    found = solve_many(packed, Variants(bore=bores, length=lengths))
    with Engine(network, tmp_path) as engine:
        for i in range(20):
            engine.change(lengths[i].tolist(), bores[i].tolist())
            trouble = engine.run()
            flows = engine.flows()

            assert trouble == 0
            assert max(abs(found.flows[i] - flows)) <= 1e-5 * max(abs(f) for f in flows)
