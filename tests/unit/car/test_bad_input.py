# SPDX-License-Identifier: Apache-2.0
"""For any bytes as a document there is a car or a plain refusal, never a traceback."""

import random
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.errors import DocumentError
from linewright.car.model import Car
from linewright.car.read import read_bytes

EXAMPLES = Path(__file__).parents[3] / "examples"
NAMES = ("club-roadster", "e85-boot", "juniper")
DOCUMENTS = [(EXAMPLES / name / "car.toml").read_bytes() for name in NAMES]

#: What may stand where a value stood: right elsewhere, nonsense, or hostile.
VALUES = [
    *('"700 mm"', '"-8 AN female"', '"?"', '""', '"-10"', '"38 mm"', '"nan mm"', '"1e999 mm"'),
    *('"1200,5 mm"', '"-3 m"', '"FH.in-L"', '"FH."', '"."', '".in"', '"FH.in-L.x"', '"oil"'),
    *("0", "-1", "1e308", "inf", "-inf", "nan", "0x" + "f" * 5000, "true", "2026-11-25"),
    *("12:30:00", "[]", "{}", "[[]]", '[""]', "[1, 2]", '{ end = "?" }', '["90", "90"]'),
    *('"\\u0000"', '"\\U0010FFFF"', '"é́"', '"' + "x" * 3000 + '"', "'''\n'''", '"plug"'),
    *('"none"', '"none, because"', '"forward, 1e9° up"', '"1, 2, 3 m"', '"20 x 0 dia mm"'),
    *('"½ in"', '"٣ mm"', '"1/0 in"', '"M18x1,5"', '"none, because …"', '"engine"', '"tee"'),
]
KEYS = [
    *("at", "at_car", "on", "end", "size", "kind", "system", "ports", "points", "yaw", "known"),
    *("from", "to", "ends", "passes", "passes-at", "string", "hose", "medium", "service", "via"),
    *("fit", "name", "rides", "panel", "bore", "role", "placed", "part", "follows", "settings"),
    *("shape", "mesh", "mesh-unit", "of", "surface", "travel", "holes", "down", "most-bends"),
]
SECTIONS = [
    *("car", "systems", "panels", "components", "ports", "lines", "closed", "parts", "settings"),
    *("overruled", "retired", "components.FH", "lines.L1", "ports.FH", "overruled.x"),
    *("bodies", "zones", "guides", "movement", "conditions", "panels.floor"),
    *("bodies.b", "zones.z", "guides.g", "conditions.c"),
]
_VALUE = re.compile(rb'"[^"\n]*"|\b\d+\b|\btrue\b|\[[^\]\n]*\]|\{[^}\n]*\}')


def flip(data: bytes, draw: random.Random) -> bytes:
    at = draw.randrange(len(data))
    return data[:at] + bytes([draw.randrange(256)]) + data[at + 1 :]


def drop_line(data: bytes, draw: random.Random) -> bytes:
    lines = data.split(b"\n")
    del lines[draw.randrange(len(lines))]
    return b"\n".join(lines)


def repeat_line(data: bytes, draw: random.Random) -> bytes:
    lines = data.split(b"\n")
    lines.insert(draw.randrange(len(lines)), draw.choice(lines))
    return b"\n".join(lines)


def swap_values(data: bytes, draw: random.Random) -> bytes:
    found = list(_VALUE.finditer(data))
    if len(found) < 2:
        return data
    a, b = sorted(draw.sample(found, 2), key=lambda met: met.start())
    if a.end() > b.start():
        return data
    return b"".join((data[: a.start()], b[0], data[a.end() : b.start()], a[0], data[b.end() :]))


def new_value(data: bytes, draw: random.Random) -> bytes:
    found = list(_VALUE.finditer(data))
    if not found:
        return data
    met = draw.choice(found)
    return data[: met.start()] + draw.choice(VALUES).encode() + data[met.end() :]


def new_key(data: bytes, draw: random.Random) -> bytes:
    found = list(re.finditer(rb"[\w-]+(?=\s*=)", data))
    if not found:
        return data
    met = draw.choice(found)
    return data[: met.start()] + draw.choice(KEYS).encode() + data[met.end() :]


def more_key(data: bytes, draw: random.Random) -> bytes:
    found = list(re.finditer(rb"\{ ", data))
    if not found:
        return data
    met = draw.choice(found)
    pair = f"{draw.choice(KEYS)} = {draw.choice(VALUES)}, ".encode()
    return data[: met.end()] + pair + data[met.end() :]


def cut(data: bytes, draw: random.Random) -> bytes:
    return data[: draw.randrange(len(data))]


def noise(data: bytes, draw: random.Random) -> bytes:
    at = draw.randrange(len(data))
    return data[:at] + draw.randbytes(draw.randrange(1, 12)) + data[at:]


CHANGES = [flip, drop_line, repeat_line, swap_values, new_value, new_key, more_key, cut, noise]


def mutated(seed: int) -> bytes:
    """Return one of the examples with one to three changes; the seed says which."""
    draw = random.Random(seed)
    data = draw.choice(DOCUMENTS)
    for _ in range(draw.choice((1, 1, 1, 2, 3))):
        if data:
            data = draw.choice(CHANGES)(data, draw)
    return data


def refusal(data: bytes) -> DocumentError | None:
    """Read a document; anything but a car or a refusal is raised with its traceback."""
    try:
        car = read_bytes(data, "car.toml")
    except DocumentError as error:
        return error
    assert isinstance(car, Car)
    return None


def outcome(data: bytes) -> str:
    """Say whether a document was read or refused, and that the refusal is fit to be shown."""
    error = refusal(data)
    if error is None:
        return "read"
    message = str(error)
    assert error.faults
    assert all(line.startswith(("car.toml, ", "car.toml: ")) for line in message.split("\n"))
    assert not re.search(r"\{[a-z_.]+\}|<[a-z]+ object|Traceback", message)
    return "refused"


def test_changed_examples_are_read_or_plainly_refused() -> None:
    outcomes = [outcome(mutated(seed)) for seed in range(300)]

    assert outcomes.count("refused") > 150
    assert outcomes.count("read") > 10


@pytest.mark.prove
def test_three_thousand_changed_examples_are_read_or_plainly_refused() -> None:
    outcomes = [outcome(mutated(seed)) for seed in range(1000, 4000)]

    assert outcomes.count("refused") > 1500
    assert outcomes.count("read") > 100


@given(st.binary(max_size=200))
@settings(max_examples=100, deadline=None)
def test_random_bytes_are_plainly_refused(data: bytes) -> None:
    assert outcome(data) == "refused"


@given(st.text(max_size=200))
@settings(max_examples=100, deadline=None)
def test_random_text_behind_the_first_line_is_plainly_refused(text: str) -> None:
    data = ("linewright = 1\n" + text).encode("utf-8", "surrogatepass")

    assert outcome(data) == "refused"


LEAVES = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12)
KEY_NAMES = st.sampled_from(KEYS) | st.text(min_size=1, max_size=6)
TREES = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEY_NAMES, inner, max_size=4),
    max_leaves=12,
)


@given(TREES, st.sampled_from(SECTIONS))
@settings(max_examples=150, deadline=None)
def test_any_tree_in_any_section_is_read_or_plainly_refused(tree: object, where: str) -> None:
    import tomlkit

    document = tomlkit.parse(DOCUMENTS[0].decode()).unwrap()
    section, _, item = where.partition(".")
    clean = _without_none(tree)
    if item:
        document.setdefault(section, {})
        document[section][item] = clean
    else:
        document[section] = clean

    assert outcome(tomlkit.dumps(document).encode("utf-8", "surrogatepass")) in ("read", "refused")


def _without_none(tree: object) -> object:
    if isinstance(tree, dict):
        return {key: _without_none(value) for key, value in tree.items() if value is not None}
    if isinstance(tree, list):
        return [_without_none(value) for value in tree if value is not None]
    return "" if tree is None else tree
