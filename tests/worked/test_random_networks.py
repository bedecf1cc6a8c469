# SPDX-License-Identifier: Apache-2.0
"""Random well-posed networks with pumps and valves of all kinds: all settle, each is proved."""

from collections import Counter

import pytest

from linewright.flow.network import Centrifugal, Check, Displacement, Reducing, Regulator, Relief
from linewright.flow.pack import pack
from linewright.flow.solve import Status, solve
from tests.flow_proof import prove
from tests.networks import well_posed

SAMPLE = [pytest.param(range(i, i + 50), id=str(i)) for i in range(0, 500, 50)]
ALL = [
    pytest.param(range(i, i + 500), id=str(i), marks=pytest.mark.prove)
    for i in range(500, 10_000, 500)
]


@pytest.mark.parametrize("seeds", [*SAMPLE, *ALL])
def test_every_well_posed_network_settles_balances_and_keeps_the_laws(seeds: range) -> None:
    for seed in seeds:
        network = well_posed(seed)
        solution = solve(pack(network))
        proof = prove(
            network,
            {k.id: solution.flow(k.id) for k in network.links},
            {n.id: solution.pressure(n.id) for n in network.nodes},
        )

        assert proof.balance <= 1e-9, seed
        assert proof.energy <= 1e-6, seed
        assert proof.drop <= 1e-6, seed
        assert proof.valves == (), seed


def test_the_sample_has_every_kind_of_pump_and_valve_at_work_in_every_way() -> None:
    found: Counter[tuple[type, Status]] = Counter()
    boosted = 0
    for seed in range(100):
        network = well_posed(seed)
        solution = solve(pack(network))
        for link in network.links:
            found[type(link), solution.status(link.id)] += 1
            boosted += isinstance(link, Regulator) and link.reference == "manifold"
    valves = [(Relief, Check), (Status.SHUT, Status.OPEN)]
    regulators = [(Regulator, Reducing), (Status.SHUT, Status.HOLDS, Status.OPEN)]
    wanted = [(k, s) for kinds, ways in (valves, regulators) for k in kinds for s in ways]
    wanted += [(Centrifugal, Status.PASSES), (Displacement, Status.PASSES)]

    assert {w for w in wanted if found[w] < 10} == set()
    assert boosted >= 50


def test_the_proof_sees_a_wrong_flow_and_a_wrong_valve() -> None:
    network = well_posed(0)
    solution = solve(pack(network))
    flows = {k.id: solution.flow(k.id) for k in network.links}
    pressures = {n.id: solution.pressure(n.id) for n in network.nodes}
    one = max(flows, key=lambda k: abs(flows[k]))
    wrong = prove(network, {**flows, one: flows[one] * 1.001}, pressures)
    shut = next(
        k.id
        for k in network.links
        if isinstance(k, Relief | Check | Regulator | Reducing)
        and solution.status(k.id) is Status.SHUT
    )
    leaks = prove(network, {**flows, shut: -1e-3}, pressures)

    assert wrong.balance > 1e-4
    assert leaks.valves == (f"{shut} lets 0.001 kg/s back",)
