# SPDX-License-Identifier: Apache-2.0
"""The shop book as PDF: paper, fonts, text, the same bytes twice."""

import io
import re
from functools import cache

import pypdf
import pytest

from linewright.faces.cli.plan import write as write_plan
from linewright.faces.files.pdf import book_pdf, tables_pdf
from linewright.faces.files.svg import svg
from linewright.scene.schematic import draw, systems
from linewright.sheets.book import book
from linewright.sheets.grounds import grounds
from linewright.sheets.leaves import Picture
from linewright.sheets.measure import measure_list, plug_list
from tests.expected import ROOT, planned

MM = 72 / 25.4

#: A line of the contents: a title, dots, a page.
_ENTRY = re.compile(r"^(.+?)[ .]{6,}(\d+)$", re.MULTILINE)


@cache
def _pdf(paper: str) -> bytes:
    plan = planned(ROOT / "examples" / "club-roadster")
    names = systems(plan)
    drawings = {f"{s}.svg": svg(draw(plan, s, sheet=1, of=len(names))) for s in names}
    pictures = tuple(Picture(s, f"System diagram: {s}", f"{s}.svg") for s in names)
    pages = book(plan, pictures, date="2026-11-25", version="0.0")
    return book_pdf(pages, drawings, paper=paper)


def _pages(data: bytes) -> list[pypdf.PageObject]:
    return list(pypdf.PdfReader(io.BytesIO(data)).pages)


def _words(pages: list[pypdf.PageObject]) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in pages)


@pytest.mark.parametrize(
    ("paper", "width", "height"), [("a4", 210 * MM, 297 * MM), ("letter", 612, 792)]
)
def test_pages_have_the_size_of_the_paper(paper: str, width: float, height: float) -> None:
    sizes = {
        tuple(sorted((round(float(p.mediabox.width)), round(float(p.mediabox.height)))))
        for p in _pages(_pdf(paper))
    }

    assert sizes == {(round(width), round(height))}


def test_every_font_is_embedded() -> None:
    fonts = []
    for page in _pages(_pdf("a4")):
        for font in page["/Resources"].get("/Font", {}).values():
            descendants = font.get_object().get("/DescendantFonts", [font])
            for one in descendants:
                descriptor = one.get_object()["/FontDescriptor"].get_object()
                fonts.append((str(descriptor["/FontName"]), descriptor))

    assert fonts
    assert all("Inter" in name for name, _ in fonts)
    assert all("/FontFile2" in d or "/FontFile3" in d for _, d in fonts)


def test_the_book_says_what_it_must() -> None:
    text = "\n".join(page.extract_text() for page in _pages(_pdf("a4")))
    words = " ".join(text.split())

    for phrase in (
        "Club roadster",
        "Contents",
        "What this order still risks",
        "Findings",
        "Lengths to cut",
        "Hoses and pipes",
        "What answers each port",
        "Parts to buy",
        "Hose to buy",
        "Steps to tick",
        "Never tighten a joint under pressure",
        "does not say that a car is safe or legal",
        "adaptor, 1/2 NPT male to -10 flare male",
    ):
        assert phrase in words, phrase


def test_the_book_behind_it_says_what_the_plan_rests_on() -> None:
    plan = planned(ROOT / "examples" / "club-roadster")
    words = _words(_pages(book_pdf(grounds(plan), {})))

    for phrase in (
        "What the plan rests on",
        "Line list",
        "Cut list",
        "Proof of completeness",
        "Defaults in use",
        "Sources",
    ):
        assert phrase in words, phrase


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> list[pypdf.PageObject]:
    """The whole book of the demo car, as ``linewright plan`` writes it."""
    folder = tmp_path_factory.mktemp("demo")
    write_plan(planned(ROOT / "examples" / "juniper"), folder, "a4")
    return _pages((folder / "book.pdf").read_bytes())


def test_the_book_of_the_demo_car_is_no_longer_than_is_taken_to_a_car(
    demo: list[pypdf.PageObject],
) -> None:
    assert 20 < len(demo) <= 48


def test_every_piece_of_the_demo_car_has_its_card_in_its_book(
    demo: list[pypdf.PageObject],
) -> None:
    plan = planned(ROOT / "examples" / "juniper")
    lines = [line.strip() for page in demo for line in page.extract_text().splitlines()]

    missing = [
        run.id
        for run in plan.routes.runs
        if not any(line.startswith(f"{run.id} {run.size}") for line in lines)
    ]
    assert plan.routes.runs
    assert missing == []
    assert sum(line == "□ made □ tested □ fitted" for line in lines) == len(plan.routes.runs)


def test_the_contents_give_the_page_that_each_chapter_starts_on(
    demo: list[pypdf.PageObject],
) -> None:
    told = dict(_ENTRY.findall(demo[0].extract_text()))
    names = {"Before the order", "The whole car", "Buying", "Oil, 15W-50", "Fuel, E85"}

    assert names <= set(told)
    for title in ("Before the order", "Buying"):
        assert title in demo[int(told[title]) - 1].extract_text()
    for title in ("Oil, 15W-50", "Fuel, E85"):
        # A chapter starts with its diagram, whose title block names the system.
        assert "system" in demo[int(told[title]) - 1].extract_text()


def test_drawings_keep_their_size_in_the_book(demo: list[pypdf.PageObject]) -> None:
    scaled = [page for page in demo if "scale 1:" in page.extract_text()]

    assert len(scaled) == 3
    for page in scaled:
        wide, high = float(page.mediabox.width) / MM, float(page.mediabox.height) / MM
        assert (round(wide), round(high)) in {(420, 297), (594, 297)}


def test_every_page_says_car_revision_and_number() -> None:
    pages = _pages(_pdf("a4"))

    for number, page in enumerate(pages, 1):
        words = " ".join(page.extract_text().split())
        assert "Club roadster" in words
        assert "revision" in words
        assert f"page {number} of {len(pages)}" in words


def test_the_same_book_has_the_same_bytes() -> None:
    _pdf.cache_clear()
    once = _pdf("a4")
    _pdf.cache_clear()

    assert once == _pdf("a4")


def test_the_page_of_ports_to_measure_is_set_alone() -> None:
    plan = planned(ROOT / "examples" / "juniper")
    data = tables_pdf("Juniper", "abc", (measure_list(plan), plug_list(plan)))
    words = " ".join(_pages(data)[0].extract_text().split())

    assert "Ports to measure" in words
    assert "charge-exchanger.out" in words.replace("\u200b", "")
    assert "Photo no." in words
