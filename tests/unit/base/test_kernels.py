# SPDX-License-Identifier: Apache-2.0
"""The door to numba: compiled or not, the same answers; and no stale machine code."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ASK = """
import sys
if "without" in sys.argv:
    sys.modules["numba"] = None
from linewright.base import kernels
from linewright.base.frames import rotation
from linewright.car.model import Shape
from linewright.space.obstacles import Scene, Solid, Tube, Wall, Opening
import numpy as np
turn = rotation(0.3, -0.2, 0.9)
scene = Scene.build([
    Solid("box", Shape.BOX, (0.1, 0.2, 0.3), turn, (0.2, 0.3, 0.4)),
    Solid("can", Shape.CYLINDER, (-0.4, 0.2, 0.3), turn, (0.2, 0.2, 0.4)),
    Solid("pill", Shape.CAPSULE, (0.4, -0.4, 0.3), turn, (0.1, 0.1, 0.4)),
    Tube("hose", ((0.0, 0.0, 0.9), (0.5, 0.5, 0.9), (0.9, 0.0, 0.9)), 0.01),
    Wall("wall", (1.0, 0.0, 0.0), (1.0, 0.2, 0.0), 0.002, None, (Opening((1.0, 0.0, 0.1), 0.02),)),
])
points = np.random.default_rng(1).uniform(-1.0, 1.0, (1100, 3))
print(kernels.COMPILED)
print(scene.gaps(points)[0].sum().hex(), scene.least(points, 0.01))
print(scene.least_along_many([points[:20], points[20:40]], 0.01))
"""


def ask(*words: str, **more: str) -> list[str]:
    done = subprocess.run(
        [sys.executable, "-c", ASK, *words],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, **more},
    )
    return done.stdout.splitlines()


def test_kernels_run_without_numba_and_say_the_same() -> None:
    compiled, plain = ask(), ask("without")

    assert compiled[0] == "True"
    assert plain[0] == "False"
    assert plain[1:] == compiled[1:]


def test_kernels_that_are_not_to_be_compiled_say_so() -> None:
    assert ask(NUMBA_DISABLE_JIT="1")[0] == "False"


@pytest.mark.parametrize("changed", ["inner", "number", "outer"])
def test_a_change_in_what_a_kernel_calls_is_seen_at_once(tmp_path: Path, changed: str) -> None:
    (tmp_path / "inner.py").write_text(
        "from linewright.base.kernels import njit\n\n@njit\ndef inner(x):\n    return x + 1\n"
    )
    (tmp_path / "outer.py").write_text(
        "from inner import inner\nfrom linewright.base.kernels import njit\n"
        "from number import NUMBER\n\n"
        # What is called stands below its caller.
        "@njit\ndef outer(x):\n    return below(x) * 2\n\n"
        "@njit\ndef below(x):\n    return inner(x) + NUMBER\n"
    )
    (tmp_path / "number.py").write_text("NUMBER = 7\n")
    run = [sys.executable, "-B", "-c", "from outer import outer; print(outer(3))"]
    path = os.pathsep.join([str(tmp_path), *filter(None, sys.path)])
    environment = {**os.environ, "PYTHONPATH": path}

    def answer() -> str:
        done = subprocess.run(
            run, cwd=tmp_path, env=environment, capture_output=True, text=True, check=True
        )
        return done.stdout.strip()

    before = answer()
    kept = list(tmp_path.rglob("*.nbi"))
    source = tmp_path / f"{changed}.py"
    stamp = source.stat()
    later = str.maketrans("127", "538")
    # As long as before, and of the same date, as a wheel may have it.
    source.write_text(source.read_text().translate(later))
    os.utime(source, ns=(stamp.st_atime_ns, stamp.st_mtime_ns))
    after = answer()

    assert before == "22"
    assert len(kept) == 3
    assert after == {"inner": "30", "number": "24", "outer": "33"}[changed]
