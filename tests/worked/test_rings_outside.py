# SPDX-License-Identifier: Apache-2.0
"""ISO 228-1 threads and O-rings of ISO 3601 against the tables of a library of parts.

Source beside each figure: the package bd-warehouse 0.4.0 of the Python registry (open parts
for solid modelling), its files ``data/iso_228_1.csv`` and ``data/o-ring_parameters.csv``, read
once. The figures stand here because the package brings a whole modelling kernel with it; our
tables were filled from other sources (threads: see ``place`` of their rows; rings: memory).
The 900 series of AS568 is in neither, so boss rings stay recalled.
"""

import pytest

from linewright.base.evidence import Grade
from linewright.tables.seals import seal
from linewright.tables.threads import thread, threads

#: Size: threads per inch, major and minor diameter, tolerance of the male's major diameter
#: (downwards) and of the female's minor diameter (upwards). [mm]
ISO_228_1 = {
    "1/16": (28, 7.723, 6.561, 0.214, 0.282),
    "1/8": (28, 9.728, 8.566, 0.214, 0.282),
    "1/4": (19, 13.157, 11.445, 0.250, 0.445),
    "3/8": (19, 16.662, 14.950, 0.250, 0.445),
    "1/2": (14, 20.955, 18.631, 0.284, 0.541),
    "5/8": (14, 22.911, 20.587, 0.284, 0.541),
    "3/4": (14, 26.441, 24.117, 0.284, 0.541),
    "7/8": (14, 30.201, 27.877, 0.284, 0.541),
    "1": (11, 33.249, 30.291, 0.360, 0.640),
    "1-1/4": (11, 41.910, 38.952, 0.360, 0.640),
    "1-1/2": (11, 47.803, 44.845, 0.360, 0.640),
    "2": (11, 59.614, 56.656, 0.360, 0.640),
}
#: Size code of ISO 3601: inside diameter and section. [mm]
RINGS = {
    "011": (7.65, 1.78),
    "012": (9.25, 1.78),
    "014": (12.42, 1.78),
    "016": (15.60, 1.78),
    "018": (18.77, 1.78),
    "021": (23.52, 1.78),
    "025": (29.87, 1.78),
    "029": (37.82, 1.78),
}


def test_the_library_has_every_g_thread_of_the_table() -> None:
    assert {size for family, size in threads() if family == "bspp"} == ISO_228_1.keys()


@pytest.mark.parametrize("size", ISO_228_1)
def test_g_threads_are_those_of_iso_228_1(size: str) -> None:
    tpi, major, minor, _, _ = ISO_228_1[size]
    one = thread("bspp", f"G {size}")

    assert one.tpi == tpi
    assert one.major == pytest.approx(major / 1000, abs=1e-9)
    assert one.minor == pytest.approx(minor / 1000, abs=1e-9)


@pytest.mark.parametrize("size", [s for f, s in threads() if f == "bspt"])
def test_r_threads_have_the_basic_sizes_of_g_threads(size: str) -> None:
    # ISO 7-1 and ISO 228-1 share their basic profile at the gauge plane.
    tpi, major, minor, _, _ = ISO_228_1[size]
    one = thread("bspt", f"R {size}")

    assert (one.tpi, one.is_taper) == (tpi, True)
    assert one.major == pytest.approx(major / 1000, abs=1e-9)
    assert one.minor == pytest.approx(minor / 1000, abs=1e-9)


def test_the_limits_that_the_notes_quote_for_g_1_4_are_those_of_the_library() -> None:
    # Quoted: male 12.907 to 13.157 mm, bore of the female 11.445 to 11.890 mm.
    _, major, minor, male, female = ISO_228_1["1/4"]

    assert (round(major - male, 3), major) == (12.907, 13.157)
    assert (minor, round(minor + female, 3)) == (11.445, 11.890)


@pytest.mark.parametrize("size", ["1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "1", "1-1/4", "1-1/2"])
def test_published_calliper_readings_lie_within_the_limits_of_iso_228_1(size: str) -> None:
    """Identification tables print tenths of a millimetre: allow half of one, and burr."""
    _, major, minor, male, female = ISO_228_1[size]
    one = thread("bspp", size)
    assert one.published_male is not None
    assert one.published_female is not None
    outside, inside = one.published_male * 1000, one.published_female * 1000

    assert major - male - 0.25 <= outside <= major + 0.05
    assert minor - 0.3 <= inside <= minor + female + 0.1


@pytest.mark.parametrize(
    ("dash", "code"),
    [
        ("-4", "011"),
        ("-6", "012"),
        ("-8", "014"),
        ("-10", "016"),
        ("-12", "018"),
        ("-16", "021"),
        ("-20", "025"),
        ("-24", "029"),
    ],
)
def test_face_rings_measure_what_iso_3601_says_of_their_number(dash: str, code: str) -> None:
    found = seal("orfs", dash)
    inside, section = RINGS[code]

    assert found is not None
    assert found.name == f"AS568-{code}"
    assert found.inside is not None
    assert found.section is not None
    assert found.inside.value == pytest.approx(inside / 1000, abs=1e-9)
    assert found.section.value == pytest.approx(section / 1000, abs=1e-9)
    # Confirmed by a second hand; which ring a dash takes is still from memory.
    assert found.inside.grade is Grade.RELAYED
    assert found.grade is Grade.RECALLED


@pytest.mark.parametrize("dash", ["-4", "-6", "-8", "-10", "-12", "-16", "-20", "-24"])
def test_a_face_ring_lies_inside_the_thread_of_its_male(dash: str) -> None:
    found, one = seal("orfs", dash), thread("orfs", dash)

    assert found is not None
    assert found.inside is not None
    assert found.section is not None
    assert one.minor is not None
    assert found.inside.value + 2 * found.section.value < one.minor
