# SPDX-License-Identifier: Apache-2.0
"""Print the performance figures: ``make bench``. Medians of several runs on this machine."""

import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

from linewright.car.read import read_text
from linewright.catalogue.stock import generic
from linewright.checks.run import run
from linewright.joints.termination import offer
from linewright.plan.make import make
from linewright.routes.lengths import lay
from linewright.scene.schematic import draw, systems
from linewright.takeoff.count import count
from tests.expected import ROOT

JUNIPER = (ROOT / "examples" / "juniper" / "car.toml").read_text(encoding="utf-8")


def median(work: Callable[[], object], runs: int = 7) -> float:
    """Median time of a piece of work in milliseconds."""
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1000 * statistics.median(times)


FIRST_OFFER = """
from pathlib import Path
import time
from linewright.car.read import read
from linewright.catalogue.stock import generic
from linewright.joints.termination import offer
car = read(Path({path!r}))
generic()
start = time.perf_counter()
offer(car)
print(time.perf_counter() - start)
"""


def first_offer() -> float:
    """Median time in milliseconds of the first joints stage of a fresh process."""
    code = FIRST_OFFER.format(path=str(ROOT / "examples" / "juniper" / "car.toml"))
    runs = [
        subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        for _ in range(5)
    ]
    return 1000 * statistics.median(float(run.stdout) for run in runs)


def show(what: str, value: float, limit: str = "") -> None:
    """Print one figure."""
    print(f"{what:<58}{value:>9.1f} ms   {limit}")


def main() -> None:
    """Run all measurements."""
    program = Path(sys.executable).with_name("linewright")
    show(
        "linewright --help",
        median(lambda: subprocess.run([program, "--help"], capture_output=True, check=True)),
        "asked: under 300 ms",
    )
    car = read_text(JUNIPER, file="juniper")
    lines = len(car.lines)
    generic()
    offer(car)

    show(
        f"joints of {lines} lines, for the first time once loaded",
        first_offer(),
        "asked: 40 lines in 100 ms",
    )
    show(f"joints of {lines} lines, again", median(lambda: offer(car)))
    show(f"read a document of {JUNIPER.count(chr(10))} lines", median(lambda: read_text(JUNIPER)))
    joints = offer(car)
    routes = lay(car, joints)
    takeoff = count(car, joints, routes)
    show("lengths", median(lambda: lay(car, joints)))
    show("takeoff", median(lambda: count(car, joints, routes)))
    show("checks", median(lambda: run(car, joints, routes, takeoff)))
    show("the whole plan, from the car", median(lambda: make(car)))
    plan = make(car)
    for system in systems(plan):
        crossings = draw(plan, system).crossings
        took = median(lambda s=system: draw(plan, s), 3)  # type: ignore[misc]
        show(f"diagram: {system}", took, f"{crossings} crossings")


if __name__ == "__main__":
    main()
