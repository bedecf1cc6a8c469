# SPDX-License-Identifier: Apache-2.0
"""What is screwed on an end; the rule is common practice and each pair has to mate."""

import pytest

from linewright.ends.counterpart import counterpart
from linewright.ends.mates import mates
from linewright.ends.notation import read


@pytest.mark.parametrize(
    ("end", "other"),
    [
        ("-8 flare male", "flare_37 -8 f swivel"),
        ("-8 ORB female", "orb_unf -8 m"),
        ("Rc 1/4 female", "bspt R 1/4 m"),
        ("M20x1.5 spin-on male", "spinon M20x1.5 f"),
    ],
)
def test_an_end_is_met_by_its_own_family(end: str, other: str) -> None:
    port = read(end).end

    assert str(counterpart(port)) == other
    assert mates(port, counterpart(port)).ok
