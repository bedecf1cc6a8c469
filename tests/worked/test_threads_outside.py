# SPDX-License-Identifier: Apache-2.0
"""Figures of threads, pipes and hose held against what others wrote down.

Sources outside the tables:

- screw_thread_lib: limits of classes 2A and 2B of ASME B1.1-2019 for eleven sizes, of which
  four are met on ends (1/2-20, 3/4-16, 1-12, 1-14), and the basic profile of 60 degree threads.
- fluids: outside diameters of pipe, ASME B36.10M (for NPT) and BS 1387 (tube that is sold for
  threads of BS 21, now ISO 7-1).
- Formulas of ASME B1.20.1 and of the Whitworth profile in ISO 228-1, and the fractions of
  FAA AC 43.13-1B table 9-3: typed here [from memory], and each agrees with the tables.

Threads of ISO 228-1 and face rings are held against a library of parts in test_rings_outside.
No light package was found that carries boss rings (900 series of AS568), UN threads above 1 in.,
or limits of metric fine threads: those rest on their own sources, and on the basic profile.
"""

from fractions import Fraction

import pytest
from fluids.piping import HEAVYo_BS1387, nearest_pipe
from screw_thread_lib import Assembly
from screw_thread_lib.data import ASME_UN_2A2B_dict as B1_1

from linewright.ends.identify import Measurement, identify
from linewright.ends.sizes import inches, made
from linewright.tables.hoses import size, take_up
from linewright.tables.load import rows
from linewright.tables.threads import Thread, thread, threads

IN = 0.0254
#: The tables are rounded to the micrometre. [m]
ROUNDED = 1.0e-6

SIXTY = [t for t in threads().values() if not t.is_taper and t.family not in ("bspp", "banjo")]
SIXTY += [t for t in threads().values() if t.family == "banjo" and not t.size.startswith("G")]
FIFTY_FIVE = [t for t in threads().values() if t.designation.startswith(("G ", "R "))]
NPT = [t for t in threads().values() if t.family in ("npt", "nptf")]
IN_B1_1 = [t for t in SIXTY if t.designation.split(" UN")[0] in B1_1]


def _named(one: object) -> str:
    return f"{one.family} {one.size}" if isinstance(one, Thread) else str(one)


def _pitch(one: Thread) -> float:
    return IN / one.tpi if one.tpi else one.pitch


# ------------------------------------------------------------------ UN and metric threads


def test_some_threads_of_the_tables_stand_in_the_library() -> None:
    assert {t.designation.split(" UN")[0] for t in IN_B1_1} == {"1/2-20", "3/4-16", "1-14"}


@pytest.mark.parametrize("one", IN_B1_1, ids=_named)
def test_diameters_of_un_threads_are_those_of_asme_b1_1(one: Thread) -> None:
    standard = B1_1[one.designation.split(" UN")[0]]

    assert one.major == pytest.approx(standard["dbsc"] * IN, abs=ROUNDED)
    assert one.tpi == standard["n"]
    # The least minor diameter of class 2B is the basic one, printed to a thousandth of an inch.
    assert one.minor == pytest.approx(standard["D1min"] * IN, abs=0.0005 * IN)


@pytest.mark.parametrize("one", SIXTY, ids=_named)
def test_minor_diameters_follow_the_basic_profile(one: Thread) -> None:
    profile = Assembly({"n": IN / _pitch(one), "dbsc": one.major / IN})

    assert one.minor == pytest.approx(profile.D1bsc * IN, abs=1.5 * ROUNDED)


@pytest.mark.parametrize("designation", ["1/2-20", "3/4-16", "1-12", "1-14"])
@pytest.mark.parametrize(
    ("limit", "is_male"), [("dmax", True), ("dmin", True), ("D1min", False), ("D1max", False)]
)
def test_ends_made_to_the_limits_of_classes_2a_and_2b_are_recognised(
    designation: str, limit: str, is_male: bool
) -> None:
    standard = B1_1[designation]
    wanted = {(one.family, one.size) for one in made() if one.thread == designation}
    measured = Measurement(standard[limit] * IN, is_male, tpi=standard["n"])
    found = {(c.end.family, c.end.size) for c in identify(measured).candidates if not c.is_none}

    assert wanted
    assert wanted - found == set()


# ------------------------------------------------------------------ pipe threads


@pytest.mark.parametrize("one", [t for t in NPT if t.size != "1/16"], ids=_named)
def test_npt_is_cut_on_pipe_of_its_nominal_size(one: Thread) -> None:
    # ASME B36.10M as the library has it, in tenths of a millimetre.
    _, _, outside, _ = nearest_pipe(NPS=float(inches(one.size)), schedule="40")

    assert one.major == pytest.approx(outside, abs=0.051e-3)


@pytest.mark.parametrize("one", NPT, ids=_named)
def test_the_tip_of_an_npt_male_follows_asme_b1_20_1(one: Thread) -> None:
    # E0 = D - (0.05 D + 1.1) p, with D in inches in the bracket; the crest stands half the
    # height of 0.8 p further out on either side.
    pitch = _pitch(one)
    at_tip = one.major - (0.05 * one.major / IN + 1.1) * pitch

    assert one.tip == pytest.approx(at_tip + 0.8 * pitch, abs=1.5 * ROUNDED)


@pytest.mark.parametrize("row", [r for r in rows("torque") if "hand-tight then" in r["joint"]])
def test_the_mouth_of_an_npt_female_follows_its_hand_tight_engagement(row: dict[str, str]) -> None:
    # The turns by hand come from another page than the diameters: E1 = E0 + L1 / 16.
    name, _, tpi = row["size"].rpartition("-")
    one = thread("npt", name)
    pitch = IN / float(tpi)
    at_tip = one.major - (0.05 * one.major / IN + 1.1) * pitch
    by_hand = float(row["min"]) * pitch

    assert one.minor == pytest.approx(at_tip + by_hand / 16 - 0.8 * pitch, abs=5e-6)


@pytest.mark.parametrize("one", FIFTY_FIVE, ids=_named)
def test_bsp_threads_have_the_whitworth_profile(one: Thread) -> None:
    # ISO 228-1: height of the thread h = 0.640327 P.
    assert one.minor == pytest.approx(one.major - 2 * 0.640327 * _pitch(one), abs=1.5 * ROUNDED)


def test_g_1_4_has_the_limits_of_iso_228_1() -> None:
    # ISO 228-1 class A: male 12.907 to 13.157 mm, bore of the female 11.445 to 11.890 mm.
    one = thread("bspp", "G 1/4")
    limits = [(12.907, True), (13.157, True), (11.445, False), (11.890, False)]

    assert one.major == pytest.approx(13.157e-3)
    assert one.minor == pytest.approx(11.445e-3)
    for diameter, is_male in limits:
        found = identify(Measurement(diameter / 1000, is_male, tpi=19.0)).candidates
        assert "bspp G 1/4" in {str(c.end)[:10] for c in found}


@pytest.mark.parametrize(
    ("name", "place"),
    [
        ("1/4", 0),
        ("3/8", 1),
        ("1/2", 2),
        ("3/4", 3),
        ("1", 4),
        ("1-1/4", 5),
        ("1-1/2", 6),
        ("2", 7),
    ],
)
def test_bspt_can_be_cut_on_tube_of_bs_1387(name: str, place: int) -> None:
    # Greatest outside of heavy tube: the thread at the gauge plane takes off a little of it.
    outside = HEAVYo_BS1387[place] / 1000
    cut = outside - thread("bspt", name).major

    assert 0 < cut < 1.3e-3


@pytest.mark.parametrize("one", [t for t in threads().values() if t.is_taper], ids=_named)
def test_taper_males_are_smaller_at_the_tip_by_some_turns_of_1_in_16(one: Thread) -> None:
    # An NPT male's basic diameter is that of the pipe; an R male's stands at the gauge plane.
    turns = (one.major - (one.tip or 0)) * 16 / one.pitch

    assert 4 < turns < 8


# ------------------------------------------------------------------ hose


@pytest.mark.parametrize(
    ("dash", "fraction"),
    [
        ("-3", "1/8"),
        ("-4", "3/16"),
        ("-5", "1/4"),
        ("-6", "5/16"),
        ("-8", "13/32"),
        ("-10", "1/2"),
        ("-12", "5/8"),
        ("-16", "7/8"),
        ("-20", "1-1/8"),
        ("-24", "1-3/8"),
        ("-32", "1-13/16"),
    ],
)
def test_bores_of_rubber_hose_are_those_of_ac_43_13_1b_table_9_3(dash: str, fraction: str) -> None:
    found = size("MIL-H-8794", dash).bore
    assert found is not None
    assert found.grade.value == "read"
    assert found.value == pytest.approx(float(inches(fraction)) * IN, abs=0.06e-3)


@pytest.mark.parametrize("row", [r for r in rows("tube") if r["dash"] and r["tube_od_mm"]])
def test_a_dash_is_the_outside_of_its_tube_in_sixteenths(row: dict[str, str]) -> None:
    outside = float(Fraction(row["dash"].lstrip("-")) / 16) * 25.4

    assert float(row["tube_od_mm"]) == pytest.approx(outside, abs=0.02)


@pytest.mark.parametrize("row", rows("hose_cutoff"))
def test_cut_offs_are_printed_in_inches_and_shown_in_millimetres(row: dict[str, str]) -> None:
    assert float(row["cutoff_mm"]) == pytest.approx(float(row["cutoff_in"]) * 25.4, abs=0.051)


@pytest.mark.parametrize(
    ("assembly", "dash", "ends", "cut"),
    [
        # NAVEDTRA 14018: hose = assembly less the cut-off of each end, table 5-2, in inches.
        (20.00, "-8", (0, 0), 18.12),
        (33.46, "-10", (0, 0), 31.46),
        (12.00, "-16", (0, 0), 10.12),
    ],
)
def test_hose_is_cut_shorter_than_the_assembly_by_both_cut_offs(
    assembly: float, dash: str, ends: tuple[int, int], cut: float
) -> None:
    taken = [take_up("rubber", dash, angle) for angle in ends]
    hose = assembly * IN - sum(figure.value for figure in taken if figure)

    assert hose == pytest.approx(cut * IN, abs=1e-6)


@pytest.mark.parametrize("dash", ["-6", "-8", "-16"])
def test_an_angled_end_of_ptfe_hose_takes_up_more_than_a_straight_one(dash: str) -> None:
    # US Army TM 1-1500-204-23-2 table 4-22: 45 deg ends reach further than 90 deg ends.
    straight, bent, square = (take_up("PTFE", dash, angle) for angle in (0, 45, 90))

    assert straight is not None
    assert bent is not None
    assert square is not None
    assert straight.value < square.value < bent.value
