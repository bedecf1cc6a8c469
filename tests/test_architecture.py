# SPDX-License-Identifier: Apache-2.0
"""The layout keeps its promises: imports, start-up, licence lines, pins."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
SOURCES = sorted((ROOT / "src").rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))

HEAVY = ("numpy", "scipy", "numba", "sqlalchemy", "nicegui", "typst", "graphlay", "fontTools")


def test_imports_point_up_the_flow() -> None:
    done = subprocess.run(
        [Path(sys.executable).with_name("lint-imports"), "--no-cache"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 0, done.stdout


def test_help_loads_none_of_the_heavy_libraries() -> None:
    code = (
        "import sys, json\n"
        "from linewright.faces.cli import main\n"
        "sys.argv = ['linewright', '--help']\n"
        "try:\n    main.app()\nexcept SystemExit:\n    pass\n"
        "print('LOADED', json.dumps(sorted(m for m in sys.modules)))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(json.loads(done.stdout.split("LOADED")[1]))

    assert "typer" in loaded
    assert not [name for name in HEAVY if name in loaded]
    assert not [m for m in loaded if m.startswith(("linewright.tables", "linewright.catalogue"))]


@pytest.mark.parametrize("path", [*SOURCES, *TESTS], ids=lambda p: str(p.relative_to(ROOT)))
def test_every_file_starts_with_its_licence(path: Path) -> None:
    text = path.read_text(encoding="utf-8")

    assert not text or text.startswith("# SPDX-License-Identifier: Apache-2.0\n")


@pytest.mark.parametrize("path", SOURCES, ids=lambda p: str(p.relative_to(ROOT)))
def test_every_file_can_be_held_in_the_head(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 500


@pytest.mark.parametrize("path", SOURCES, ids=lambda p: str(p.relative_to(ROOT)))
def test_todo_has_a_number(path: Path) -> None:
    text = path.read_text(encoding="utf-8")

    assert not re.search(r"\b(TODO|FIXME|XXX)\b(?! #\d)", text)


@pytest.mark.parametrize("name", ["run", "build", "dev"])
def test_pins_carry_hashes_and_no_address(name: str) -> None:
    text = (ROOT / "requirements" / f"{name}.txt").read_text(encoding="utf-8")
    pins = re.findall(r"^([a-z0-9._-]+)(?:\[[^\]]*\])?==", text, re.MULTILINE | re.IGNORECASE)

    assert pins
    assert text.count("--hash=sha256:") >= len(pins)
    assert "://" not in text
    assert "index" not in text


def test_the_build_back_end_is_pinned_for_development() -> None:
    assert "\nhatchling==" in (ROOT / "requirements" / "dev.txt").read_text(encoding="utf-8")
