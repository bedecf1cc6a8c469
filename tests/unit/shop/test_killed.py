# SPDX-License-Identifier: Apache-2.0
"""A writer that is killed in the middle loses nothing that was acknowledged."""

import json
import subprocess
import sys
from pathlib import Path

import pytest


@pytest.mark.parametrize("times", [40, pytest.param(1000, marks=pytest.mark.prove)])
def test_a_killed_writer_leaves_every_acknowledged_revision_and_none_half_there(
    tmp_path: Path, times: int
) -> None:
    command = [sys.executable, "-m", "tests.killed_writer", tmp_path / "s.sqlite", str(times), "7"]
    ran = subprocess.run(command, capture_output=True, text=True, check=True)
    found = json.loads(ran.stdout)

    assert found["killed"] == times
    assert (found["lost"], found["half"]) == (0, 0)
    # The kills fell into writing: most writers had acknowledged something by then.
    assert found["idle"] < times / 2
    assert found["acknowledged"] > times
