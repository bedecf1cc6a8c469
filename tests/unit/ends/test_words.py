# SPDX-License-Identifier: Apache-2.0
"""Ends in words on a sheet: what it is, its thread, and how it seals."""

import pytest

from linewright.ends.end import UNKNOWN, End, Family, Gender
from linewright.ends.notation import read
from linewright.ends.words import how_it_seals, look, show_long

LONG = {
    "-8 ORB female": (
        "-8 O-ring boss port (3/4-16), female; seals: O-ring in the chamfer of the port mouth, no"
        " sealant"
    ),
    "-10 flare swivel": "-10 37° flare (7/8-14), swivel nut, female; seals: metal on the 37° cone,"
    " no sealant",
    "3/8 NPT male": "3/8 NPT taper pipe thread (3/8-18), male; seals: on the thread, with paste",
    "G 1/2 female": (
        "G 1/2 parallel pipe thread (1/2-14), female; seals: washer on the flat face, never on the"
        " thread"
    ),
    "M18x1.5 ISO 6149 male": (
        "M18 ISO 6149 O-ring stud (M18x1.5), male; seals: O-ring in the gland of the port mouth,"
        " no sealant"
    ),
    "M22x1.5 flat face female": (
        "M22x1.5 flat-face port, female; seals: one washer on the flat face, no sealant"
    ),
    "banjo M14x1.5": "banjo on M14x1.5; seals: two washers, one each side of the eye",
    "38 mm bead": ("38 mm beaded tube; seals: hose of the same bore with a clamp behind the bead"),
    "9/16-24 with gasket": "other: 9/16-24; seals: as typed: flat, gasket",
    "-10 rubber hose": "-10 rubber hose",
    "weld aluminium": "weld aluminium; seals: welded",
    "?": "not known: nobody has measured this end",
}


@pytest.mark.parametrize(("typed", "long"), LONG.items())
def test_a_sheet_says_what_an_end_is_and_how_it_seals(typed: str, long: str) -> None:
    assert show_long(read(typed).end) == long


def test_every_family_has_a_way_to_seal_but_tube_hose_and_the_unknown() -> None:
    silent = {f for f in Family if not how_it_seals(End(f, "1", Gender.MALE, kind=""))}

    assert silent == {Family.TUBE, Family.HOSE, Family.UNKNOWN, Family.OTHER}


def test_threaded_ends_of_both_genders_have_a_look_of_their_own() -> None:
    threaded = [f for f in Family if f.value.startswith(("flare", "orb", "orfs", "iso", "metric"))]
    looks = {look(End(f, "-8", g)) for f in threaded for g in (Gender.MALE, Gender.FEMALE)}

    assert len(looks) == 2 * len(threaded)
    assert look(UNKNOWN) == "?"
