# SPDX-License-Identifier: Apache-2.0
"""What seals with what: each row of mating.csv, each trap, and symmetry over all ends."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.evidence import Grade
from linewright.ends.end import UNKNOWN, End, Family, Gender
from linewright.ends.mates import mates
from linewright.ends.mating import Mating
from linewright.ends.sizes import made
from linewright.tables.load import rows, sources

M, F = Gender.MALE, Gender.FEMALE


def _end(text: str, kind: str = "") -> End:
    """``"orb_unf -8 f"``: family, size, gender; shorter than the notation, for these tests."""
    words = text.split()
    gender = Gender(words.pop()) if words[-1] in ("m", "f") else Gender.NONE
    return End(Family(words[0]), " ".join(words[1:]), gender, kind=kind)


def _needs(mating: Mating) -> list[tuple[str, str, int, bool]]:
    return [(need.what, need.size, need.count, need.is_seal) for need in mating.seals]


def _all_ends() -> list[End]:
    ends = [UNKNOWN]
    for one in made():
        for gender in (M, F):
            if one.family is Family.BSPP:
                ends.append(End(one.family, f"G {one.size}", gender))
            elif one.family is Family.BSPT:
                words = ("R",) if gender is M else ("Rc", "Rp")
                ends += [End(one.family, f"{word} {one.size}", gender) for word in words]
            else:
                ends.append(End(one.family, one.size, gender))
    for size in ("32", "38", "5"):
        ends += [
            End(Family.BEAD, size, M),
            End(Family.BARB, size, M),
            End(Family.HOSE, size, F, kind="clamped"),
        ]
    for dash, kind, gender in product(("-6", "-8"), ("rubber", "PTFE", "push-on"), (M, F)):
        ends.append(End(Family.HOSE, dash, gender, kind=kind))
    ends += [
        End(Family.WELD, "", M, kind="aluminium"),
        End(Family.WELD, "", F, kind="steel"),
        End(Family.WELD, "", F),
        End(Family.FLANGE, "2-bolt 38"),
        End(Family.VBAND, "63.5"),
        End(Family.OTHER, "9/16-24", M, kind="flat, gasket"),
        End(Family.OTHER, "9/16-24", F, kind="flat, gasket"),
        End(Family.OTHER, "9/16-24", F, kind="cone"),
    ]
    return ends


ENDS = _all_ends()


def test_every_pair_of_ends_gives_the_same_answer_either_way_round() -> None:
    told = 0
    for a, b in product(ENDS, ENDS):
        if a <= b:
            assert mates(a, b) == mates(b, a), f"{a} and {b}"
            told += 1

    assert told > 40_000


def test_what_seals_says_how_and_what_does_not_says_why() -> None:
    for a, b in product(ENDS, ENDS):
        if a > b:
            continue
        mating = mates(a, b)

        assert mating.why, f"{a} and {b}"
        assert bool(mating.hazard) is mating.look_alike
        assert not (mating.ok and mating.look_alike)
        assert mating.ok or not mating.seals


def test_ends_of_two_families_seal_only_where_a_rule_says_so() -> None:
    """Every pair of families that mate, written out: nothing else may slip in."""
    found = {
        frozenset((a.family.value, b.family.value))
        for a, b in product(ENDS, ENDS)
        if a.family is not b.family and mates(a, b).ok
    }

    assert found == {
        frozenset(("npt", "nptf")),
        frozenset(("banjo", "metric_flat_face")),
        frozenset(("banjo", "bspp")),
        frozenset(("hose", "bead")),
        frozenset(("hose", "barb")),
    }


def test_within_a_family_only_equal_sizes_of_the_other_gender_seal() -> None:
    for a, b in product(ENDS, ENDS):
        if a.family is not b.family or a.family is Family.BSPT:
            continue
        if mates(a, b).ok:
            assert a.size == b.size
            assert not a.gender or not b.gender or a.gender is not b.gender


# --------------------------------------------------------- rows of mating.csv

#: Each row by its two words, as ends of ours; the kind where it matters.
OF_ROWS: dict[tuple[str, str], tuple[End, End]] = {
    (
        "37 deg flare male (fitting or adaptor)",
        "37 deg flare female swivel (hose end, tube nut with sleeve and flared tube)",
    ): (_end("flare_37 -8 m"), End(Family.FLARE_37, "-8", F, swivel=True)),
    ("45 deg flare male", "45 deg flare nut with flared tube, 45 deg swivel"): (
        _end("flare_45 -8 m"),
        End(Family.FLARE_45, "-8", F, swivel=True),
    ),
    ("37 deg flare male", "45 deg flare female"): (_end("flare_37 -8 m"), _end("flare_45 -8 f")),
    ("inverted flare male tube nut with double-flared tube", "inverted flare female port"): (
        _end("inverted_flare -3 m"),
        _end("inverted_flare -3 f"),
    ),
    ("metric male nut with bubble-flared tube", "metric bubble (ISO) port"): (
        _end("bubble_flare M10x1 m"),
        _end("bubble_flare M10x1 f"),
    ),
    ("O-ring boss male (UN/UNF)", "O-ring boss port of the same dash"): (
        _end("orb_unf -8 m"),
        _end("orb_unf -8 f"),
    ),
    ("37 deg flare male", "O-ring boss port of the same dash"): (
        _end("flare_37 -8 m"),
        _end("orb_unf -8 f"),
    ),
    ("ORFS male", "ORFS female swivel"): (
        _end("orfs -12 m"),
        End(Family.ORFS, "-12", F, swivel=True),
    ),
    ("NPT or NPTF male", "NPT or NPTF female"): (_end("npt 1/2 m"), _end("nptf 1/2 f")),
    ("NPT male", "any straight female (UN, G, metric)"): (
        _end("npt 1/4 m"),
        _end("orb_unf -6 f"),
    ),
    ("NPT male", "BSPT female"): (_end("npt 1/2 m"), _end("bspt Rc 1/2 f")),
    ("BSPP (G) male with flat shoulder", "BSPP (G) port with flat face"): (
        _end("bspp G 1/2 m"),
        _end("bspp G 1/2 f"),
    ),
    ("BSPT (R) male", "Rc taper or Rp parallel ISO 7-1 female"): (
        _end("bspt R 1/2 m"),
        _end("bspt Rp 1/2 f"),
    ),
    ("BSPT (R) male", "BSPP (G) port"): (_end("bspt R 1/4 m"), _end("bspp G 1/4 f")),
    ("BSPP (G) male", "Rp or Rc female"): (_end("bspp G 1/4 m"), _end("bspt Rc 1/4 f")),
    ("ISO 6149 metric male", 'ISO 6149 port (ridge, M or "metric" mark)'): (
        _end("iso6149 M18 m"),
        _end("iso6149 M18 f"),
    ),
    ("ISO 9974 / DIN 3852 metric male", "ISO 9974 / DIN 3852 flat-face port"): (
        _end("metric_flat_face M18x1.5 m"),
        _end("metric_flat_face M18x1.5 f"),
    ),
    ("ISO 6149 metric male", "ISO 9974 / DIN 3852 flat-face port"): (
        _end("iso6149 M18 m"),
        _end("metric_flat_face M18x1.5 f"),
    ),
    ("banjo bolt", "flat-face port of the same thread, with eye between two washers"): (
        _end("banjo M14x1.5 m"),
        _end("metric_flat_face M14x1.5 f"),
    ),
    ("banjo bolt", "O-ring boss or ISO 6149 port"): (
        _end("banjo M14x1.5 m"),
        _end("iso6149 M14 f"),
    ),
    ("beaded tube or hose spigot", "hose of the same bore with clamp"): (
        _end("bead 38 m"),
        _end("hose 38 f", "clamped"),
    ),
    ("push-on barb", "hose sold for that barb only"): (
        _end("hose -8 m", "push-on"),
        _end("hose -8 f", "push-on"),
    ),
    ("hose-end nipple and socket (reusable)", "hose of the exact family and dash"): (
        _end("hose -8 m", "rubber"),
        _end("hose -8 f", "rubber"),
    ),
    ("AN fitting male", "industrial 37 deg (J514) female"): (
        _end("flare_37 -6 m"),
        _end("flare_37 -6 f"),
    ),
    ("V-band or flanged joint", "same"): (_end("vband 63.5"), _end("vband 63.5")),
    ("silicone hose coupler", "beaded charge pipe"): (
        _end("hose 63.5 f", "clamped"),
        _end("bead 63.5 m"),
    ),
}
#: Rows on ends that no family here has: they are "other", which mates with its like alone.
OF_NO_FAMILY = {
    ("37 deg flare male", "dual-seat 37/45 swivel"),
    ("NPT male with 30 deg inner chamfer", "NPSM straight swivel with 60 deg cone"),
    ("NPSM straight male", "NPT taper port"),
    (
        "BSPP (G) male with 30 deg inner chamfer",
        "BSPP swivel with 60 deg cone (with or without O-ring)",
    ),
    # One thread, two seats: the inverted-flare ports here are the inch ones.
    ("metric male nut with bubble-flared tube", "inverted flare port (same M10x1 thread)"),
}


def test_every_row_of_the_mating_table_is_tested_or_named_as_outside() -> None:
    told = {(row["male_end"], row["female_end"]) for row in rows("mating")}

    assert told == OF_ROWS.keys() | OF_NO_FAMILY
    assert not OF_ROWS.keys() & OF_NO_FAMILY


@pytest.mark.parametrize("row", OF_ROWS, ids=lambda r: f"{r[0][:28]} / {r[1][:28]}")
def test_a_row_of_the_mating_table_comes_out_as_it_says(row: tuple[str, str]) -> None:
    (said,) = [r for r in rows("mating") if (r["male_end"], r["female_end"]) == row]
    a, b = OF_ROWS[row]

    # "not recommended" and "only if ..." are taken as no: the stricter reading.
    assert mates(a, b).ok is (said["seals"] in ("yes", "yes in geometry"))


# --------------------------------------------------------- seals (acceptance section 3)


@pytest.mark.parametrize(
    ("a", "b", "needs"),
    [
        *(
            (f"orb_unf -{n} m", f"orb_unf -{n} f", [("o-ring", f"AS568-9{n:02d}", 1, True)])
            for n in (2, 3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24, 32)
        ),
        *(
            (f"orfs -{n} m", f"orfs -{n} f", [("face o-ring", f"AS568-{ring}", 1, True)])
            for n, ring in (
                (4, "011"),
                (6, "012"),
                (8, "014"),
                (10, "016"),
                (12, "018"),
                (16, "021"),
                (20, "025"),
            )
        ),
        ("iso6149 M18 m", "iso6149 M18 f", [("o-ring", "per ISO 6149-2, M18", 1, True)]),
        (
            "metric_flat_face M18x1.5 m",
            "metric_flat_face M18x1.5 f",
            [("washer", "18 mm bore", 1, True)],
        ),
        ("bspp G 1/2 m", "bspp G 1/2 f", [("washer", "for G 1/2", 1, True)]),
        (
            "banjo M14x1.5 m",
            "metric_flat_face M14x1.5 f",
            [("banjo bolt", "M14x1.5", 1, False), ("washer", "14 mm bore", 2, True)],
        ),
        ("flare_37 -8 m", "flare_37 -8 f", []),
        ("flare_45 -8 m", "flare_45 -8 f", []),
        ("inverted_flare -3 m", "inverted_flare -3 f", []),
        ("npt 1/2 m", "npt 1/2 f", [("paste", "", 1, True)]),
        ("bspt R 1/4 m", "bspt Rc 1/4 f", [("paste", "", 1, True)]),
        ("bspt R 1/4 m", "bspt Rp 1/4 f", [("paste", "", 1, True)]),
        ("spinon 3/4-16 m", "spinon 3/4-16 f", [("gasket", "spin-on 3/4-16", 1, True)]),
        (
            "flange 2-bolt 38",
            "flange 2-bolt 38",
            [("gasket", "2-bolt 38", 1, True), ("bolt", "2-bolt 38", 2, False)],
        ),
        (
            "flange 4-bolt 52",
            "flange 4-bolt 52",
            [("gasket", "4-bolt 52", 1, True), ("bolt", "4-bolt 52", 4, False)],
        ),
        ("qc 3/8 m", "qc 3/8 f", []),
    ],
)
def test_a_joint_needs_the_seals_that_its_seat_asks_for(
    a: str, b: str, needs: list[tuple[str, str, int, bool]]
) -> None:
    mating = mates(_end(a), _end(b))

    assert mating.ok
    assert _needs(mating) == needs


def test_a_clamp_holds_a_hose_on_a_bead_and_is_no_seal() -> None:
    mating = mates(_end("bead 38 m"), _end("hose 38 f", "clamped"))

    assert mating.ok
    assert mating.is_counted
    assert _needs(mating) == [("clamp", "spigot 38 mm", 1, False)]


def test_tapers_are_marked_and_welds_and_hose_ends_are_not_counted() -> None:
    taper = mates(_end("npt 1/2 m"), _end("nptf 1/2 f"))
    weld = mates(_end("weld m", "aluminium"), _end("weld f", "aluminium"))
    hose = mates(_end("hose -8 m", "PTFE"), _end("hose -8 f", "PTFE"))

    assert taper.is_taper
    assert taper.is_counted
    assert weld.ok
    assert hose.ok
    assert not weld.is_counted
    assert not hose.is_counted


# --------------------------------------------------------- refusals, whole texts


@pytest.mark.parametrize(
    ("a", "b", "why"),
    [
        (
            _end("hose -8 m", "rubber"),
            _end("hose -8 f", "PTFE"),
            "hose ends of one family never grip another: PTFE against rubber",
        ),
        (
            _end("hose -8 m", "rubber"),
            _end("hose -10 f", "rubber"),
            "hose and hose end differ in size: -10 against -8",
        ),
        (
            _end("hose -8 f", "rubber"),
            _end("bead 13 m"),
            "rubber hose is not clamped on a spigot: it takes screwed hose ends of its family",
        ),
        (
            _end("hose -8 f", "push-on"),
            _end("barb 13 m"),
            "push-on hose needs the barb of its own hose end",
        ),
        (
            _end("hose 38 f", "clamped"),
            _end("bead 32 m"),
            "hose of 38 mm bore does not fit a spigot of 32 mm",
        ),
        (
            _end("weld m", "steel"),
            _end("weld f", "aluminium"),
            "aluminium does not weld to steel",
        ),
        (_end("orb_unf -8 f"), _end("orb_unf -8 f"), "both ends are female"),
        (_end("flare_37 -8 m"), _end("flare_37 -10 f"), "the sizes differ: -10 against -8"),
        (
            _end("bspt R 1/4 m"),
            _end("bspp G 1/4 f"),
            "an R male in a G port enters a turn deeper and leaks along the thread; sources "
            "disagree, taken as no",
        ),
        (
            _end("bspp G 1/4 m"),
            _end("bspt Rp 1/4 f"),
            "a G male never goes in an Rp or Rc female: too tight, and nothing seals",
        ),
        (
            _end("orb_unf -8"),
            _end("orb_unf -8 f"),
            "it is not said whether orb_unf -8 is male or female",
        ),
        (UNKNOWN, _end("orb_unf -8 f"), "one of the two ends is not measured yet"),
        (
            _end("other 9/16-24 m", "flat, gasket"),
            _end("other 9/16-24 f", "cone"),
            "the seats differ: cone against flat, gasket",
        ),
        (
            _end("other 9/16-24 m", "flat, gasket"),
            _end("orb_unf -6 f"),
            "the two have neither thread nor seat in common",
        ),
    ],
    ids=lambda value: str(value)[:40],
)
def test_a_refusal_says_why(a: End, b: End, why: str) -> None:
    mating = mates(a, b)

    assert not mating.ok
    assert mating.why == why


def test_an_unknown_end_mates_with_nothing_at_all() -> None:
    assert not [end for end in ENDS if mates(UNKNOWN, end).ok]


def test_an_other_end_mates_only_with_its_like() -> None:
    mine = _end("other 9/16-24 m", "flat, gasket")

    assert [str(end) for end in ENDS if mates(mine, end).ok] == ["other 9/16-24 flat, gasket f"]
    assert mates(mine, _end("other 9/16-24 f", "flat, gasket")).grade is Grade.STATED


# --------------------------------------------------------- traps (connections section 4)

TRAPS = [
    (f"flare_37 -{n} m", f"orb_unf -{n} f") for n in (3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24)
] + [
    *((f"flare_37 -{n} m", f"flare_45 -{n} f") for n in (2, 3, 4, 5, 8, 10, 12)),
    ("inverted_flare -3 m", "bubble_flare M10x1 f"),  # 3/8-24 nut in M10x1
    ("npt 1/2 m", "bspp G 1/2 f"),
    ("npt 3/4 m", "bspp G 3/4 f"),
    ("npt 1/8 m", "bspp G 1/8 f"),
    ("npt 1/4 m", "orb_unf -6 f"),
    ("npt 1/2 m", "orb_unf -10 f"),
    ("orfs -4 m", "flare_37 -6 f"),
    ("orfs -4 m", "orb_unf -6 f"),
    ("orfs -12 m", "flare_37 -14 f"),
    ("orfs -12 m", "orb_unf -14 f"),
    ("banjo M12x1.25 m", "orb_unf -5 f"),
    ("iso6149 M27 m", "orb_unf -12 f"),
    ("iso6149 M33 m", "orb_unf -16 f"),
    ("iso6149 M33 m", "bspp G 1 f"),
    ("inverted_flare -4 m", "flare_37 -4 f"),  # 7/16-24 against 7/16-20
    ("iso6149 M18 m", "metric_flat_face M18x1.5 f"),
    ("metric_flat_face M18x1.5 m", "iso6149 M18 f"),
    ("spinon 3/4-16 m", "flare_37 -8 f"),
    ("spinon 3/4-16 m", "orb_unf -8 f"),
]


@pytest.mark.parametrize(("a", "b"), TRAPS)
def test_a_trap_is_a_look_alike_with_its_hazard_and_no_joint(a: str, b: str) -> None:
    mating = mates(_end(a), _end(b))

    assert not mating.ok
    assert mating.look_alike
    assert len(mating.hazard) > 4
    assert mating.source in sources()


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("flare_37 -6 m", "flare_45 -6 f"),  # 9/16-18 drops through 5/8-18
        ("flare_37 -6 m", "orb_unf -8 f"),
        ("npt 1/8 m", "npt 1/2 f"),
        ("metric_flat_face M10x1 m", "metric_flat_face M22x1.5 f"),
    ],
)
def test_threads_that_do_not_engage_are_no_look_alikes(a: str, b: str) -> None:
    mating = mates(_end(a), _end(b))

    assert not mating.ok
    assert not mating.look_alike


@given(st.sampled_from(ENDS), st.sampled_from(ENDS), st.booleans())
@settings(max_examples=200, deadline=None)
def test_a_turning_nut_changes_nothing_about_the_seat(a: End, b: End, swivel: bool) -> None:
    turning = End(a.family, a.size, a.gender, swivel, a.kind)

    assert mates(turning, b).ok is mates(a, b).ok
    assert mates(turning, b).look_alike is mates(a, b).look_alike


def test_every_source_that_a_mating_names_is_a_source_of_the_tables() -> None:
    named = {mates(a, b).source for a, b in product(ENDS, ENDS)}
    needed = {need.source for a, b in product(ENDS, ENDS) for need in mates(a, b).seals}

    assert named - {"", "the builder"} <= sources().keys()
    assert needed <= sources().keys()
