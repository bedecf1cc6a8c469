# SPDX-License-Identifier: Apache-2.0
"""The docs are true: links lead somewhere, commands are described, examples run."""

import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
import typer

from linewright.car.read import read_text
from linewright.car.running import usual
from linewright.faces.cli.main import app
from linewright.routes.shapes import bend_radius
from linewright.tables.hoses import FAMILIES, family
from linewright.tables.load import rows
from linewright.tables.practice import setting

ROOT = Path(__file__).parent.parent
PAGES = sorted(
    p
    for p in (
        *ROOT.glob("*.md"),
        *(ROOT / "docs").rglob("*.md"),
        *(ROOT / "examples").rglob("*.md"),
    )
)
LINK = re.compile(r"\[[^\]]*\]\(([^)#\s]+)(?:#[^)]*)?\)")


def _id(page: Path) -> str:
    return str(page.relative_to(ROOT))


@pytest.mark.parametrize("page", PAGES, ids=_id)
def test_every_link_leads_to_a_file(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    dead = [
        link
        for link in LINK.findall(text)
        if "://" not in link and not (page.parent / link).exists()
    ]

    assert dead == []


@pytest.mark.parametrize("page", PAGES, ids=_id)
def test_fenced_toml_is_toml(page: Path) -> None:
    for block in re.findall(r"```toml\n(.*?)```", page.read_text(encoding="utf-8"), re.DOTALL):
        tomllib.loads(block)


def test_every_command_is_described_in_the_reference() -> None:
    text = (ROOT / "docs" / "reference" / "command-line.md").read_text(encoding="utf-8")
    command = typer.main.get_command(app)
    names = command.list_commands(command.make_context("linewright", [], resilient_parsing=True))  # type: ignore[attr-defined]

    assert names
    assert all(f"## {name}\n" in text for name in names)


GENERATED = [p for p in PAGES if "[[[cog" in p.read_text(encoding="utf-8")]


@pytest.mark.parametrize("page", GENERATED, ids=_id)
def test_a_generated_page_is_as_the_tables_give_it(page: Path) -> None:
    done = subprocess.run(
        [Path(sys.executable).with_name("cog"), "--check", page],
        capture_output=True,
        text=True,
        env={"COLUMNS": "100", "PATH": ""},
        check=False,
    )

    assert done.returncode == 0, done.stdout + done.stderr + " run make docs"


def test_make_docs_renews_every_generated_page() -> None:
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")

    assert len(GENERATED) >= 5
    assert [_id(page) for page in GENERATED if _id(page) not in makefile] == []


#: A document to try settings and conditions in.
SMALL = """linewright = 1
[car]
name = "x"
[systems.oil]
fluid = "10W-40"
[components]
tank = { kind = "oil tank" }
pump = { kind = "oil pump" }
"""


def _page(name: str) -> str:
    return (ROOT / "docs" / "reference" / name).read_text(encoding="utf-8")


def test_every_setting_can_be_typed_as_its_page_shows_it() -> None:
    shown = re.findall(r"^\| `([\w-]+)` \| `(.+?)` \|", _page("settings.md"), re.MULTILINE)
    typed = read_text(
        SMALL + "[settings]\n" + "".join(f"{name} = {value}\n" for name, value in shown)
    )

    assert sorted(name for name, _ in shown) == sorted(row["name"] for row in rows("settings"))
    for name, figure in typed.settings.items():
        assert figure.value == pytest.approx(setting(name).value), name


@pytest.mark.parametrize("number", range(2))
def test_the_settings_typed_on_the_pages_are_read(number: int) -> None:
    page = _page(("settings.md", "hoses.md")[number])
    (block,) = re.findall(r"```toml\n(.*?)```", page, re.DOTALL)
    car = read_text(SMALL + block)

    assert len(car.settings) >= 3


def test_every_hose_family_can_be_typed_by_each_of_its_names() -> None:
    first = _page("hoses.md").partition("## Sizes")[0]
    found = 0
    for line in first.splitlines():
        if not line.startswith("| `"):
            continue
        key, others, *_ = (cell.strip() for cell in line.strip("|").split(" | "))
        for name in re.findall(r"`([^`]+)`", key + others):
            assert family(name).key == key.strip("`"), name
            found += 1

    assert found > len(FAMILIES)


@pytest.mark.parametrize(
    ("hose", "size", "service"),
    [
        ("rubber braided", "-10", "pressure"),
        ("rubber braided", "-16", "suction"),
        ("PTFE", "-6", "pressure"),
    ],
)
def test_the_radius_on_the_page_is_that_which_a_course_keeps(
    hose: str, size: str, service: str
) -> None:
    said = f'service = "{service}"\n'
    ends = 'from = "tank.feed"\nto = "pump.inlet"'
    line = f'[lines.O01]\n{ends}\ncrosses = false\nsize = "{size}"\nhose = "{hose}"\n{said}'
    car = read_text(SMALL + line)
    row = re.search(rf"^\| `{hose}` \| {size} \|.*$", _page("hoses.md"), re.MULTILINE)
    assert row is not None
    cells = [cell.strip() for cell in row[0].strip("|").split("|")]

    told = cells[6] if service == "suction" else cells[5]
    assert f"{bend_radius(car, car.lines['O01']).value * 1000:.0f}" == told


def test_the_conditions_typed_on_their_page_are_read_and_every_usual_one_is_there() -> None:
    page = _page("fluids-and-conditions.md")
    (block,) = re.findall(r"```toml\n(.*?)```", page, re.DOTALL)
    car = read_text(SMALL + block)

    assert {"full-power", "paddock"} <= set(car.conditions)
    assert all(f"| `{name}` |" in page for name in usual())


def test_every_package_stands_in_the_architecture() -> None:
    text = (ROOT / "docs" / "architecture.md").read_text(encoding="utf-8")
    packages = [p.parent.name for p in (ROOT / "src" / "linewright").glob("*/__init__.py")]

    assert packages
    assert all(f"| `{name}` |" in text for name in packages)


def test_the_tutorial_types_a_part_of_the_roadster() -> None:
    page = (ROOT / "docs" / "tutorial" / "first-car.md").read_text(encoding="utf-8")
    whole = (ROOT / "examples" / "club-roadster" / "car.toml").read_text(encoding="utf-8")
    blocks = re.findall(r"```toml\n(.*?)```", page, re.DOTALL)
    typed = "".join(blocks)
    car = read_text(typed, file="tutorial")

    squeezed = re.sub(r" +", " ", whole)
    lines = [re.sub(r" +", " ", line) for block in blocks for line in block.splitlines() if line]
    assert car.name == "Club roadster"
    assert [line for line in lines if line not in squeezed.splitlines()] == []


def test_decisions_are_numbered_and_have_their_parts() -> None:
    pages = sorted((ROOT / "docs" / "decisions").glob("*.md"))

    assert [p.name[:4] for p in pages] == [f"{n:04}" for n in range(1, len(pages) + 1)]
    for page in pages:
        text = page.read_text(encoding="utf-8")
        for part in ("Status:", "Context.", "Decision.", "Consequences.", "Turned down."):
            assert part in text, f"{page.name}: {part}"


def test_changelog_fragments_are_of_a_known_kind() -> None:
    names = [p.name for p in (ROOT / "changelog.d").glob("*.md")]

    assert names
    assert all(re.fullmatch(r"[\w-]+\.(added|changed|fixed|data)\.md", name) for name in names)


def test_the_car_of_the_page_on_lines_in_space_is_laid() -> None:
    from linewright.joints.termination import offer
    from linewright.routes.lay_space import lay_all

    page = (ROOT / "docs" / "howto" / "lay-lines-in-space.md").read_text(encoding="utf-8")
    car = read_text("\n".join(re.findall(r"```toml\n(.*?)```", page, re.DOTALL)), file="howto")
    laid = lay_all(car, offer(car))

    assert [route.id for route in laid.routes] == ["O01a", "O01b", "O02a", "O02b", "O03"]
    # What the page promises of the ground: no hose runs below the clearance that was typed.
    lowest = min(corner[2] for route in laid.routes for corner in route.path.corners)
    assert lowest > 3.5 * 0.0254
