# SPDX-License-Identifier: Apache-2.0
"""The page on the car document describes every key that the reader takes, and no other."""

import re
from pathlib import Path

import pytest

from linewright.base.errors import DocumentError
from linewright.base.places import body_size, direction, point
from linewright.base.units import READERS
from linewright.car.quantities import line_size
from linewright.car.read import read_text

PAGE = (Path(__file__).parents[3] / "docs" / "reference" / "car-document.md").read_text("utf-8")
BASE = 'linewright = 1\n[car]\nname = "x"\n[systems.oil]\nfluid = "15W-50"\nsize = "-10"\n'
PLACES = {
    "car": 'linewright = 1\n[systems]\n[components]\n[car]\nname = "x"\nzz-zz = 1\n',
    "systems.ID": BASE + "zz-zz = 1\n[components]\n",
    "panels.ID": BASE + "[components]\n[panels.a]\nzz-zz = 1\n",
    "bodies.ID": BASE + "[components]\n[bodies.a]\nzz-zz = 1\n",
    "zones.ID": BASE + "[components]\n[zones.a]\nat = '0, 0, 0 m'\nzz-zz = 1\n",
    "conditions": BASE + "[components]\n[conditions.a]\nzz-zz = 1\n",
    "guides": BASE + "[components]\n[guides.a]\npoints = ['0, 0, 0 m', '1, 0, 0 m']\nzz-zz = 1\n",
    "components.ID": BASE + '[components.a]\nkind = "component"\nzz-zz = 1\n',
    "ports": BASE + '[components.a]\nkind = "component"\n[ports."a.b"]\nzz-zz = 1\n',
    "lines": BASE + "[components]\n[lines.O01]\nzz-zz = 1\n",
    "lines, end": BASE + "[components]\n[lines.O01]\nends = [{ zz-zz = 1 }, '90']\n",
    "parts.ID": BASE + "[components]\n[parts.a]\nzz-zz = 1\n",
    "[overruled]": BASE + "[components]\n[[overruled]]\nzz-zz = 1\n",
    "retired": BASE + "[components]\n[retired]\nzz-zz = 1\n",
}


def allowed(text: str) -> set[str]:
    """Return the keys that the refusal of an unknown one lists."""
    with pytest.raises(DocumentError) as caught:
        read_text(text)
    (message,) = [str(f) for f in caught.value.faults if f.key.endswith("zz-zz")]
    return set(message.split("Allowed: ")[1].rstrip(".").split(", "))


def described(place: str) -> str:
    heading = place.partition(",")[0]
    return PAGE.split(f"### `[{heading}]`")[1].split("\n### ")[0]


@pytest.mark.parametrize("place", PLACES)
def test_every_key_is_described(place: str) -> None:
    words = set(re.findall(r"`\"?([a-z_-]+)", described(place).replace("_", "-")))

    assert allowed(PLACES[place]) <= words


def test_every_section_is_described() -> None:
    with pytest.raises(DocumentError) as caught:
        read_text(BASE + "[components]\n[zz-zz]\n")
    listed = str(caught.value).split("Allowed: ")[1].rstrip(".").split(", ")

    assert all(re.search(rf"^### `\[+{name}[.\]]", PAGE, re.MULTILINE) for name in listed)


def test_every_value_on_the_page_is_read() -> None:
    table = PAGE.split("## How values are typed")[1].split("\nThe decimal sign")[0]
    rows = [line.split("|") for line in table.splitlines() if line.startswith("| ")][2:]
    readers = [point, direction, body_size, line_size, *READERS.values()]
    texts = [text for row in rows for text in re.findall(r'`"([^"`]+)"`', row[2])]

    def is_read(text: str) -> bool:
        for read in readers:
            try:
                read(text)
            except ValueError:
                continue
            return True
        return False

    assert len(texts) > 25
    assert [text for text in texts if not is_read(text)] == ["bar abs", "psia", "auto"]
