# SPDX-License-Identifier: Apache-2.0
"""What the trade does not sell is not in the catalogue [common practice throughout].

Each rule searches the whole catalogue. It is also shown a part that breaks it, as a builder
might hold one in his hand, so that the search is known to find what it looks for.
"""

from collections.abc import Callable

import pytest

from linewright.base.errors import CatalogueError
from linewright.base.evidence import Grade
from linewright.catalogue.elbows import elbow
from linewright.catalogue.hose_ends import hose_end
from linewright.catalogue.part import Availability, Part
from linewright.catalogue.stock import Catalogue, generic
from linewright.catalogue.trade import Offer, end_of
from linewright.ends.end import End, Family, Gender
from linewright.ends.mates import mates
from linewright.ends.mating import SealNeed

DASHES = ("-3", "-4", "-6", "-8", "-10", "-12", "-16", "-20")
Rule = Callable[[Part], bool]


def _held(
    shape: str,
    *ends: str,
    angle: int = 0,
    traits: tuple[str, ...] = (),
    comes_with: tuple[SealNeed, ...] = (),
) -> Part:
    return Part(
        code="held-in-the-hand",
        name="a part in the builder's hand",
        shape=shape,
        ends=tuple(map(end_of, ends)),
        angle=angle,
        traits=frozenset(traits),
        comes_with=comes_with,
        held=True,
    )


def _breakers(rule: Rule, catalogue: Catalogue) -> list[str]:
    return [part.code for part in catalogue.parts if rule(part)]


def _is_loose_elbow(part: Part, family: Family) -> bool:
    """An elbow with a straight-threaded stud that nothing holds in its direction."""
    return (
        part.angle != 0
        and "lock nut" not in part.traits
        and any(e.family is family and e.gender is Gender.MALE and not e.swivel for e in part.ends)
    )


def _dash(end: End) -> int:
    return int(end.size.removeprefix("-"))


def _cones(part: Part) -> list[int]:
    return [_dash(e) for e in part.ends if e.family is Family.FLARE_37 and e.gender is Gender.MALE]


def _has(part: Part, end: str) -> bool:
    return end_of(end) in part.ends


def _is_far_step(part: Part) -> bool:
    studs = [
        end.size
        for end in part.ends
        if end.family in (Family.ORB_UNF, Family.ORFS)
        and end.gender is Gender.MALE
        and end.size in DASHES
    ]
    return any(
        abs(DASHES.index(stud) - DASHES.index(f"-{cone}")) > 3
        for stud in studs
        for cone in _cones(part)
    )


def _hoses(dash: str) -> dict[str, End]:
    return {
        kind: End(Family.HOSE, dash, Gender.FEMALE, kind=kind)
        for kind in ("rubber", "PTFE", "push-on")
    }


def _grips(part: Part, kind: str) -> bool:
    return any(
        mates(end, _hoses(end.size)[kind]).ok
        for end in part.ends
        if end.family in (Family.HOSE, Family.BARB) and end.gender is Gender.MALE
    )


def _is_tapered_banjo(part: Part) -> bool:
    tapered = [
        End(family, letter + size, Gender.FEMALE)
        for family, letter in ((Family.NPT, ""), (Family.NPTF, ""), (Family.BSPT, "Rc "))
        for size in ("1/8", "1/4", "3/8", "1/2")
    ]
    banjos = [end for end in part.ends if end.family is Family.BANJO]
    return any(
        mates(end, port).ok or end.size.startswith(("R", "NPT"))
        for end in banjos
        for port in tapered
    )


def _is_bare_ptfe_end(part: Part) -> bool:
    return any(e.family is Family.HOSE and e.kind == "PTFE" for e in part.ends) and not any(
        need.what == "olive" for need in part.comes_with
    )


def _screws_on_moulded_hose(part: Part) -> bool:
    # A nut on one side and a grip for clamped hose on the other, with no bead or barb to clamp.
    clamped = End(Family.HOSE, "38", Gender.FEMALE, kind="clamped")
    return "hose end" in part.shape and any(
        end.kind == "clamped"
        or (end.family is Family.HOSE and mates(end, clamped).ok)
        or end.family in (Family.BEAD, Family.BARB)
        for end in part.ends
    )


def _grips_a_cone(part: Part) -> bool:
    rubber = [e for e in part.ends if e.family is Family.HOSE and e.kind == "clamped"]
    cones = [End(Family.FLARE_37, dash, Gender.MALE) for dash in DASHES]
    return any(mates(end, cone).ok for end in rubber for cone in cones) or bool(
        rubber and any(e.family is Family.FLARE_37 for e in part.ends)
    )


def _seals_itself(part: Part) -> bool:
    return any(
        need.is_seal and need.what in ("o-ring", "face o-ring", "washer", "paste")
        for need in part.comes_with
    ) or bool({"self-sealing", "own seal"} & part.traits)


RULES: dict[str, tuple[Rule, Part]] = {
    "01 boss elbow without lock nut or swivel": (
        lambda part: _is_loose_elbow(part, Family.ORB_UNF),
        _held("elbow", "orb_unf -12 m", "flare_37 -12 m", angle=90),
    ),
    "02 BSPP elbow without lock nut or swivel": (
        lambda part: _is_loose_elbow(part, Family.BSPP),
        _held("elbow", "bspp G 1/2 m", "flare_37 -10 m", angle=45),
    ),
    "03 metric washer-face elbow without lock nut or swivel": (
        lambda part: _is_loose_elbow(part, Family.METRIC_FLAT_FACE),
        _held("elbow", "metric_flat_face M18x1.5 m", "flare_37 -8 m", angle=90),
    ),
    "04 tee with a rigid boss stud": (
        lambda part: (
            len(part.ends) > 2
            and any(
                e.family is Family.ORB_UNF and e.gender is Gender.MALE and not e.swivel
                for e in part.ends
            )
        ),
        _held("tee", "orb_unf -6 m", "flare_37 -6 m", "flare_37 -6 m"),
    ),
    "05 stud more than three steps from its cone": (
        _is_far_step,
        _held("adaptor", "orb_unf -4 m", "flare_37 -12 m"),
    ),
    "06 npt 1/8 to a -10 cone or larger": (
        lambda part: (
            len(part.ends) == 2
            and _has(part, "npt 1/8 m")
            and any(cone >= 10 for cone in _cones(part))
        ),
        _held("adaptor", "npt 1/8 m", "flare_37 -10 m"),
    ),
    "07 npt 3/4 to a -4 cone or smaller": (
        lambda part: _has(part, "npt 3/4 m") and any(cone <= 4 for cone in _cones(part)),
        _held("adaptor", "npt 3/4 m", "flare_37 -4 m"),
    ),
    "08 M22x1.5 to a -3 cone": (
        lambda part: _has(part, "metric_flat_face M22x1.5 m") and 3 in _cones(part),
        _held("adaptor", "metric_flat_face M22x1.5 m", "flare_37 -3 m"),
    ),
    "09 M10x1 to a -8 cone or larger": (
        lambda part: (
            _has(part, "metric_flat_face M10x1 m") and any(cone >= 8 for cone in _cones(part))
        ),
        _held("adaptor", "metric_flat_face M10x1 m", "flare_37 -8 m"),
    ),
    "10 banjo for a tapered port": (
        _is_tapered_banjo,
        _held("banjo adaptor", "banjo R 1/4 m", "flare_37 -4 m"),
    ),
    "11 banjo hose end -12 or larger": (
        lambda part: (
            any(e.family is Family.BANJO for e in part.ends)
            and any(e.family is Family.HOSE and _dash(e) >= 12 for e in part.ends)
        ),
        _held("banjo hose end", "banjo M22x1.5 m", "hose -12 rubber m"),
    ),
    "12 push-on barb end for PTFE hose": (
        lambda part: (
            any(
                e.family is Family.BARB or (e.family is Family.HOSE and e.kind == "push-on")
                for e in part.ends
            )
            and (_grips(part, "PTFE") or any(e.kind == "PTFE" for e in part.ends))
        ),
        _held("hose end", "barb -6 m", "hose -6 PTFE m", comes_with=(SealNeed("olive", "-6"),)),
    ),
    "13 hose end that takes both rubber and PTFE hose": (
        lambda part: (
            (_grips(part, "rubber") and _grips(part, "PTFE"))
            or {"rubber", "PTFE"} <= {end.kind for end in part.ends}
        ),
        _held("hose end", "hose -6 rubber m", "hose -6 PTFE m"),
    ),
    "14 reusable PTFE end without an olive": (
        _is_bare_ptfe_end,
        _held("hose end", "flare_37 -6 f swivel", "hose -6 PTFE m"),
    ),
    "15 screw-together end for plain silicone or moulded hose": (
        _screws_on_moulded_hose,
        _held("hose end", "flare_37 -20 f swivel", "hose 38 clamped m"),
    ),
    "16 race hose of -7, -9, -11 or -14": (
        lambda part: any(
            e.family is Family.HOSE and e.kind != "clamped" and _dash(e) in (7, 9, 11, 14)
            for e in part.ends
        ),
        _held("hose end", "flare_37 -14 f swivel", "hose -14 rubber m"),
    ),
    "17 fuel quick connector on -12 or larger": (
        lambda part: (
            any(e.family is Family.QC for e in part.ends)
            and any(cone >= 12 for cone in _cones(part))
        ),
        _held("adaptor", "qc 3/8 f", "flare_37 -12 m"),
    ),
    "18 reusable 45 degree flare end in the race families": (
        lambda part: (
            any(e.family is Family.FLARE_45 for e in part.ends)
            and any(e.family is Family.HOSE for e in part.ends)
        ),
        _held("hose end", "flare_45 -6 f swivel", "hose -6 rubber m"),
    ),
    "19 silicone coupler that grips a flare cone": (
        _grips_a_cone,
        _held("coupler", "hose 25 clamped f", "flare_37 -16 f"),
    ),
    "20 part that is its own seal": (
        _seals_itself,
        _held("plug", "orb_unf -6 m", comes_with=(SealNeed("o-ring", "AS568-906"),)),
    ),
}


def test_there_are_twenty_rules() -> None:
    assert [name[:2] for name in RULES] == [f"{number:02}" for number in range(1, 21)]


@pytest.mark.parametrize("name", RULES)
def test_the_catalogue_has_no_part_that_breaks_the_rule(name: str) -> None:
    rule, _ = RULES[name]

    assert _breakers(rule, generic()) == []


@pytest.mark.parametrize("name", RULES)
def test_the_search_finds_a_breaker_that_a_builder_holds(name: str) -> None:
    rule, breaker = RULES[name]

    assert _breakers(rule, generic().with_parts([breaker])) == ["held-in-the-hand"]


def _sealed_by(end: End) -> End:
    """The port that a stud goes into, or the stud that a port takes."""
    other = Gender.FEMALE if end.gender is Gender.MALE else Gender.MALE
    size = end.size
    if end.family is Family.BSPT:
        size = size.replace("Rc", "R") if other is Gender.MALE else size.replace("R ", "Rc ")
    swivels = end.family in (Family.ORFS,) and other is Gender.FEMALE
    return End(end.family, size, other, swivel=swivels)


def test_every_stud_asks_its_port_for_the_seal_of_its_family() -> None:
    families = {
        Family.ORB_UNF: "o-ring",
        Family.ORFS: "face o-ring",
        Family.ISO6149: "o-ring",
        Family.METRIC_FLAT_FACE: "washer",
        Family.BSPP: "washer",
        Family.NPT: "paste",
        Family.BSPT: "paste",
    }
    studs = {
        end
        for part in generic().parts
        for end in part.ends
        if end.family in families and end.gender is Gender.MALE
    }
    unsealed = [
        str(end)
        for end in studs
        if families[end.family] not in {need.what for need in mates(end, _sealed_by(end)).seals}
    ]

    assert len(studs) > 60
    assert sorted(unsealed) == []


def test_an_elbow_with_nothing_to_hold_it_is_refused_when_made() -> None:
    ends = (end_of("orb_unf -8 m"), end_of("flare_37 -8 m"))
    offer = Offer("elbow", ends, 90, (), "aluminium", Availability.STOCKED, Grade.PRACTICE)

    with pytest.raises(CatalogueError) as caught:
        elbow(offer)

    assert str(caught.value) == (
        "elbow orb_unf -8 m to flare_37 -8 m: nothing holds its direction; the trade sells such "
        "elbows with a lock nut or a swivel nut only. Give it the trait 'lock nut'."
    )


def test_a_ptfe_end_without_an_olive_is_refused_when_made() -> None:
    ends = (end_of("flare_37 -8 f swivel"), end_of("hose -8 PTFE m"))
    offer = Offer("hose end", ends, 90, (), "aluminium", Availability.STOCKED, Grade.PRACTICE)

    with pytest.raises(CatalogueError) as caught:
        hose_end(offer)

    assert str(caught.value) == (
        "hose end -8 PTFE 90°: an end for PTFE hose seals on an olive; the trade sells none "
        "without. Give it the trait 'olive'."
    )


def test_a_hose_end_of_an_angle_nobody_makes_is_refused_when_made() -> None:
    ends = (end_of("flare_37 -8 f swivel"), end_of("hose -8 rubber m"))
    offer = Offer("hose end", ends, 75, (), "aluminium", Availability.STOCKED, Grade.PRACTICE)

    with pytest.raises(CatalogueError) as caught:
        hose_end(offer)

    assert str(caught.value) == (
        "hose end -8 rubber 75°: not sold; angles are 0, 30, 45, 60, 90, 120, 150, 180, and the "
        "dash needs its lengths in part_sizes.csv"
    )
