"""What who cannot see the paper is told of it: tags, reading order, bookmarks, language, title."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import pypdfium2 as pdfium
import pytest

from quotes.paper.quote import quote_pdf
from tests.quotes.paper.besides import ADDRESS, full_facts, full_paper
from tests.quotes.paper.papers import elements, read, read_out, the_facts, the_paper, walk

SECTIONS = [
    "Your shaft", "The gap it will leave", "What we noted", "Your numbers", "Your photos",
    "What it costs", "Which metal", "If you wish, besides", "When", "Delivery",
    "Please confirm before you accept", "Terms", "With care",
]  # fmt: skip


@pytest.fixture(scope="module")
def tree() -> list[Any]:
    return elements(full_paper())


def test_it_is_tagged_by_three_readers() -> None:
    assert pdfium.raw.FPDFCatalog_IsTagged(pdfium.PdfDocument(full_paper()).raw) == 1
    assert read(full_paper()).trailer["/Root"]["/MarkInfo"].get_object()["/Marked"]
    assert elements(full_paper())[0]["type"] == "Document"


@pytest.mark.skipif(shutil.which("pdfinfo") is None, reason="needs poppler's pdfinfo")
def test_poppler_reads_the_tree_as_well(tmp_path: Path) -> None:
    paper = tmp_path / "quote.pdf"
    paper.write_bytes(full_paper())

    def pdfinfo(*how: str) -> str:
        told = subprocess.run(["pdfinfo", *how, str(paper)], capture_output=True, check=True)
        return told.stdout.decode()

    assert "Tagged:          yes" in pdfinfo()
    structure = pdfinfo("-struct-text")
    assert structure.startswith("Document")
    assert structure.count("Table") >= 4
    assert '"Please confirm before you accept"' in structure


def test_the_kinds_of_elements(tree: list[Any]) -> None:
    kinds = {element["type"] for element in tree}
    assert {"H1", "H2", "P", "Table", "TR", "TH", "TD", "Figure", "L", "LI", "LBody"} <= kinds
    assert [e["type"] for e in tree].count("H1") == 1


def test_sections_are_read_in_the_order_they_stand_in() -> None:
    told = read_out(full_paper())
    places = [told.index(f"{name} ") for name in ("Wilmot Tarpley", *SECTIONS)]
    assert places == sorted(places)
    assert told.startswith("Otterhithe Shaft Desk Quote Q-2026-000123")


def test_every_row_of_a_table_has_as_many_cells_as_its_head(tree: list[Any]) -> None:
    tables = [e for e in tree if e["type"] == "Table"]
    assert len(tables) == 4
    for table in tables[:2] + tables[3:]:  # sums below the prices have two cells
        rows = [len(row["children"]) for row in table["children"] if row["type"] == "TR"]
        body = [count for count in rows if count != 2]
        assert set(body) == {rows[0]}
    metals = [len(row["children"]) for row in tables[2]["children"]]
    assert set(metals) == {4}


def test_head_cells_say_what_they_head(tree: list[Any]) -> None:
    heads = [e for e in tree if e["type"] == "TH"]
    assert {e["attributes"]["Scope"] for e in heads} == {"Column", "Row"}


def test_each_figure_has_words_and_a_place(tree: list[Any]) -> None:
    figures = [e for e in tree if e["type"] == "Figure"]
    assert len(figures) == 2 + 4 + 1  # drawing and gap, photos, square code
    for figure in figures:
        left, low, right, high = figure["attributes"]["BBox"]
        assert len(figure["alt_text"]) > 12
        assert 0 < left < right < 596
        assert 0 < low < high < 842


def test_bookmarks_lead_to_each_section() -> None:
    paper = read(full_paper())
    titles = [entry.title for entry in paper.outline]
    assert titles == ["Quote Q-2026-000123", "Drawing", *SECTIONS]
    pages = [paper.get_destination_page_number(entry) for entry in paper.outline]
    assert pages == sorted(pages)
    assert pages[-1] == len(paper.pages) - 1
    for first, second in pairwise(paper.outline):
        same = paper.get_destination_page_number(first) == paper.get_destination_page_number(second)
        assert not same or first.top >= second.top


def test_it_says_its_language_and_shows_its_title() -> None:
    paper = read(quote_pdf(full_facts(), language="es"))
    root = paper.trailer["/Root"]
    assert root["/Lang"] == "es"
    assert root["/ViewerPreferences"].get_object()["/DisplayDocTitle"].value is True
    assert paper.metadata.title == "Quote Q-2026-000123, version 2"


def test_the_address_can_be_clicked() -> None:
    links = [
        annotation.get_object()["/A"]["/URI"]
        for page in read(full_paper()).pages
        for annotation in page.get("/Annots", [])
    ]
    assert links == [ADDRESS]


def test_we_say_tagged_and_claim_no_standard() -> None:
    assert b"pdfuaid" not in full_paper()


def test_the_same_facts_make_the_same_bytes_photos_and_code_included() -> None:
    assert quote_pdf(full_facts()) == full_paper()


@pytest.mark.parametrize(
    "change",
    [
        {"number": "Q-2026-000124"}, {"valid_until": "26 December 2026"}, {"address": ADDRESS[:-1]},
        {"photos": ()}, {"total": "697.08"}, {"deliver_to": "07016, Spain"}, {"scale": ""},
        {"customer": "Wilmot Tarpley jr"}, {"options": ()}, {"alloy_notes": ()},
    ],
)  # fmt: skip
def test_another_fact_makes_another_paper(change: dict[str, Any]) -> None:
    assert quote_pdf(replace(full_facts(), **change)) != full_paper()


def test_papers_stay_small() -> None:
    without = replace(full_facts(), photos=())
    assert len(quote_pdf(without)) <= 80_000
    assert len(the_paper()) <= 60_000


def test_elements_are_closed_on_every_page() -> None:
    for page in read(full_paper()).pages:
        stream = page.get_contents().get_data()
        assert stream.count(b"BDC") + stream.count(b"BMC") == stream.count(b"EMC")
    assert walk([]) == []
    assert the_facts().address == ""
