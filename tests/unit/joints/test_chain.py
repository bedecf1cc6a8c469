# SPDX-License-Identifier: Apache-2.0
"""The search for chains against enumeration, and its rules one by one."""

import random
from dataclasses import replace

import pytest

from linewright.catalogue import stock
from linewright.catalogue.part import Availability, Part
from linewright.catalogue.stock import Catalogue
from linewright.ends.end import UNKNOWN, End, Family, Gender
from linewright.ends.mates import mates
from linewright.ends.notation import read
from linewright.joints.chain import Options, join
from linewright.joints.model import Chain
from tests.unit.joints.exhaustive import Enumerator, Found

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


def _pairs(count: int) -> list[tuple[End, End]]:
    draw = random.Random(7)
    ports = [port for port in _ports() if port.family is not Family.WELD]
    return [(draw.choice(ports), draw.choice(ports)) for _ in range(count)]


def test_two_ends_join_from_either_side_alike() -> None:
    joined = 0
    for near, far in _pairs(300):
        there = join(near, far, stock.generic())
        back = join(far, near, stock.generic())

        told = f"{near} and {far}"
        assert bool(there) == bool(back), told
        if there:
            joined += 1
            assert there[0].rank[:5] == pytest.approx(back[0].rank[:5]), told
            assert there[0].rank[5] == pytest.approx(back[0].rank[5]), told
    assert joined >= 20


def test_every_chain_keeps_its_own_books() -> None:
    for near, far in _pairs(120):
        for found in join(near, far, stock.generic()):
            assert len(found.joints) == len(found.parts) + 1
            assert found.joints[0].near == near
            assert found.joints[-1].far == far
            for part, before, after in zip(
                found.parts, found.joints, found.joints[1:], strict=False
            ):
                assert sorted(map(str, (before.far, after.near))) == sorted(map(str, part.ends))
            assert all(joint.mating == mates(joint.near, joint.far) for joint in found.joints)
            bores = [part.bore for part in found.parts if part.bore is not None]
            assert found.bore == (min(bores) if bores else None)
            assert found.price_index == pytest.approx(sum(p.price_index for p in found.parts))


def _part(code: str, near: str, far: str, bore: float, price: float) -> Part:
    return Part(
        code=code,
        name=code,
        shape="adaptor",
        ends=(_port(near), _port(far)),
        legs=(0.01, 0.01),
        bore=bore,
        price_index=price,
    )


def test_the_better_beginning_is_not_always_the_beginning_of_the_better_chain() -> None:
    # The wide adaptor wins on bore alone; behind it everything passes a narrow part, so
    # both chains are equally wide and the cheap beginning wins.
    toy = Catalogue(
        (
            _part("dear-wide", "-8 ORB male", "3/8 NPT female", 0.010, 5.0),
            _part("cheap-narrow", "-8 ORB male", "3/8 NPT female", 0.008, 1.0),
            _part("neck", "3/8 NPT male", "-6 flare male", 0.006, 1.0),
        )
    )

    found = join(_port("-8 ORB female"), _port("-6 flare swivel"), toy)

    assert [part.code for part in found[0].parts] == ["cheap-narrow", "neck"]
    assert found[1].reason == "price index 6.00, not 2.00"
    assert found[0].reason == "next: dear-wide, neck: price index 6.00, not 2.00"


def test_bore_beyond_the_hoses_own_is_no_merit() -> None:
    toy = Catalogue(
        (
            _part("dear-wide", "-8 ORB male", "-6 flare male", 0.012, 5.0),
            _part("cheap-narrow", "-8 ORB male", "-6 flare male", 0.008, 1.0),
        )
    )
    near, far = _port("-8 ORB female"), _port("-6 flare swivel")

    wide = join(near, far, toy)
    capped = join(near, far, toy, options=Options(hose_bore=0.0079))

    assert wide[0].parts[0].code == "dear-wide"
    assert wide[0].reason == "next: cheap-narrow: least bore 8.0 mm, not 12.0 mm"
    assert capped[0].parts[0].code == "cheap-narrow"


def test_a_special_part_waits_until_nothing_else_will_do() -> None:
    special = replace(
        _part("special", "-8 ORB male", "-6 flare male", 0.008, 1.0),
        availability=Availability.SPECIAL,
    )
    long_way = (
        _part("one", "-8 ORB male", "3/8 NPT female", 0.008, 1.0),
        _part("two", "3/8 NPT male", "-6 flare male", 0.008, 1.0),
    )
    near, far = _port("-8 ORB female"), _port("-6 flare swivel")

    both = join(near, far, Catalogue((special, *long_way)))
    held = join(near, far, Catalogue((replace(special, held=True), *long_way)))

    assert [part.code for part in both[0].parts] == ["one", "two"]
    assert both[1].reason == "it needs a part on special order"
    assert [part.code for part in held[0].parts] == ["special"]


def test_a_taper_in_aluminium_counts_as_two_joints_and_in_steel_as_one() -> None:
    near, far = _port("3/8 NPT female"), _hose("-6 rubber")

    steel = join(near, far, stock.generic())[0]
    aluminium = join(near, far, stock.generic(), options=Options(is_aluminium=True))[0]

    assert (steel.rank[3], aluminium.rank[3]) == (2.0, 3.0)
    assert steel.joint_count == aluminium.joint_count == 2


def test_an_unknown_end_joins_nothing() -> None:
    assert join(UNKNOWN, _hose("-6 rubber"), stock.generic()) == ()
    assert join(_port("-6 flare male"), UNKNOWN, stock.generic()) == ()


def test_two_ends_that_mate_need_no_part() -> None:
    (found,) = join(_port("1/8 NPT female"), _port("1/8 NPT male"), stock.generic())

    assert found.parts == ()
    assert found.reason == "the two mate as they are"


def test_the_same_question_is_searched_once() -> None:
    near, far = _port("-10 ORB female"), _hose("-8 rubber")

    assert join(near, far, stock.generic()) is join(near, far, stock.generic())
