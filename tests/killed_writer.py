# SPDX-License-Identifier: Apache-2.0
"""Kill a writer of a shop at random moments, and count what was lost.

Run as ``python -m tests.killed_writer FILE TIMES SEED``. A warm parent forks one writer after
another; each opens the shop and saves revisions as fast as it can, saying the number of each
once it is acknowledged. The parent kills it (SIGKILL) at a random moment and reads the shop.
"""

import json
import os
import random
import signal
import sys
import time
from pathlib import Path

from linewright.shop.revisions import Cars
from linewright.shop.store import open_shop

# About as long as a car's document, so that a revision covers many pages of the file.
_LINES = 600


def document(number: int) -> str:
    """Make the text of a revision; every line tells its number, so half of one is seen."""
    return f"revision = {number}\n" * _LINES


def _write(file: Path, car: str, says: int) -> None:
    with open_shop(file) as shop:
        cars = Cars(shop)
        number = cars.revision(car).number
        while True:
            number = cars.save(car, document(number + 1), "writer", "x", base=number).number
            os.write(says, b"%d\n" % number)


def _killed(file: Path, car: str, after: float) -> int:
    """Run one writer, kill it after a time [s], and tell the last number it said."""
    reads, says = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reads)
        try:
            _write(file, car, says)
        finally:
            os._exit(9)  # only an error leads here
    os.close(says)
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    said = b""
    while part := os.read(reads, 65536):
        said += part
    os.close(reads)
    if not os.WIFSIGNALED(status):
        raise RuntimeError(f"the writer ended by itself: {status}")
    whole = said[: said.rfind(b"\n") + 1].split()
    return int(whole[-1]) if whole else 0


def main(file: Path, times: int, seed: int) -> dict[str, int]:
    """Kill ``times`` writers; count revisions acknowledged, lost, and half there."""
    draws = random.Random(seed)
    counts = {"killed": 0, "acknowledged": 0, "lost": 0, "half": 0, "idle": 0}
    for time_ in range(times):
        # A fresh car now and then, so that histories stay short.
        car = f"car {time_ // 50}"
        if time_ % 50 == 0:
            with open_shop(file) as shop:
                Cars(shop).add(car, document(1), "parent")
        with open_shop(file) as shop:
            before = Cars(shop).revision(car).number
        said = _killed(file, car, draws.uniform(0.005, 0.25))
        with open_shop(file) as shop:
            history = Cars(shop).history(car)
        counts["killed"] += 1
        counts["acknowledged"] += max(said - before, 0)
        counts["lost"] += said > history[-1].number
        counts["half"] += [r.text for r in history] != [
            document(n) for n in range(1, len(history) + 1)
        ]
        counts["idle"] += said == 0
    return counts


if __name__ == "__main__":
    print(json.dumps(main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))))
