# SPDX-License-Identifier: Apache-2.0
"""The shop book as PDF: paper, fonts, text, the same bytes twice."""

import io
from functools import cache

import pypdf
import pytest

from linewright.faces.files.pdf import book_pdf, tables_pdf
from linewright.faces.files.svg import svg
from linewright.scene.schematic import draw, systems
from linewright.sheets.book import Picture, book
from linewright.sheets.measure import measure_list, plug_list
from tests.expected import ROOT, planned

MM = 72 / 25.4


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
        "What this order still risks",
        "Line list",
        "Parts list",
        "Hose to buy",
        "Cut list",
        "Steps to tick",
        "Findings",
        "Proof of completeness",
        "Defaults in use",
        "Sources",
        "Never tighten a joint under pressure",
        "does not say that a car is safe or legal",
        "adaptor, 1/2 NPT male to -10 flare male",
    ):
        assert phrase in words, phrase


def test_every_page_says_car_revision_and_sheet() -> None:
    pages = _pages(_pdf("a4"))

    for number, page in enumerate(pages, 1):
        words = " ".join(page.extract_text().split())
        assert "Club roadster" in words
        assert "revision" in words
        assert f"sheet {number} of {len(pages)}" in words


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
