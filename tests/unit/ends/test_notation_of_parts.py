# SPDX-License-Identifier: Apache-2.0
"""The ends of all generic parts can be typed by a builder, and mean what the part means."""

from linewright.catalogue.stock import generic
from linewright.ends.notation import read, show


def test_every_end_of_every_generic_part_is_printed_so_that_it_reads_back() -> None:
    ends = {end for part in generic().parts for end in part.ends}
    lost = [str(end) for end in ends if read(show(end)).end != end]

    assert len(ends) > 300
    assert lost == []


def test_what_is_printed_for_a_part_never_rests_on_an_assumed_gender() -> None:
    ends = {end for part in generic().parts for end in part.ends}

    assert not [show(end) for end in ends if read(show(end)).is_gender_assumed]
