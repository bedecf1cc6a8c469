# SPDX-License-Identifier: Apache-2.0
"""Ends as the trade types them: read, refused or left open, and printed one way."""

from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from linewright.base.errors import AmbiguousEndError, EndError
from linewright.ends.end import End, Family, Gender
from linewright.ends.notation import read, show
from linewright.ends.sizes import made

# What a builder types on a component's port, and how it is read:
# the ways of writing met in the trade [common practice].
READ = [
    ("-8 ORB", "orb_unf -8 f", True),
    ("-8 ORB female", "orb_unf -8 f", False),
    ("SAE-8 port", "orb_unf -8 f", False),
    ("AN-8 male", "flare_37 -8 m", False),
    ("-8 JIC male", "flare_37 -8 m", False),
    ("3/4-16UNF-2B O-ring boss port", "orb_unf -8 f", False),
    ("9/16 UNF ORB", "orb_unf -6 f", True),
    ("7/16 UNF banjo", "banjo 7/16-20 m", False),
    ("unknown?", "unknown", False),
    ("8AN male", "flare_37 -8 m", False),
    ("8AN", "flare_37 -8 m", True),
    ("-8 AN", "flare_37 -8 m", True),
    ("3/8 NPT", "npt 3/8 f", True),
    ("G 1/2", "bspp G 1/2 f", True),
    ("G 1/2 female", "bspp G 1/2 f", False),
    ("3/8-18 NPT male", "npt 3/8 m", False),
    ("1/4-19 BSPP", "bspp G 1/4 f", True),
    ("NPTF 1/4", "nptf 1/4 f", True),
    ("R 1/8 male", "bspt R 1/8 m", False),
    ("R 1/8", "bspt R 1/8 m", False),
    ("R 1/4 female", "bspt Rc 1/4 f", False),
    ("Rc 1/4", "bspt Rc 1/4 f", False),
    ("Rp 1/2", "bspt Rp 1/2 f", False),
    ("1/8 BSPT female", "bspt Rc 1/8 f", False),
    ("1/8 BSPT male", "bspt R 1/8 m", False),
    ("M18x1.5 ISO 6149", "iso6149 M18 f", True),
    ("M18x1.5 O-ring male", "iso6149 M18 m", False),
    ("M22x1.5 flat face", "metric_flat_face M22x1.5 f", True),
    ("M12x1.25 flat face male", "metric_flat_face M12x1.25 m", False),
    ("M14 x 1.50 washer port", "metric_flat_face M14x1.5 f", False),
    ("38 bead", "bead 38 m", False),
    ("38 mm bead", "bead 38 m", False),
    ("1-1/2 in bead", "bead 38 m", False),
    ("38.1 mm bead", "bead 38 m", False),
    ("2-1/2 in bead", "bead 63.5 m", False),
    ("5 mm barb", "barb 5 m", False),
    ("-12 flare swivel", "flare_37 -12 f swivel", False),
    ("-8 hose end", "flare_37 -8 f swivel", False),
    ("-6 45° flare male", "flare_45 -6 m", False),
    ("ORFS -12 male", "orfs -12 m", False),
    ("-12 ORFS", "orfs -12 m", True),
    ("inverted flare 3/8 tube male", "inverted_flare -6 m", False),
    ("inverted flare 5/8-18 male", "inverted_flare -6 m", False),
    ("3/8 tube inverted flare", "inverted_flare -6 f", True),
    ("inverted flare 3/8-24", "inverted_flare -3 f", True),
    ("3/16 inverted flare", "inverted_flare -3 f", True),
    ("inverted flare 3/8 tube nut", "inverted_flare -6 m swivel", False),
    ("M10x1 bubble flare", "bubble_flare M10x1 f", True),
    ("banjo M14x1.5", "banjo M14x1.5 m", False),
    ("banjo 7/16-20", "banjo 7/16-20 m", False),
    ("G 1/4 banjo", "banjo G 1/4 m", False),
    ("banjo M14x1.5 port", "metric_flat_face M14x1.5 f", False),
    ("banjo 7/16-20 female", "banjo 7/16-20 f", False),
    ("2-bolt flange 38 mm", "flange 2-bolt 38", False),
    ("two bolt flange, 38 mm", "flange 2-bolt 38", False),
    ("76 mm V-band", "vband 76", False),
    ("3 in v-band", "vband 76", False),
    ("weld aluminium", "weld aluminium f", False),
    ("weld bung steel", "weld steel f", False),
    ("weld aluminium male", "weld aluminium m", False),
    ("-8 weld bung female ORB", "orb_unf -8 f", False),
    ("3/4-16 spin-on male", "spinon 3/4-16 m", False),
    ("M20x1.5 filter mount male", "spinon M20x1.5 m", False),
    ("3/8 quick connect male", "qc 3/8 m", False),
    ("9.5 mm quick connector male", "qc 3/8 m", False),
    ("-8 hose", "hose -8 f", False),
    ("-8 PTFE hose", "hose -8 PTFE f", False),
    ("-10 rubber hose nipple", "hose -10 rubber m", False),
    ("38 mm silicone hose", "hose 38 clamped f", False),
    ("3/8 tube", "tube -6", False),
    ("38 mm tube", "tube 38 mm", False),
    ("9/16-24 with gasket", "other 9/16-24 flat, gasket", False),
    ("other: M14x1 with cone", "other M14x1 cone", False),
    ("M18x1.5 with cone", "other M18x1.5 cone", False),
    ("3/4-16 with O-ring", "orb_unf -8 f", True),
    ("?", "unknown", False),
    ("don't know", "unknown", False),
    ("don’t know", "unknown", False),
    ("Unknown", "unknown", False),
    ("  ", "unknown", False),
    ("", "unknown", False),
]

# The same end in the many ways that people type it.
SPELLINGS = {
    "flare_37 -8 m": (
        "-8 AN male",
        "AN8 male",
        "an 8 m",
        "-8AN male",
        "#8 AN male",
        "dash 8 AN male",
        "-08 flare male",
        "−8 flare MALE",
        "–8 JIC, male",
        "-8 37° flare male",
        "-8 37 deg flare male",
        "-8 37 degree flare male",
        "male -8 37º flare",
        "3/4-16 JIC male",
        '3/4"-16 UNF 37° flare male',
        "-8 flare (3/4-16) male",
        "1/2 tube 37° flare male",
    ),
    "orb_unf -8 f": (
        "-8 O-ring boss female",
        "-8orb f",
        "ORB -8 port",
        "SAE J1926 -8 female",
        "3/4-16 ORB hole",
        "12/16-16 ORB female",
    ),
    "npt 3/8 f": ("3/8NPT female", "⅜ NPT female", '3/8" npt f', "3/8 FNPT", "3/8 NPT 18 tpi port"),
    "bspp G 1/2 f": ("G1/2 f", "1/2 BSPP female", "½ BSP parallel female", "1/2-14 bspp female"),
    "metric_flat_face M18x1.5 f": (
        "m18 x 1.5 flat-face female",
        "M18×1.5 DIN 3852 female",
        "M18x1.5 ISO 9974-1 port",
        "M18-1.5 bonded washer female",
        "M18 flat face female",
    ),
    "flare_45 -6 m": ("-6 SAE 45 flare male", "5/8-18 45° flare male", "-6 45 degree flare male"),
}

# What can be read in several ways; the readings in order, likeliest first.
OPEN = [
    ("-8 AN female", ["orb_unf -8 f", "flare_37 -8 f"]),
    ("male -8", ["flare_37 -8 m", "orb_unf -8 m", "flare_45 -8 m"]),
    ("AN-8 port", ["orb_unf -8 f", "flare_37 -8 m"]),
    ("1/2 BSP", ["bspp G 1/2 f", "bspt Rc 1/2 f"]),
    ("1/4 BSP female", ["bspp G 1/4 f", "bspt Rc 1/4 f"]),
    ("1/4 BSP male", ["bspp G 1/4 m", "bspt R 1/4 m"]),
    ("1/2 pipe", ["npt 1/2 f", "bspp G 1/2 f", "bspt Rc 1/2 f"]),
    ("M18x1.5", ["metric_flat_face M18x1.5 f", "iso6149 M18 f", "other M18x1.5 cone"]),
    (
        "3/4-16",
        ["flare_37 -8 m", "orb_unf -8 f", "flare_45 -8 m", "banjo 3/4-16 m", "spinon 3/4-16 m"],
    ),
    ("3/4-14", ["npt 3/4 f", "bspp G 3/4 f", "bspt Rc 3/4 f"]),
    ("5/8-18", ["flare_45 -6 m", "inverted_flare -6 f"]),
    ("1-3/16-12", ["flare_37 -14 m", "orb_unf -14 f", "orfs -12 m"]),
    ("1-14", ["orfs -10 m", "other 1-14"]),
    ("3/8 quick connect", ["qc 3/8 m", "qc 3/8 f"]),
    ("M20x1.5 spin-on", ["spinon M20x1.5 m", "spinon M20x1.5 f"]),
    ("M12 flat face", ["metric_flat_face M12x1.5 f", "metric_flat_face M12x1.25 f"]),
    ("3/8 inverted flare", ["inverted_flare -6 f", "inverted_flare -3 f"]),
    ("1/2 ORB", ["orb_unf -8 f", "orb_unf -5 f"]),
    ("3/4 UNF female", ["flare_37 -8 f", "orb_unf -8 f", "flare_45 -8 f", "spinon 3/4-16 f"]),
    ("1/8 28 tpi", ["bspp G 1/8 f", "bspt Rc 1/8 f"]),
    ("-8 flared tube", ["flare_37 -8 f swivel", "flare_37 -8 m"]),
    ("1/2", ["npt 1/2 f", "bspp G 1/2 f", "bspt Rc 1/2 f", "flare_37 -8 m", "orb_unf -8 f"]),
    ("M26", ["metric_flat_face M26x1.5 f", "other M26 cone"]),
    ("SAE-8", ["orb_unf -8 f", "flare_45 -8 m"]),
    ("-8", ["flare_37 -8 m", "orb_unf -8 f", "flare_45 -8 m"]),
    ("38 mm", ["bead 38 m", "barb 38 m", "tube 38 mm"]),
]

# Whole texts of what is refused.
REFUSED = {
    "M18x1,5": ('"M18x1,5" has a decimal comma; decimals are written with a point: "M18x1.5".'),
    "-7 ORB": (
        '"-7 ORB": there is no -7 ORB; the nearest that exist are -5 ORB, -6 ORB and -8 ORB.'
        " Measure it again; a thread that is really so is written with what it seals on:"
        ' "other: M14x1 with cone".'
    ),
    "3/5 NPT": (
        '"3/5 NPT": there is no 3/5 NPT; the nearest that exist are 3/8 NPT, 1/2 NPT and 3/4 NPT.'
        " Measure it again; a thread that is really so is written with what it seals on:"
        ' "other: M14x1 with cone".'
    ),
    "M18x3 flat face": (
        '"M18x3 flat face": there is no M18x3 flat face; the nearest that exist are M16x1.5 flat'
        " face, M18x1.5 flat face and M20x1.5 flat face. Measure it again; a thread that is really"
        ' so is written with what it seals on: "other: M14x1 with cone".'
    ),
    "9/16-24": (
        '"9/16-24": no end in the tables has the thread 9/16-24; the nearest are 9/16-18, 1/2-20'
        ' and 5/8-18. If it measures so, say what it seals on: "9/16-24 with gasket".'
    ),
    "M14x1": (
        '"M14x1": no end in the tables has the thread M14x1; the nearest are M14x1.5, M12x1 and'
        ' M12x1.25. If it measures so, say what it seals on: "M14x1 with cone".'
    ),
    "-8 NPT": (
        '"-8 NPT": pipe threads are written in inches, not as a dash. If a pipe size of -8'
        ' sixteenths is meant, type "1/2 NPT".'
    ),
    "1/8-28 NPT": (
        '"1/8-28 NPT": 1/8 NPT has 27 threads per inch, not 28. Count the threads over at least'
        " five, or leave the number out."
    ),
    "Rc 1/4 male": (
        '"Rc 1/4 male" contradicts itself: Rc and Rp are the female threads of ISO 7-1. The male'
        ' is written "R 1/4 male".'
    ),
    "-8 ORB male female": (
        '"-8 ORB male female" says both male and female; an end is one of them.'
    ),
    "-8 ORB 7/8-14": (
        '"-8 ORB 7/8-14" names -8 and -10, which are different sizes of this family; leave in the'
        " one that was measured."
    ),
    "-8 AN ORFS": (
        '"-8 AN ORFS" names flare 37 and orfs at once; an end has one seat. Leave out what it is'
        ' not, e.g. "-8 ORB female", "3/8 NPT male", "M18x1.5 flat face", "38 mm bead" or "?".'
    ),
    "spam": (
        '"spam": “spam” is not a word of an end that is known here. Type it like "-8 ORB female",'
        ' "3/8 NPT male", "M18x1.5 flat face", "38 mm bead" or "?"; a thread that nothing here has'
        ' is written "other: M14x1 with cone".'
    ),
    "M18 ORB x": (
        '"M18 ORB x": “x” is not a word of an end that is known here. Type it like "-8 ORB female",'
        ' "3/8 NPT male", "M18x1.5 flat face", "38 mm bead" or "?"; a thread that nothing here has'
        ' is written "other: M14x1 with cone".'
    ),
    "ORB female": '"ORB female" has no size that fits; it needs a dash or a thread, e.g. "-8".',
    "banjo": ('"banjo" has no size that fits; it needs its bolt\'s thread, e.g. "banjo M14x1.5".'),
    "M18x1.5 JIC": (
        '"M18x1.5 JIC": the threads of this family are in inches. A metric port with an O-ring is'
        ' written "M18x1.5 ISO 6149", with a washer "M18x1.5 flat face".'
    ),
    "flange": (
        '"flange" does not say the hole pattern; bolted flanges mate by it. Type the number of'
        ' bolts and the spacing: "2-bolt flange 38 mm".'
    ),
    "3000 mm bead": (
        '"3000 mm bead": 3000 mm is no size of a hose; from 2 to 200 mm can be. Check the unit.'
    ),
    "13/1 tube": (
        '"13/1 tube": a dash counts sixteenths of an inch; hose and tube are made from -2 to -64,'
        " not -208."
    ),
    "8 mm barb female": (
        '"8 mm barb female": a barb goes into the hose, so it is never female; leave the word out,'
        ' or type the hose: "38 mm clamped hose".'
    ),
    "M18x1.5 flat face -8": (
        '"M18x1.5 flat face -8": a dash says nothing about this kind of end; it needs a metric'
        ' thread, e.g. "M18x1.5". Leave the other number out.'
    ),
    "dry break -8": (
        '"dry break -8": “dry” and “break” are not words of an end that is known here. Type it'
        ' like "-8 ORB female", "3/8 NPT male", "M18x1.5 flat face", "38 mm bead" or "?"; a thread'
        ' that nothing here has is written "other: M14x1 with cone".'
    ),
    "3/5 tube": (
        '"3/5 tube": tube is made in sixteenths of an inch outside, e.g. "3/8 tube", or in'
        ' millimetres, e.g. "38 mm tube".'
    ),
    "0/0 in bead": '"0/0 in bead": 0/0 is not a number of inches.',
    "female": (
        '"female" does not name an end: there is no size, or no word for its seat. Type it like'
        ' "-8 ORB female", "3/8 NPT male", "M18x1.5 flat face", "38 mm bead" or "?".'
    ),
    "-7": (
        '"-7" does not say what it seals on; of that size there is only "-7 45° flare male" here.'
        ' Type that in full if it is so, or "?" while it is open.'
    ),
    "other": (
        '"other" names no thread; write the thread as it is and what it seals on: "other: M14x1'
        ' with cone".'
    ),
}


@pytest.mark.parametrize(("text", "end", "is_assumed"), READ)
def test_an_end_is_read_as_the_trade_means_it(text: str, end: str, is_assumed: bool) -> None:
    reading = read(text)

    assert str(reading.end) == end
    assert reading.is_gender_assumed is is_assumed


@pytest.mark.parametrize(
    ("text", "end"), [(text, end) for end, texts in SPELLINGS.items() for text in texts]
)
def test_case_spacing_and_signs_do_not_matter(text: str, end: str) -> None:
    reading = read(text)

    assert str(reading.end) == end
    assert not reading.is_gender_assumed


@pytest.mark.parametrize(("text", "readings"), OPEN)
def test_what_can_be_read_in_several_ways_lists_them(text: str, readings: list[str]) -> None:
    with pytest.raises(AmbiguousEndError) as caught:
        read(text)

    assert [str(end) for end in caught.value.readings] == readings
    assert all(show(end) in str(caught.value) for end in caught.value.readings)
    assert "?" in str(caught.value).split(":", 1)[1]


def test_the_error_of_an_female_names_both_readings_and_what_tells_them_apart() -> None:
    with pytest.raises(AmbiguousEndError) as caught:
        read("-8 AN female")

    assert str(caught.value) == (
        '"-8 AN female" can be read in 2 ways: -8 ORB female (threaded hole with a chamfer at its'
        " mouth) or -8 flare female (loose nut with a cone inside, 37°). Which is it: threaded"
        " hole with a chamfer at its mouth; or loose nut with a cone inside, 37°? Then type it in"
        ' full, e.g. "-8 ORB female", or "?" while it is open.'
    )


def test_the_error_of_half_bsp_asks_for_the_face_and_a_parallel_plug() -> None:
    with pytest.raises(AmbiguousEndError) as caught:
        read("1/2 BSP")

    assert str(caught.value) == (
        '"1/2 BSP" can be read in 2 ways: G 1/2 female (flat machined face round the hole, wider'
        " than the washer) or Rc 1/2 female (threaded hole with no machined face, 55°). Is there a"
        " flat machined face wider than the washer round the hole, and does a parallel plug run in"
        ' to its head? Then type it in full, e.g. "G 1/2 female", or "?" while it is open.'
    )


def test_the_error_of_m18_asks_for_ridge_chamfer_and_cone() -> None:
    with pytest.raises(AmbiguousEndError) as caught:
        read("M18x1.5")

    assert str(caught.value) == (
        '"M18x1.5" can be read in 3 ways: M18x1.5 flat face female (plain flat face, thread to the'
        " surface), M18x1.5 ISO 6149 female (ridge or mark round the hole and a chamfer at its"
        " mouth) or other: M18x1.5 with cone (something else: cone). Is there a ridge or mark round"
        ' it, a chamfer at the mouth, or a cone inside? Then type it in full, e.g. "M18x1.5 flat'
        ' face female", or "?" while it is open.'
    )


def test_a_metric_size_without_pitch_asks_for_the_length_of_five() -> None:
    with pytest.raises(AmbiguousEndError) as caught:
        read("M12")

    assert str(caught.value) == (
        '"M12" does not say the pitch (1, 1.25 or 1.5 mm) nor the seat. Measure five pitches:'
        " 5.00, 6.25 or 7.50 mm. It may be M12x1.5 flat face female, M12x1.25 flat face female,"
        " M12x1.5 ISO 6149 female, M12x1 bubble flare female or M12x1.5 bubble flare female. Type"
        ' it in full, e.g. "M12x1.5 flat face female", or "?" while it is open.'
    )
    assert caught.value.readings


@pytest.mark.parametrize(("text", "message"), REFUSED.items())
def test_what_is_refused_says_why_and_what_to_type(text: str, message: str) -> None:
    with pytest.raises(EndError) as caught:
        read(text)

    assert str(caught.value) == message
    assert not isinstance(caught.value, AmbiguousEndError)


def test_a_text_that_is_far_too_long_is_refused_at_once() -> None:
    with pytest.raises(EndError) as caught:
        read("-8 ORB " * 100)

    assert str(caught.value) == (
        '"-8 ORB -8 ORB -8 ORB -8 ORB -8 ORB -8 OR…" has 700 characters; an end is written with at'
        ' most 120. Type it like "-8 ORB female", "3/8 NPT male", "M18x1.5 flat face", "38 mm bead"'
        ' or "?".'
    )


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("38.1 mm bead", "38.1 mm read as 38 mm"),
        ("1-1/2 in bead", "1-1/2 in read as 38 mm"),
        ("38 mm bead", ""),
        ("M18 flat face female", "pitch 1.5 mm taken, the only one made for M18"),
        ("9/16 ORB female", "9/16 in read as the diameter of the thread"),
        ("1/4 ORB female", "1/4 in read as tube outside diameter"),
        ("3/4 UNF ORB female", ""),
        (
            "banjo M14x1.5 port",
            "the port of a banjo is a flat-faced port of its bolt's thread",
        ),
    ],
)
def test_what_was_taken_for_something_else_is_said(text: str, said: str) -> None:
    assert read(text).said == said


@pytest.mark.parametrize("text", ["1/8 NPT", "-8 flare", "M18x1.5 flat face", "-8 ORB"])
def test_away_from_a_component_the_gender_must_be_said(text: str) -> None:
    with pytest.raises(AmbiguousEndError) as caught:
        read(text, on_component=False)

    assert [end.gender for end in caught.value.readings] == [Gender.MALE, Gender.FEMALE]
    assert read(f"{text} male", on_component=False).end == caught.value.readings[0]


def _all_ends() -> list[End]:
    """Every end of the tables, both genders, and the families that the tables do not size."""
    found = []
    for one in made():
        for gender in (Gender.MALE, Gender.FEMALE):
            size = one.size
            if one.family is Family.BSPP:
                size = f"G {size}"
            if one.family is Family.BSPT:
                size = f"{'R' if gender is Gender.MALE else 'Rc'} {size}"
            is_hole = one.family is Family.BANJO and gender is Gender.FEMALE
            if is_hole and size[0] in "MG":
                continue  # read as the flat-faced port that it is
            found.append(End(one.family, size, gender))
    turning = (Family.FLARE_37, Family.FLARE_45, Family.ORFS)
    found += [
        replace(end, swivel=True)
        for end in found
        if end.family in turning and end.gender is Gender.FEMALE
    ]
    found += [End(Family.BSPT, "Rp 1/4", Gender.FEMALE), End(Family.UNKNOWN, "")]
    for mm in ("5", "16", "19", "38", "51", "63.5", "76"):
        found += [End(Family.BEAD, mm, Gender.MALE), End(Family.BARB, mm, Gender.MALE)]
        found += [End(Family.VBAND, mm), End(Family.TUBE, f"{mm} mm")]
        found += [End(Family.HOSE, mm, gender, kind="clamped") for gender in ("f", "m")]
    for dash in ("-4", "-10"):
        for kind in ("rubber", "PTFE", "push-on", ""):
            found += [End(Family.HOSE, dash, gender, kind=kind) for gender in ("f", "m")]
        found.append(End(Family.TUBE, dash))
    found += [End(Family.FLANGE, size) for size in ("2-bolt 38", "3-bolt 63.5", "2-bolt 44 x 8")]
    for kind in ("aluminium", "steel", "stainless", "titanium", ""):
        found += [End(Family.WELD, "", gender, kind=kind) for gender in ("f", "m")]
    for gender in ("", "m", "f"):
        found.append(End(Family.OTHER, "9/16-24", gender, kind="flat, gasket"))
        found.append(End(Family.OTHER, "M14x1", gender))
    return [replace(end, gender=Gender(end.gender)) for end in found]


@pytest.mark.parametrize("end", _all_ends(), ids=str)
def test_what_is_printed_is_read_back_as_the_same_end(end: End) -> None:
    reading = read(show(end))

    assert reading.end == end
    assert not reading.is_gender_assumed
    assert reading.said == ""


def test_every_family_is_printed_and_read() -> None:
    assert {end.family for end in _all_ends()} == set(Family)


_TRADE = (
    "-8 #8 8 -08 3/8 1/2 3/4-16 1-1/16-12 M18x1.5 M12 M26 M14x1 38 mm in 1-1/2 1/0 0/0 99 -0 -7"
    " AN JIC flare ORB ORFS NPT NPTF BSP BSPP BSPT G R Rc Rp ISO 6149 flat face banjo bead barb"
    " pipe tube flange V-band weld bung steel spin-on quick connect hose end nipple PTFE rubber"
    " male female port swivel nut taper with gasket cone other: ? 45° 37 deg SAE tpi 14 , ; ( ) x"
    " - inverted bubble ½ − × O-ring"
)
_WORDS = st.sampled_from(_TRADE.split())


_TEXTS = st.one_of(st.text(max_size=60), st.lists(_WORDS, max_size=6).map(" ".join))


def _check_any(text: str) -> None:
    """Read any text: an end that reads back, several readings, or an error; nothing else."""
    ends: tuple[End, ...] = ()
    refused = ""
    is_open = False
    try:
        ends = (read(text).end,)
    except AmbiguousEndError as error:
        is_open, refused, ends = True, str(error), error.readings
    except EndError as error:
        refused = str(error)

    assert len(ends) > 1 if is_open else len(ends) == (not refused)
    assert not refused or len(refused) > 20
    assert all(show(end) for end in ends)
    assert is_open or all(read(show(end)).end == end for end in ends)


@settings(max_examples=200, deadline=None)
@given(_TEXTS)
@example("other: 8 male with x male")
@example("other: with with with")
@example("other 5 flange")
@example("0 flange mm")
@example("m" * 119)
@example("1-" * 59)
@example("١/٢ NPT")
@example("M²x1")
def test_any_text_gives_an_end_or_an_end_error(text: str) -> None:
    _check_any(text)


@pytest.mark.prove
@settings(max_examples=20000, deadline=None)
@given(_TEXTS)
def test_any_of_twenty_thousand_texts_gives_an_end_or_an_end_error(text: str) -> None:
    _check_any(text)
