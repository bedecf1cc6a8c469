# SPDX-License-Identifier: Apache-2.0
"""Small networks whose answer is known, warm starts, and batches."""

from dataclasses import replace

import numpy as np
import pytest

from linewright.base.errors import FlowError
from linewright.flow.network import (
    Check,
    Displacement,
    Line,
    Loss,
    Network,
    Node,
    Reducing,
    Regulator,
    Relief,
    State,
)
from linewright.flow.pack import Packed, pack
from linewright.flow.solve import Status, Variants, solve, solve_many
from tests.networks import looped, well_posed

WATER, OIL, PETROL = State(998.0, 1e-6), State(840.0, 2e-5), State(740.0, 6e-7)
WIDE = {"viscous": 0.0, "inertial": 1e8}


def fuel(boost: float, demand: float, speed: float = 100.0) -> Packed:
    """A pump that feeds a rail, whose surplus a boost-referenced regulator returns."""
    nodes = (
        Node("tank", pressure=101_325.0),
        Node("rail"),
        Node("injectors", demand=demand),
        Node("manifold", pressure=101_325.0 + boost),
    )
    links = (
        Displacement("pump", "tank", "rail", displacement=7e-7, speed=speed, slip=2e-15),
        Line("feed", "rail", "injectors", length=1.0, bore=0.008),
        Regulator(
            "regulator",
            "injectors",
            "tank",
            holds=3e5,
            rise=1e4,
            flow=7e-5,
            reference="manifold",
            **WIDE,
        ),
    )
    return pack(Network(nodes, links, PETROL))


def test_a_boost_referenced_regulator_holds_the_same_over_any_boost() -> None:
    idle, boosted = solve(fuel(-6e4, 0.002)), solve(fuel(1.5e5, 0.002))
    over = [
        s.pressure("injectors") - s.pressure("manifold") - 1e4 * s.flow("regulator") / (740 * 7e-5)
        for s in (idle, boosted)
    ]

    assert idle.status("regulator") is boosted.status("regulator") is Status.HOLDS
    assert over == pytest.approx([3e5, 3e5], abs=1.0)


def test_a_rail_that_draws_more_than_the_pump_gives_shuts_its_regulator_and_falls() -> None:
    found = solve(fuel(0.0, demand=0.0515))

    assert found.status("regulator") is Status.SHUT
    assert found.flow("regulator") == pytest.approx(0.0, abs=1e-9)
    assert found.flow("pump") == pytest.approx(0.0515, rel=1e-7)
    # 0.0518 kg/s are displaced: what is over slips at the pressure that drives it.
    rise = (740 * 7e-7 * 100 - 0.0515) / (2e-15 / 6e-7)
    assert found.pressure("rail") == pytest.approx(101_325.0 + rise, rel=1e-6)


def test_a_relief_valve_passes_what_is_left_over_above_its_cracking_pressure() -> None:
    nodes = (Node("tank", pressure=1e5), Node("gallery", demand=0.3))
    links = (
        Displacement("pump", "tank", "gallery", displacement=2e-5, speed=50.0, slip=1e-15),
        Relief("relief", "gallery", "tank", opens=4e5, rise=1e5, flow=1e-3),
    )
    found = solve(pack(Network(nodes, links, OIL)))
    passed = found.flow("relief") / 840.0

    assert found.status("relief") is Status.OPEN
    assert found.pressure("gallery") == pytest.approx(1e5 + 4e5 + 1e5 * passed / 1e-3, abs=0.1)
    assert found.flow("relief") == pytest.approx(found.flow("pump") - 0.3, rel=1e-9)


def test_a_check_valve_lets_nothing_back_and_loses_its_opening_pressure() -> None:
    def through(before: float, after: float) -> tuple[Status, float]:
        nodes = (Node("A", pressure=before), Node("B", pressure=after))
        check = Check("check", "A", "B", viscous=0.0, inertial=1e8, opens=1e4)
        found = solve(pack(Network(nodes, (check,), WATER)))
        return found.status("check"), found.flow("check")

    assert through(1.5e5, 1e5) == (
        Status.OPEN,
        pytest.approx(998.0 * (4e4 / (0.5 * 998.0 * 1e8)) ** 0.5, rel=1e-6),
    )
    assert through(1.05e5, 1e5) == (Status.SHUT, pytest.approx(0.0, abs=1e-8))
    assert through(1e5, 9e5) == (Status.SHUT, pytest.approx(0.0, abs=1e-7))


@pytest.mark.parametrize(
    ("before", "status", "after"),
    [(6e5, Status.HOLDS, 3e5), (2e5, Status.OPEN, None), (0.9e5, Status.SHUT, None)],
)
def test_a_reducing_regulator_holds_what_the_pressure_before_it_allows(
    before: float, status: Status, after: float | None
) -> None:
    nodes = (Node("A", pressure=before), Node("B"), Node("C", pressure=1e5))
    links = (
        Reducing("valve", "A", "B", holds=3e5, rise=2e4, flow=1e-3, **WIDE),
        Loss("use", "B", "C", viscous=0.0, inertial=1e9),
    )
    found = solve(pack(Network(nodes, links, WATER)))

    assert found.status("valve") is status
    assert found.pressure("B") <= 3e5
    if after is not None:
        q = found.flow("valve") / 998.0
        assert found.pressure("B") == pytest.approx(after - 2e4 * q / 1e-3, abs=0.1)


def test_hot_and_cold_legs_turn_a_loop_by_themselves() -> None:
    # Two columns of 1 m, 40 kg/m3 apart: their weight is what drives the loop.
    nodes = (Node("low", pressure=1e5), Node("high", height=1.0))
    links = (
        Line("hot", "low", "high", length=1.0, bore=0.02),
        Line("cold", "high", "low", length=1.0, bore=0.02),
    )
    cold = State(1000.0, 1e-6)
    found = solve(pack(Network(nodes, links, State(960.0, 1e-6), {"cold": cold})))

    assert found.flow("hot") == pytest.approx(found.flow("cold"), rel=1e-12)
    assert found.flow("hot") > 0.05
    assert 1e5 - 1000.0 * 9.80665 < found.pressure("high") < 1e5 - 960.0 * 9.80665


def test_a_network_at_rest_has_the_pressure_of_its_height() -> None:
    nodes = (Node("tank", pressure=1e5), Node("A", height=-0.5), Node("B", height=-1.0))
    links = (Line("L", "tank", "A", 1.0, 0.01), Line("M", "A", "B", 1.0, 0.01))
    found = solve(pack(Network(nodes, links, WATER)))

    assert found.flows == pytest.approx([0.0, 0.0], abs=1e-12)
    assert found.pressure("B") == pytest.approx(1e5 + 998.0 * 9.80665, rel=1e-12)


def test_a_solution_says_how_good_it_is() -> None:
    for seed in range(30):
        found = solve(pack(well_posed(seed)))

        assert found.residual <= 1e-9
        assert found.mismatch <= 1e-6 * max(1e5, abs(found.pressures).max())


def test_a_warm_start_gives_the_same_answer_in_fewer_iterations() -> None:
    packed = pack(looped(60, 0))
    cold = solve(packed)
    warm = solve(packed, cold)

    assert warm.iterations <= 2 < cold.iterations
    assert warm.flows == pytest.approx(cold.flows, rel=1e-9, abs=1e-12)


def test_nothing_packed_is_changed_by_solving() -> None:
    packed = fuel(0.0, 0.002)
    before = [a.copy() for a in (packed.pressure, packed.demand, packed.numbers)]
    first = solve(packed)
    flows = first.flows.copy()
    solve(packed, first)
    after = (packed.pressure, packed.demand, packed.numbers)

    for one, other in zip(before, after, strict=True):
        np.testing.assert_array_equal(one, other)
    np.testing.assert_array_equal(first.flows, flows)


def test_a_batch_is_what_each_variant_is_when_it_is_packed_alone() -> None:
    network = well_posed(5)
    packed = pack(network)
    draw = np.random.default_rng(2)
    count, n, v = 40, len(network.links), len(network.nodes)
    variants = Variants(
        length=packed.length * draw.uniform(0.5, 2.0, (count, n)),
        bore=packed.bore * draw.uniform(0.8, 1.2, (count, n)),
        speed=packed.speed * draw.uniform(0.5, 1.5, (count, n)),
        density=packed.density * draw.uniform(0.97, 1.03, (count, n)),
        viscosity=packed.viscosity * draw.uniform(0.5, 2.0, (count, n)),
        pressure=packed.pressure * draw.uniform(0.9, 1.1, (count, v)),
        demand=packed.demand * draw.uniform(0.0, 1.5, (count, v)),
    )
    found = solve_many(packed, variants)

    assert (found.iterations > 0).all()
    for i in range(count):
        nodes = tuple(
            Node(
                node.id,
                node.height,
                None if node.pressure is None else float(variants.pressure[i, j]),  # type: ignore[index]
                float(variants.demand[i, j]),  # type: ignore[index]
            )
            for j, node in enumerate(network.nodes)
        )
        links, states = [], {}
        for j, link in enumerate(network.links):
            names = [k for k in ("length", "bore", "speed") if hasattr(link, k)]
            links.append(replace(link, **{k: float(getattr(variants, k)[i, j]) for k in names}))
            states[link.id] = State(
                float(variants.density[i, j]),  # type: ignore[index]
                float(variants.viscosity[i, j]),  # type: ignore[index]
            )
        alone = solve(pack(Network(nodes, tuple(links), network.fluid, states)))
        largest = abs(alone.flows).max()

        assert found.flows[i] == pytest.approx(alone.flows, abs=1e-6 * largest)
        assert found.pressures[i] == pytest.approx(alone.pressures, abs=10.0)


def test_a_variant_is_the_same_to_the_last_bit_whatever_stands_beside_it() -> None:
    packed = pack(looped(20, 3))
    bores = packed.bore * np.random.default_rng(1).uniform(0.7, 1.4, (200, 20))
    whole = solve_many(packed, Variants(bore=bores))
    turned = solve_many(packed, Variants(bore=bores[::-1]))
    single = solve_many(packed, Variants(bore=bores[17:18]))

    np.testing.assert_array_equal(whole.flows, turned.flows[::-1])
    np.testing.assert_array_equal(whole.flows[17], single.flows[0])


@pytest.mark.parametrize(
    ("variants", "text"),
    [
        (Variants(), "The variants have rows: none. Give every array the same number of rows."),
        (
            Variants(bore=np.ones((3, 3)), length=np.ones((2, 3))),
            "The variants have rows: 2, 3. Give every array the same number of rows.",
        ),
        (
            Variants(bore=np.ones((3, 7))),
            "bore has shape (3, 7); it must have (3, 3), a row for each variant.",
        ),
        (
            Variants(bore=np.array([[1.0, 0.01, 1.0], [1.0, 0.0, 1.0]])),
            "feed: bore is 0 in variant 1; it must be more than 0.",
        ),
        (
            Variants(demand=np.array([[0.0, 0.0, np.nan, 0.0]])),
            "injectors: demand is nan in variant 0; it must be a number.",
        ),
        (
            Variants(pressure=np.array([[1e5, 1e5, 1e5, -1.0]])),
            "manifold: pressure is -1 in variant 0; it must be 0 or more.",
        ),
    ],
)
def test_variants_that_cannot_be_are_named(variants: Variants, text: str) -> None:
    with pytest.raises(FlowError) as caught:
        solve_many(fuel(0.0, 0.002), variants)

    assert str(caught.value) == text


def test_the_numbers_of_a_law_can_differ_between_variants() -> None:
    water = State(density=998.0, viscosity=1e-6)
    nodes = (Node("A", pressure=3e5), Node("B", pressure=1e5))
    packed = pack(Network(nodes, (Loss("L", "A", "B", 0.0, 1e9),), water))
    numbers = np.stack([packed.numbers, packed.numbers * 4.0])

    found = solve_many(packed, Variants(numbers=numbers)).flows[:, 0]

    assert found[0] == pytest.approx(2.0 * found[1], rel=1e-6)
