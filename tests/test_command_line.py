# SPDX-License-Identifier: Apache-2.0
"""The command line as it is typed: exit codes, messages, and what is never printed.

Exit codes and messages are those that docs/reference/command-line.md promises; 70 for a bug
is the number that a public header of exit codes gives to an internal fault.
"""

import contextlib
import json
import os
import random
import subprocess
import sys
from pathlib import Path

import pytest

from linewright.base.errors import DocumentError
from linewright.car.read import read_text

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "examples"
ROADSTER = EXAMPLES / "club-roadster" / "car.toml"
PLANTED = EXAMPLES / "planted" / "car.toml"
JUNIPER = EXAMPLES / "juniper" / "car.toml"
COMMAND = Path(sys.executable).with_name("linewright")

Done = subprocess.CompletedProcess[str]


def _run(*arguments: str | Path, folder: Path | None = None, preload: str = "") -> Done:
    """Run the command; `preload` is Python that is run in it before anything else."""
    environment = {**os.environ, "PYTHONUTF8": "1"}
    if preload:
        assert folder is not None
        (folder / "sitecustomize.py").write_text(preload, encoding="utf-8")
        environment["PYTHONPATH"] = str(folder)
    return subprocess.run(
        [COMMAND, *map(str, arguments)],
        cwd=folder or ROOT,
        env=environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=120,
    )


# plan -------------------------------------------------------------------------------
def test_a_car_without_stops_is_planned_with_0() -> None:
    done = _run("plan", ROADSTER)

    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("Club roadster\n")
    assert done.stdout.splitlines()[-1].startswith("No stop.")


def test_a_car_with_stops_is_planned_with_1() -> None:
    done = _run("plan", PLANTED)

    assert (done.returncode, done.stderr) == (1, "")
    assert "■ stop  open-port\n    FH.in-R\n" in done.stdout


def test_an_unusable_document_is_2_with_file_and_line(tmp_path: Path) -> None:
    text = ROADSTER.read_text(encoding="utf-8").replace('"700 mm"', "700")
    (tmp_path / "car.toml").write_text(text, encoding="utf-8")
    line = 1 + text[: text.index("string = 700")].count("\n")

    done = _run("plan", "car.toml", folder=tmp_path)

    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith(f"car.toml, line {line}: lines.L1.string: ")
    assert len(done.stderr.splitlines()) == 1


def test_a_missing_document_is_2_and_says_how_to_begin_one(tmp_path: Path) -> None:
    done = _run("plan", "none.toml", folder=tmp_path)

    assert done.returncode == 2
    assert done.stderr == (
        "none.toml: there is no such file. Begin one with: linewright new car.toml\n"
    )


@pytest.mark.parametrize(
    ("content", "message"),
    [
        pytest.param(
            b"",
            "car.toml: is no car document yet: its first line must be linewright = 1.",
            id="empty",
        ),
        pytest.param(
            b"\x00\xff\xfe\x89PNG",
            "car.toml, line 1: byte 0xff is not UTF-8 text. Save the document as UTF-8.",
            id="binary",
        ),
        pytest.param(
            b"#" + b"x" * 5_000_000,
            "car.toml: is larger than 1 MB; a car document is typed by hand.",
            id="five-megabytes",
        ),
        pytest.param(
            b"a = " + b"[" * 20_000 + b"]" * 20_000,
            "car.toml: has lists or tables too deep in each other to be a car document.",
            id="deep",
        ),
    ],
)
def test_what_is_no_document_is_2_and_told_plainly(
    tmp_path: Path, content: bytes, message: str
) -> None:
    (tmp_path / "car.toml").write_bytes(content)

    done = _run("plan", "car.toml", folder=tmp_path)

    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.splitlines()[0] == message


def test_a_folder_is_2(tmp_path: Path) -> None:
    (tmp_path / "car.toml").mkdir()

    done = _run("plan", "car.toml", folder=tmp_path)

    assert done.returncode == 2
    assert done.stderr == "car.toml: is a folder. Name the document in it, for example car.toml.\n"


def test_a_document_that_may_not_be_read_is_2(tmp_path: Path) -> None:
    # A file in place of the folder is refused for every user, the superuser too.
    (tmp_path / "file").write_text("x", encoding="utf-8")

    done = _run("plan", "file/car.toml", folder=tmp_path)

    assert done.returncode == 2
    assert done.stderr == "file/car.toml: cannot be read: Not a directory.\n"


def test_a_folder_that_cannot_be_written_is_2_and_leaves_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")

    done = _run("plan", ROADSTER, "--json", "file/plan.json", folder=tmp_path)

    assert done.returncode == 2
    assert done.stderr == (
        "file/plan.json cannot be written: file is a file and no folder. "
        "Name a folder that you may write to, with space left on its disk.\n"
    )
    assert [p.name for p in tmp_path.iterdir()] == ["file"]


def test_an_unknown_paper_is_2() -> None:
    done = _run("plan", ROADSTER, "--paper", "a5")

    assert done.returncode == 2
    assert done.stderr == '--paper "a5" is not a paper of the book; say a4 or letter.\n'


def test_a_tool_that_is_missing_is_3_and_says_how_to_get_it(tmp_path: Path) -> None:
    hidden = "import sys\nsys.modules['typst'] = None\n"

    done = _run("plan", ROADSTER, "--out", tmp_path / "out", folder=tmp_path, preload=hidden)

    assert done.returncode == 3
    assert "typst" in done.stderr
    assert "pip install" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "out" / "book.pdf").exists()


def test_a_plan_says_last_what_it_wrote_and_what_each_is_for(tmp_path: Path) -> None:
    done = _run("plan", ROADSTER, "--out", "out", folder=tmp_path)
    quiet = _run("plan", ROADSTER, "--out", "out", "--json", "-", folder=tmp_path)

    assert " ".join(done.stdout.split()).endswith(
        ". Written to out: book.pdf for the car, grounds.pdf (what it rests on), lists, pictures, "
        "plan.json."
    )
    assert {p.name for p in (tmp_path / "out").iterdir()} >= {"book.pdf", "grounds.pdf", "lists"}
    assert quiet.stdout.startswith("{")
    assert quiet.stdout.endswith("}\n")


def test_a_bug_is_70_and_keeps_its_traceback(tmp_path: Path) -> None:
    broken = (
        "import linewright.plan.make as make\n"
        "def fails(car, **how):\n    raise ZeroDivisionError('planted')\n"
        "make.make = fails\n"
    )

    done = _run("plan", ROADSTER, folder=tmp_path, preload=broken)

    assert done.returncode == 70
    assert "Traceback (most recent call last)" in done.stderr
    assert done.stderr.splitlines()[-2:] == [
        "ZeroDivisionError: planted",
        "This is a bug in linewright: keep the car document with it.",
    ]


def test_json_on_the_screen_stands_alone() -> None:
    done = _run("plan", ROADSTER, "--json", "-")

    assert done.returncode == 0
    assert json.loads(done.stdout)["document"]["name"] == "Club roadster"


def test_json_in_a_file_stands_beside_the_summary(tmp_path: Path) -> None:
    done = _run("plan", ROADSTER, "--json", "plan.json", folder=tmp_path)
    on_screen = _run("plan", ROADSTER, "--json", "-")

    assert done.stdout.startswith("Club roadster\n")
    assert (tmp_path / "plan.json").read_text(encoding="utf-8") == on_screen.stdout


@pytest.mark.parametrize(
    "arguments",
    [
        ("plan", PLANTED),
        ("measure", JUNIPER),
        ("join", "-8 ORB female", "-10 flare male"),
        ("identify", "male 20.8 mm", "14 tpi"),
    ],
    ids=["plan", "measure", "join", "identify"],
)
def test_no_colour_is_printed_where_no_terminal_is(arguments: tuple[str | Path, ...]) -> None:
    done = _run(*arguments)

    assert done.stdout
    assert "\x1b" not in done.stdout + done.stderr


def _spoilt(seed: int) -> str:
    """An example with one or two lines of it damaged, as a tired hand does."""
    dice = random.Random(seed)
    lines = dice.choice((ROADSTER, PLANTED, JUNIPER)).read_text(encoding="utf-8").split("\n")
    for _ in range(dice.randint(1, 2)):
        where = dice.randrange(len(lines))
        text = lines[where]
        spot = dice.randrange(len(text) + 1)
        lines[where] = dice.choice(
            (
                "",
                text + "\n" + text,
                text[:spot],
                text[:spot] + dice.choice('"={}[],.\\\x00é-0') + text[spot:],
                text.replace("mm", dice.choice(("", "bar", "furlong"))),
                text.replace('"', "", 1),
                text.replace("1", str(dice.choice((0, -1, 10**30))), 1),
                lines[dice.randrange(len(lines))],
            )
        )
    return "\n".join(lines)


SEEDS = range(20)


def test_some_spoilt_documents_are_still_read_and_some_are_not() -> None:
    read = 0
    for seed in SEEDS:
        with contextlib.suppress(DocumentError):
            read_text(_spoilt(seed))
            read += 1

    assert 3 <= read <= len(SEEDS) - 3


@pytest.mark.parametrize("seed", SEEDS)
def test_a_spoilt_document_is_planned_or_refused_and_never_a_bug(seed: int, tmp_path: Path) -> None:
    (tmp_path / "car.toml").write_text(_spoilt(seed), encoding="utf-8")

    done = _run("plan", "car.toml", folder=tmp_path)

    assert done.returncode in (0, 1, 2), done.stderr
    assert "Traceback" not in done.stderr + done.stdout
    assert bool(done.stderr) is (done.returncode == 2)


# new --------------------------------------------------------------------------------
def test_new_writes_a_document_that_plans(tmp_path: Path) -> None:
    made = _run("new", "mine.toml", folder=tmp_path)
    done = _run("plan", "mine.toml", folder=tmp_path)

    assert (made.returncode, made.stderr) == (0, "")
    assert made.stdout == (
        "Written: mine.toml. Open it in any editor, then: linewright plan mine.toml\n"
    )
    assert done.returncode in (0, 1)
    assert done.stderr == ""


def test_new_leaves_alone_what_is_there(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text("my work", encoding="utf-8")

    done = _run("new", "mine.toml", folder=tmp_path)

    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "mine.toml is there already and is left alone. Name a new file.\n"
    assert (tmp_path / "mine.toml").read_text(encoding="utf-8") == "my work"


# identify, join, measure --------------------------------------------------------------
def test_identify_ranks_and_asks() -> None:
    # 1/2-14 NPT measures 20.7 to 21.3 mm outside [thread table].
    done = _run("identify", "male 20.8 mm", "14 tpi", "taper")

    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith(" 1. 1/2 NPT male ")
    assert "\nAsk next:\n" in done.stdout


def test_identify_without_a_diameter_is_2() -> None:
    done = _run("identify", "14 tpi")

    assert done.returncode == 2
    assert done.stderr == (
        'No diameter is told; say it like this: "male 20.8 mm" "14 tpi", or '
        '"female 8.85 mm" "five 4.54 mm".\n'
    )


def test_join_takes_a_dash_size_for_what_it_is() -> None:
    done = _run("join", "-10 ORB female", "-10 AN male")

    assert (done.returncode, done.stderr) == (0, "")
    assert "1. adaptor, -10 ORB male to -10 flare male\n" in done.stdout
    assert "   codes: adaptor-orb-10-m-to-flare-10-m\n" in done.stdout
    assert "seals: 1 × o-ring AS568-910" in done.stdout


def test_join_of_what_nothing_joins_is_1() -> None:
    done = _run("join", "-8 ORB female", "2-bolt flange 38 mm")

    assert (done.returncode, done.stderr) == (1, "")
    assert (
        "This catalogue holds nothing that joins -8 ORB female with 2-bolt 38 flange" in done.stdout
    )
    assert "name it under [parts]" in done.stdout


@pytest.mark.parametrize("end", ["1/2 NPT male", "1/2 NPT female", "-8 flare male"])
def test_join_never_mates_an_end_with_its_own_like(end: str) -> None:
    done = _run("join", end, end)

    assert (done.returncode, done.stderr) == (1, "")
    assert "directly" not in done.stdout
    assert (
        f"These two do not mate as they are: both are {end.split()[-1]}.\n"
        f"To end up with {end}: that is the end you have already.\n"
        f"This catalogue holds nothing that joins {end} with {end} in four parts.\n"
    ) in done.stdout


@pytest.mark.parametrize(
    ("near", "far", "parts"),
    [
        ("38 mm bead", "32 mm bead", ["coupler-hose-38-to-hose-32"]),
        ("32 mm bead", "38 mm bead", ["coupler-hose-38-to-hose-32"]),
        ("3/8 tube", "-6 flare male", ["tube-nut-flare-6-nut-to-tube-6"]),
        (
            "-6 ORB female",
            "3/8 tube",
            ["adaptor-orb-6-m-to-flare-6-m", "tube-nut-flare-6-nut-to-tube-6"],
        ),
        (
            "19 mm bead",
            "16 mm hose",
            ["coupler-hose-19-to-hose-16", "barb-joiner-barb-16-m-to-barb-16-m"],
        ),
    ],
)
def test_join_finds_what_a_plan_would_buy(near: str, far: str, parts: list[str]) -> None:
    done = _run("join", near, far)

    assert (done.returncode, done.stderr) == (0, "")
    assert "To join these two:\n1. " in done.stdout
    first = next(text for text in done.stdout.splitlines() if text.startswith("   codes: "))
    assert first == f"   codes: {', '.join(parts)}"


def test_join_of_a_neck_of_no_size_that_is_sold_names_the_nearest() -> None:
    done = _run("join", "44 mm bead", "38 mm bead")

    assert done.returncode == 1
    assert (
        "No silicone coupler on 44 mm bead is sold; the nearest sizes sold are 42 mm and 45 mm.\n"
    ) in done.stdout


def test_join_of_an_unclear_end_is_2_and_lists_the_readings() -> None:
    done = _run("join", "-10", "-8 ORB female")

    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith('"-10" can be read in 3 ways: -10 flare male ')


def test_measure_names_the_ports_still_unknown() -> None:
    done = _run("measure", JUNIPER)

    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("Ports to measure\n")
    assert "charge-exchanger.out" in done.stdout
    assert "lift-pump.in" in done.stdout


def test_measure_writes_its_page_whole(tmp_path: Path) -> None:
    done = _run("measure", JUNIPER, "--out", "page.pdf", folder=tmp_path)

    assert (done.returncode, done.stdout) == (0, "Written: page.pdf\n")
    assert (tmp_path / "page.pdf").read_bytes().startswith(b"%PDF-")
    assert [p.name for p in tmp_path.iterdir()] == ["page.pdf"]


# the command itself -------------------------------------------------------------------
def test_an_unknown_command_is_2() -> None:
    done = _run("fabricate")

    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.endswith("Error: No such command 'fabricate'.\n")


def test_the_version_is_that_of_the_package() -> None:
    done = _run("--version")

    assert done.returncode == 0
    assert done.stdout.startswith("linewright 0.")


def test_a_full_disk_under_the_output_is_told_plainly() -> None:
    done = subprocess.run(
        f"{sys.executable} -m linewright plan {ROOT}/examples/club-roadster/car.toml > /dev/full",
        shell=True,
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 2
    assert done.stderr == "The output cannot be written: No space left on device.\n"
