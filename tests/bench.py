# SPDX-License-Identifier: Apache-2.0
"""Print the performance figures: ``make bench``. Medians of several runs on this machine.

Times are by the clock; those of plans in space stand beside the processor time of all cores,
which tells more on a machine that has other work.
"""

import os
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
from linewright.plan.make import Memo, make
from linewright.routes.lay_space import lay_all
from linewright.routes.lengths import lay
from linewright.routes.search import Weights, lay_line
from linewright.scene.schematic import draw, systems
from linewright.takeoff.count import count
from tests import bench_confidence, bench_flow, bench_order
from tests.expected import ROOT
from tests.grown import grown, moved
from tests.worked.test_free_space import random_task

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


#: Compiled sources are kept between processes, as they are on a builder's machine.
KEPT = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}

COLD = """
import time
from tests.grown import grown
from linewright.plan.make import make
car = grown({lines})
for _ in range(2):
    start, work = time.perf_counter(), time.process_time()
    make(car)
    print(time.perf_counter() - start, time.process_time() - work)
"""


def cold(lines: int, runs: int = 3) -> tuple[float, float, float, float]:
    """Medians in milliseconds of plans of so many placed lines, in fresh processes.

    The first plan of a process, with all that it loads, by the clock and in work of all cores;
    then the same of a second one, without a memo. Kernels are compiled before.
    """
    code = COLD.format(lines=lines)
    done = []
    for _ in range(runs + 1):
        run = subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            cwd=ROOT,
            env=KEPT,
        )
        done.append([1000 * float(word) for word in run.stdout.split()])
    first, work, second, again = (statistics.median(each) for each in zip(*done[1:], strict=True))
    return first, work, second, again


def pairs(seed: int) -> tuple[float, int]:
    """Median time in milliseconds of all end pairs of one hose in free space, and how many work."""
    task = random_task(seed, Weights())
    outcome = lay_line(task)
    return median(lambda: lay_line(task)), sum(row.works for row in outcome.band)


def again(lines: int) -> tuple[float, float]:
    """Median time in milliseconds of planning after one component moved, and lines searched."""
    car, memo = grown(lines), Memo()
    make(car, memo=memo)
    times, searched = [], []
    pumps = sorted(name for name in car.components if name.startswith("pump"))
    for number, name in enumerate(pumps):
        after = moved(car, name, (0.004 + 0.001 * number, 0.002, 0.0))
        kept = Memo({**memo.courses}, memo.proofs)
        start = time.perf_counter()
        make(after, memo=memo)
        times.append(time.perf_counter() - start)
        searched.append(len(lay_all(after, offer(after), kept.courses).searched))
        make(car, memo=memo)  # back to where it was
    return 1000 * statistics.median(times), statistics.median(searched)


def space() -> None:
    """Measure plans of placed lines: cold, after an edit, and how time grows."""
    each = {lines: cold(lines) for lines in (10, 40, 160)}
    for lines, (first, work, second, work_again) in each.items():
        limit = "asked: under 3,000 ms; " if lines == 40 else ""
        show(f"{lines} placed lines, cold", first, f"{limit}{work:.0f} ms of work")
        show(f"{lines} placed lines, once loaded", second, f"{work_again / lines:.1f} ms a line")
    growth = each[160][3] / each[40][3] / 4.0, each[40][3] / each[10][3] / 4.0
    print(f"growth of work over lines, 10 to 40: {growth[1]:.2f}; 40 to 160: {growth[0]:.2f}")
    for place, seed in (("far", 1), ("near", 0)):
        took, works = pairs(seed)
        show(f"all 64 end pairs in free space, {place}", took, f"{works} work")
    took, searched = again(40)
    show("40 lines, one component moved", took, f"{searched:g} searched; asked: under 150 ms")
    car = read_text(JUNIPER, file="juniper")
    show("Juniper in space, cold", median(lambda: make(car), 1))
    memo = Memo()
    make(car, memo=memo)
    show("Juniper in space, nothing changed", median(lambda: make(car, memo=memo)))


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
    show("a quick look, from the car", median(lambda: make(car, in_space=False)))
    space()
    plan = make(car, in_space=False)
    for system in systems(plan):
        crossings = draw(plan, system).crossings
        took = median(lambda s=system: draw(plan, s), 3)  # type: ignore[misc]
        show(f"diagram: {system}", took, f"{crossings} crossings")
    bench_flow.main()
    bench_order.main()
    bench_confidence.main()


if __name__ == "__main__":
    main()
