# SPDX-License-Identifier: Apache-2.0
"""The search for chains against enumeration, and its rules one by one."""

import random

import pytest
from tests.unit.joints.exhaustive import Enumerator, Found

from linewright.catalogue import stock
from linewright.ends.end import End, Family, Gender
from linewright.ends.mates import mates
from linewright.ends.notation import read
from linewright.joints.chain import Options, join
from linewright.joints.model import Chain

#: Families of ports that hoses with screwed ends are led to.
PORTS = (
    Family.FLARE_37,
    Family.ORB_UNF,
    Family.ORFS,
    Family.NPT,
    Family.BSPP,
    Family.BSPT,
    Family.ISO6149,
    Family.METRIC_FLAT_FACE,
    Family.INVERTED_FLARE,
    Family.QC,
    Family.BEAD,
    Family.WELD,
)


def _hose(text: str) -> End:
    dash, key = text.split()
    return End(Family.HOSE, dash, Gender.FEMALE, kind=key)


def _port(text: str) -> End:
    return read(text).end


def _shapes(chain: Chain) -> list[tuple[str, ...]]:
    return [tuple(str(end) for end in part.ends) for part in chain.parts]


def _ports() -> list[End]:
    """Every end that some part of the catalogue can be put on, as a port would have it."""
    found = set()
    for part in stock.generic().parts:
        for end in part.ends:
            for gender in Gender:
                port = End(end.family, end.size, gender, kind=end.kind)
                if port.family in PORTS and mates(port, end).ok:
                    found.add(port)
    return sorted(found, key=str)


def _cases(count: int) -> list[tuple[End, End, int, float, bool]]:
    draw = random.Random(20_261_125)
    ports = _ports()
    ends = sorted(
        {
            (end.kind, end.size)
            for part in stock.generic().parts
            if part.shape == "hose end"
            for end in part.ends
            if end.family is Family.HOSE
        }
    )
    cases = []
    for _ in range(count):
        key, dash = draw.choice(ends)
        cases.append(
            (
                draw.choice(ports),
                End(Family.HOSE, dash, Gender.FEMALE, kind=key),
                draw.choice((0, 0, 45, 90)),
                draw.choice((0.0045, 0.0079, 0.0103, 0.0143, 0.0222)),
                draw.random() < 0.5,
            )
        )
    return cases


def _check(every: Enumerator, case: tuple[End, End, int, float, bool]) -> bool:
    """Compare one search with enumeration; say whether anything joined the two."""
    near, far, angle, hose_bore, is_aluminium = case
    found = join(
        near,
        far,
        stock.generic(),
        options=Options(angle=angle, hose_bore=hose_bore, is_aluminium=is_aluminium),
    )
    all_chains = every.chains(
        near, far, angle=angle, hose_bore=hose_bore, is_aluminium=is_aluminium
    )
    told = f"{near} to {far}, {angle} deg, bore {hose_bore}, aluminium {is_aluminium}"

    assert bool(found) == bool(all_chains), told
    for chain in found:
        assert all(mates(joint.near, joint.far).ok for joint in chain.joints), told
    if not all_chains:
        return False
    best = all_chains[0]
    assert found[0].rank == pytest.approx(best.rank), told
    assert tuple(part.code for part in found[0].parts) == best.codes, told
    _check_next(found, all_chains, told)
    return True


def _check_next(found: tuple[Chain, ...], all_chains: list[Found], told: str) -> None:
    """The next best is exact among the chains of at most one part more than the best."""
    near_in_length = [f for f in all_chains if len(f.codes) <= len(all_chains[0].codes) + 1]
    if len(near_in_length) < 2:
        return
    assert len(found) >= 2, told
    ranks = {tuple(round(x, 5) for x in f.rank): f for f in all_chains}
    mine = tuple(round(x, 5) for x in found[1].rank)
    assert mine in ranks, told
    assert mine <= tuple(round(x, 5) for x in near_in_length[1].rank), told


def test_the_best_of_a_hundred_random_pairs_is_the_best_of_all_chains() -> None:
    every = Enumerator(stock.generic())

    joined = sum(_check(every, case) for case in _cases(100))

    assert joined >= 50, "too few of the random pairs can be joined to prove anything"


@pytest.mark.prove
def test_the_best_of_two_thousand_random_pairs_is_the_best_of_all_chains() -> None:
    every = Enumerator(stock.generic())

    joined = sum(_check(every, case) for case in _cases(2000))

    assert joined >= 1000
