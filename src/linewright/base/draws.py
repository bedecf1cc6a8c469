# SPDX-License-Identifier: Apache-2.0
"""Draws that come out the same each time, one stream for each thing.

A digest of names seeds a stream, so that a new line does not reshuffle the draws of the
others, and neither does the order in which they are asked.
"""

from hashlib import sha256
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np


def stream(seed: int, *names: str) -> "np.random.Generator":
    """Open the stream of random numbers of one thing.

    Parameters
    ----------
    seed : int
        The seed of the document.
    *names : str
        What is drawn for, such as ``"port", "oil-tank.feed"``.

    Returns
    -------
    numpy.random.Generator
        At its start; the same for the same seed and names.

    Raises
    ------
    ValueError
        If no name is given: a stream without a name would be shared.

    Examples
    --------
    >>> one, two = (stream(1, "port", "T.feed").normal() for _ in range(2))
    >>> one == two
    True
    """
    import numpy as np

    if not names:
        raise ValueError("a stream of draws needs a name, so that no two things share one")
    # Lengths go before the names, or ("ab", "c") would be ("a", "bc").
    text = "".join(f"{len(part)}:{part}" for part in (str(seed), *names))
    words = sha256(text.encode()).digest()
    return np.random.Generator(np.random.PCG64(int.from_bytes(words[:16], "big")))
