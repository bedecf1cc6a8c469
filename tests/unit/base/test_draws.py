# SPDX-License-Identifier: Apache-2.0
"""Streams of draws: the same twice, and one for each thing."""

import numpy as np
import pytest

from linewright.base.draws import stream


def test_the_same_names_give_the_same_numbers() -> None:
    one = stream(7, "port", "T.feed").normal(size=20)
    two = stream(7, "port", "T.feed").normal(size=20)

    np.testing.assert_array_equal(one, two)


@pytest.mark.parametrize(
    "other",
    [
        (8, "port", "T.feed"),
        (7, "port", "T.feeds"),
        (7, "portT", ".feed"),
        (7, "port", "T.", "feed"),
    ],
)
def test_another_seed_or_name_gives_other_numbers(other: tuple[int, str]) -> None:
    one = stream(7, "port", "T.feed").normal(size=4)
    two = stream(other[0], *other[1:]).normal(size=4)

    assert not np.any(one == two)


def test_streams_of_many_things_do_not_go_together() -> None:
    # 400 streams of 200: under no common cause the mean square of their correlations is 1/200.
    every = np.array([stream(1, "port", f"P{n}").normal(size=200) for n in range(400)])
    off = np.corrcoef(every)[np.triu_indices(400, 1)]

    assert abs(np.mean(off**2) - 1 / 200) < 2e-4


def test_a_stream_needs_a_name() -> None:
    with pytest.raises(ValueError, match="needs a name"):
        stream(1)
