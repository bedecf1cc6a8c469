# SPDX-License-Identifier: Apache-2.0
"""Performance figures of the flow solver, beside an independent compiled engine in the same run.

``rows()`` gives them to the bench. Processor time of one core, medians of several rounds that
take turns, since other work on the machine would else decide a ratio. `python -m tests.bench_flow`.
"""

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import numba
import numpy as np

from linewright.flow.case import cases
from linewright.flow.defaults import Ledger
from linewright.flow.pack import pack
from linewright.flow.run import run
from linewright.flow.solve import Variants, solve, solve_many
from tests.engine import Engine
from tests.flowing import laid
from tests.networks import looped

COUNT = 10_000
ROUNDS = 5
Row = tuple[str, float, str, str]  # what, value, unit, what is asked


def _took(work: Callable[[], object], times: int = 1) -> float:
    """Processor time of a piece of work. [s]"""
    start = time.process_time()
    for _ in range(times):
        work()
    return (time.process_time() - start) / times


def _variants(pipes: int, seed: int) -> Variants:
    packed = pack(looped(pipes, seed))
    draw = np.random.default_rng(seed)
    shape = (COUNT, pipes)
    return Variants(
        length=packed.length * draw.uniform(0.7, 1.4, shape),
        bore=packed.bore * draw.uniform(0.85, 1.2, shape),
        viscosity=packed.viscosity * draw.uniform(0.7, 1.5, shape),
        demand=packed.demand * draw.uniform(0.6, 1.3, (COUNT, len(packed.demand))),
    )


def _engine_rate(engine: Engine, variants: Variants, is_fresh: bool) -> float:
    """Solves a second of the engine, over 200 variants set one by one; the setting is not timed."""
    assert variants.length is not None
    assert variants.bore is not None
    spent = 0.0
    for i in range(200):
        engine.change(variants.length[i].tolist(), variants.bore[i].tolist())
        spent += _took(lambda: engine.run(is_fresh))
    return 200 / spent


def _rates(pipes: int, seed: int) -> tuple[float, float, float]:
    """Solves a second: ours in one batch, the engine's from usual flows, and from those before."""
    network = looped(pipes, seed)
    packed = pack(network)
    variants = _variants(pipes, seed)
    start = solve(packed)
    ours, fresh, kept = [], [], []
    with tempfile.TemporaryDirectory() as folder, Engine(network, Path(folder)) as engine:
        solve_many(packed, Variants(bore=packed.bore[np.newaxis]), start)
        for _ in range(ROUNDS):
            ours.append(COUNT / _took(lambda: solve_many(packed, variants, start)))
            fresh.append(_engine_rate(engine, variants, True))
            kept.append(_engine_rate(engine, variants, False))
    return statistics.median(ours), statistics.median(fresh), statistics.median(kept)


# What loads numba and its kernels, which `run` does at its first call, counts too.
_FIRST = """
import time
from linewright.flow.run import run
from tests.flowing import laid
given = laid("juniper")
start = time.process_time()
run(*given)
print(time.process_time() - start)
"""


def _first() -> float:
    """Processor time of the demo car in a process that has run nothing, kernels kept. [s]"""
    command = [sys.executable, "-c", _FIRST]
    said = [
        subprocess.run(command, capture_output=True, text=True, check=True).stdout for _ in range(3)
    ]
    return statistics.median(float(one) for one in said)


def rows() -> Iterator[Row]:
    """Measure, and give one figure after the other."""
    threads = numba.get_num_threads()
    numba.set_num_threads(1)
    try:
        for pipes, asked in ((20, ""), (60, "asked: under 500 us")):
            packed = pack(looped(pipes, 0))
            before = solve(packed)
            warm = statistics.median(_took(lambda: solve(packed, before), 50) for _ in range(9))  # noqa: B023
            cold = statistics.median(_took(lambda: solve(packed), 50) for _ in range(9))  # noqa: B023
            yield f"flow: {pipes} pipes, warm", 1e6 * warm, "us", asked
            yield f"flow: {pipes} pipes, from nothing", 1e6 * cold, "us", ""
        for pipes in (20, 60):
            found = [_rates(pipes, seed) for seed in range(3)]
            ours, fresh, kept = (statistics.median(f[i] for f in found) for i in range(3))
            what = f"flow: {pipes} pipes"
            yield f"{what}, {COUNT} variants in one batch", ours, "/s a core", ""
            yield f"{what}, the engine one by one", fresh, "/s a core", ""
            yield f"{what}, the engine from the flows before", kept, "/s a core", ""
            for name, i in (("the engine", 1), ("the engine from the flows before", 2)):
                ratio = statistics.median(f[0] / f[i] for f in found)
                yield f"{what}, batch over {name}", ratio, "times", "goal: 1.0, at least 0.5"
        car, joints, routes = laid("juniper")
        run(car, joints, routes)
        steady = [case.name for case in cases(car, Ledger(car.settings))]
        whole = statistics.median(_took(lambda: run(car, joints, routes, steady)) for _ in range(7))
        yield "flow: demo car, all systems and steady conditions", 1e3 * whole, "ms", ""
        whole = statistics.median(_took(lambda: run(car, joints, routes)) for _ in range(7))
        what = "flow: demo car, all systems, all conditions"
        yield what, 1e3 * whole, "ms", "asked: under 500 ms"
        yield f"{what}, first in a process", 1e3 * _first(), "ms", ""
        session = statistics.median(
            _took(lambda: run(car, joints, routes, ["session"])) for _ in range(3)
        )
        what = "flow: demo car, all systems through a session of 30 min"
        yield what, 1e3 * session, "ms", "asked: well under 1000 ms"
    finally:
        numba.set_num_threads(threads)


def main() -> None:
    """Print the figures."""
    for what, value, unit, asked in rows():
        print(f"{what:<58}{value:>11.1f} {unit:<10} {asked}")


if __name__ == "__main__":
    main()
