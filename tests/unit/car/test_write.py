# SPDX-License-Identifier: Apache-2.0
"""Writing: comments and order stay, files are whole, and a car read back is the car written."""

import os
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.errors import OutputError
from linewright.car.document import document
from linewright.car.model import Car
from linewright.car.read import read, read_text
from linewright.car.starter import starter
from linewright.car.write import change_file, changed, digest, removed, replace_file

EXAMPLES = Path(__file__).parents[3] / "examples"
CLUB = (EXAMPLES / "club-roadster" / "car.toml").read_text(encoding="utf-8")


def test_one_value_is_changed_and_nothing_else() -> None:
    made = changed(CLUB, ("lines", "L1", "string"), "720 mm")

    assert made == CLUB.replace('string = "700 mm"', 'string = "720 mm"')


def test_a_new_key_and_a_new_table_keep_comments_and_order() -> None:
    text = "# top\n[a] # first\nx = 1 # one\n\n# second\n[b]\ny = 2\n"

    made = changed(changed(text, ("a", "z"), "new"), ("c", "d"), ["p", "q"])

    assert [line for line in made.splitlines() if line in text.splitlines() and line] == [
        line for line in text.splitlines() if line
    ]
    assert tomllib.loads(made) == {
        "a": {"x": 1, "z": "new"},
        "b": {"y": 2},
        "c": {"d": ["p", "q"]},
    }


def test_a_key_is_removed_and_nothing_else() -> None:
    made = removed(CLUB, ("closed", "ENG.breather"))

    assert tomllib.loads(made)["closed"] == {
        key: value for key, value in tomllib.loads(CLUB)["closed"].items() if key != "ENG.breather"
    }
    assert made.startswith(CLUB.split("[closed]")[0])


def test_a_key_that_is_not_there_cannot_be_removed() -> None:
    with pytest.raises(OutputError) as caught:
        removed(CLUB, ("lines", "L9", "string"))

    assert str(caught.value) == (
        "lines.L9.string cannot be changed: it is not there. The document is left as it was; "
        "change it in an editor."
    )


def test_a_key_within_a_text_cannot_be_set() -> None:
    with pytest.raises(OutputError) as caught:
        changed(CLUB, ("car", "name", "first"), "x")

    assert str(caught.value) == (
        "car.name.first cannot be changed: it is no key of a table. The document is left as it "
        "was; change it in an editor."
    )


@pytest.mark.parametrize("name", ["club-roadster", "e85-boot"])
def test_a_text_of_an_example_can_be_changed_alone(name: str) -> None:
    """Every sixth by its path: the standard reader confirms that only this one moved."""
    text = (EXAMPLES / name / "car.toml").read_text(encoding="utf-8")
    tree = tomllib.loads(text)
    paths = [
        (section, item, key)
        for section in ("lines", "ports", "components")
        for item, values in tree[section].items()
        for key, value in values.items()
        if isinstance(value, str)
    ]

    assert len(paths) > 30
    for path in paths[::6]:
        made = changed(text, path, "changed")
        comments = [line for line in text.splitlines() if line.startswith("#")]

        assert [line for line in made.splitlines() if line.startswith("#")] == comments
        assert len(made.splitlines()) == len(text.splitlines())


@given(st.text(max_size=80), st.sampled_from([("car", "note"), ("lines", "L1", "note")]))
@settings(max_examples=60, deadline=None)
def test_any_text_that_is_written_is_read_back(text: str, path: tuple[str, ...]) -> None:
    try:
        made = changed(CLUB, path, text)
        tree = tomllib.loads(made)
    except (OutputError, UnicodeEncodeError):
        return
    for word in path:
        tree = tree[word]

    assert tree == text


def test_a_file_is_replaced_in_one_step(tmp_path: Path) -> None:
    file = tmp_path / "car.toml"
    file.write_text(CLUB, encoding="utf-8")
    file.chmod(0o640)

    change_file(file, ("lines", "L1", "string"), "720 mm")

    assert file.read_text(encoding="utf-8") == CLUB.replace('"700 mm"', '"720 mm"')
    assert [path.name for path in tmp_path.iterdir()] == ["car.toml"]
    assert os.name == "nt" or file.stat().st_mode & 0o777 == 0o640


def test_a_write_that_fails_leaves_the_old_file_and_nothing_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "car.toml"
    file.write_text(CLUB, encoding="utf-8")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OutputError) as caught:
        replace_file(file, "half")

    assert str(caught.value) == (
        f"{file} cannot be written: No space left on device. What was there is still there."
    )
    assert file.read_text(encoding="utf-8") == CLUB
    assert [path.name for path in tmp_path.iterdir()] == ["car.toml"]


def test_a_file_that_somebody_else_changed_is_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "car.toml"
    file.write_text(CLUB + "# by another hand\n", encoding="utf-8")

    with pytest.raises(OutputError) as caught:
        replace_file(file, "new", over=digest(CLUB))

    assert str(caught.value) == (
        f"{file} was changed by someone else since it was read, and is left alone. Read it again, "
        f"then make the change."
    )
    assert file.read_text(encoding="utf-8").endswith("# by another hand\n")


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    file = tmp_path / "none" / "car.toml"

    with pytest.raises(OutputError) as caught:
        replace_file(file, "new")

    assert str(caught.value) == (
        f"{file} cannot be written: No such file or directory. What was there is still there."
    )


def test_the_digest_is_that_of_the_car_that_was_read() -> None:
    assert digest(CLUB) == read_text(CLUB).sha256


def plain(car: Car) -> Car:
    """Leave out what is of the text and not of the car: lines, defaults, what was asked."""
    components = {
        name: replace(
            each,
            line_number=None,
            ports={
                key: replace(port, line_number=None, is_gender_assumed=False)
                for key, port in each.ports.items()
            },
        )
        for name, each in car.components.items()
    }
    return replace(
        car,
        components=components,
        systems={k: replace(v, line_number=None) for k, v in car.systems.items()},
        lines={k: replace(v, line_number=None) for k, v in car.lines.items()},
        closed={k: replace(v, line_number=None) for k, v in car.closed.items()},
        bodies={k: replace(v, line_number=None) for k, v in car.bodies.items()},
        guides={k: replace(v, line_number=None) for k, v in car.guides.items()},
        zones={
            k: replace(v, line_number=None, body=v.body and replace(v.body, line_number=None))
            for k, v in car.zones.items()
        },
        parts=tuple(replace(part, grades=()) for part in car.parts),
        findings=(),
        assumed=(),
        sha256="",
        file="",
    )


def assert_comes_back(car: Car) -> None:
    again = read_text(document(car))

    assert plain(again) == plain(car)
    assert document(again) == document(car)


@pytest.mark.parametrize("name", ["club-roadster", "e85-boot", "juniper"])
def test_an_example_read_back_is_the_example_written(name: str) -> None:
    assert_comes_back(read(EXAMPLES / name / "car.toml"))


def test_the_starter_read_back_is_the_starter_written() -> None:
    assert_comes_back(read_text(starter()))


def lengths(least: int = 1) -> st.SearchStrategy[str]:
    millimetres = st.integers(least, 20000).map(lambda n: f"{n / 10:g} mm")
    inches = st.builds(
        lambda whole, top: f"{whole}-{top}/16 in", st.integers(1, 90), st.integers(1, 15)
    )
    return st.one_of(millimetres, inches)


DIRECTIONS = st.sampled_from(
    ["up", "down", "left", "forward, 20° up", "right, 33° down", "1, 2, 3"]
)
POINTS = st.builds(lambda x, y, z: f"{x}, {y}, {z} mm", *[st.integers(-4000, 4000)] * 3)
ENDS = st.sampled_from(
    ["-10 flare male", "3/8 NPT", "-8 ORB female", "G 1/2", "M18x1.5", "?", "38 mm bead", "1/2 BSP"]
)
NOTES = st.text(
    st.characters(exclude_categories=["Cs"]) | st.sampled_from('"\\\n\t\x7f\x00é'), max_size=20
).map(str.strip)
KNOWN = st.sampled_from(["read", "tried", "calliper", "looks", "guess"])
PORT = st.fixed_dictionaries(
    {"end": ENDS, "known": KNOWN},
    optional={
        "role": st.sampled_from(["in", "out", "return", "vent", "drain", "spare"]),
        "at": POINTS,
        "points": DIRECTIONS,
        "depth": lengths(),
        "spot-face": lengths(),
        "room": lengths(),
        "material": st.sampled_from(["aluminium", "steel"]),
        "note": NOTES,
    },
)
BODY = st.fixed_dictionaries(
    {},
    optional={
        "at": st.fixed_dictionaries({"foot": POINTS}),
        "placed": st.sampled_from(["final", "mocked-up", "taped", "photo", "guess"]),
        "size": st.sampled_from(["300 x 200 x 60 mm", "8 dia x 12-1/2 in"]),
        "volume": st.sampled_from(["12 L", "3 US gal", "2.5 imp gal"]),
        "mass": st.sampled_from(["2.5 kg", "6 lb"]),
        "rides": st.sampled_from(["engine", "axle"]),
        "have": st.sampled_from(["yes", "posted", "no"]),
        "origin": NOTES,
        "name": NOTES,
    },
)
LINE = st.fixed_dictionaries(
    {},
    optional={
        "string": lengths(),
        "mocked-up": lengths(),
        "guess": lengths(),
        "string-from": st.just("collar"),
        "size": st.sampled_from(["-8", "-12"]),
        "hose": st.sampled_from(["rubber", "PTFE", "push-on", "stainless tube"]),
        "service": st.sampled_from(["suction", "return", "vent"]),
        "ends": st.lists(
            st.sampled_from(["90", "straight", "45 full swivel", "-8 90", "open"]),
            min_size=2,
            max_size=2,
        ),
        "passes": st.just(["floor"]),
        "sleeve": NOTES,
        "note": NOTES,
        "crosses": st.booleans(),
    },
)


@st.composite
def documents(draw: st.DrawFn) -> str:
    """A small document: two components of no kind, a few ports, lines between them."""
    import tomlkit

    count = draw(st.integers(1, 3))
    ports = {f"{owner}.p{number}": draw(PORT) for number in range(count) for owner in ("A", "B")}
    lines = {}
    for number in range(count):
        line = draw(LINE)
        if not {"string", "mocked-up", "guess"} & set(line):
            line.pop("string-from", None)
        lines[f"O0{number}"] = {"from": f"A.p{number}", "to": f"B.p{number}", **line}
    return tomlkit.dumps(
        {
            "linewright": 1,
            "car": {"name": draw(NOTES) or "x", "note": draw(NOTES)},
            "systems": {
                "oil": {"fluid": "15W-50", "size": "-10", "hottest": "250 °F", "highest": "90 psi"}
            },
            "panels": {"floor": {"thickness": draw(lengths())}},
            "components": {name: {"kind": "component", **draw(BODY)} for name in ("A", "B")},
            "ports": ports,
            "lines": lines,
            "settings": {"slack": "7 %", "engine-slack": "1-1/2 in"},
            "overruled": [
                {"code": "choke", "about": ["O00"], "reason": "short", "accepted": "49 %"}
            ],
            "retired": {"ids": ["O99"]},
        }
    )


@given(documents())
@settings(max_examples=60, deadline=None)
def test_a_car_read_back_is_the_car_written(text: str) -> None:
    assert_comes_back(read_text(text))


@pytest.mark.prove
@given(documents())
@settings(max_examples=1000, deadline=None)
def test_a_car_read_back_is_the_car_written_a_thousand_times(text: str) -> None:
    assert_comes_back(read_text(text))
