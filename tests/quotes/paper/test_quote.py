"""The paper, read back by independent readers."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from dataclasses import replace
from io import BytesIO

import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from intake.paper.fonts import printable, width, wrapped
from quotes.paper.quote import quote_pdf
from tests.quotes.given import FORTY_MM
from tests.quotes.paper.papers import read, texts, the_facts, the_paper


@pytest.fixture(scope="module")
def pages() -> list[str]:
    return texts(the_paper())


def test_two_pages_in_little_room() -> None:
    assert len(read(the_paper()).pages) == 2
    assert len(the_paper()) <= 60_000


@pytest.mark.parametrize(
    "said",
    [
        "Quote Q-2026-000123",
        "Version 2 · 25 November 2026 · valid until 25 December 2026",
        "Wilmot Tarpley",
        "the owner",
        "Biscuit Barrel, single shaft",
        "FG-7K2M9P",
        "By the owner, on our form, tape in",
        "49 in · 1244.6 mm",
        "49 5/16 in · 1252.5 mm",
        "UNS S20910",
        "verify before metal is cut",
        "3/4-10",
        "we expect a gap of 3/4 in",
        "nineteen times in",
        "nothing was",
        "44 1/8 in · 1120.8 mm",
        "rod through the log",
        "measured",
        "assumed",
    ],
)
def test_the_first_page_is_the_boat(pages: list[str], said: str) -> None:
    assert said in pages[0]


@pytest.mark.parametrize(
    "said",
    [
        "50 in × 3.60",
        "180.00",
        "Goods and work 613.15",
        "Freight, tube 53 in (48–72 in class) 41.00",
        "Tax 7 % on goods and work 42.92",
        "Total 697.07",
        "about 8 working days",
        "accept by 25 December 2026",
        "cannot be returned",
        "machined face of the gearbox flange",
        "Name and date",
        "Signature, or the code word",
        "graphite packing",
        "do not certify strength, whip",
    ],
)
def test_the_second_page_is_the_order(pages: list[str], said: str) -> None:
    assert said in pages[1].replace("- ", "-")


def test_the_drawing_carries_the_customers_numbers() -> None:
    with pdfplumber.open(BytesIO(the_paper())) as paper:
        page = paper.pages[0]
        assert len(page.lines) + len(page.curves) + len(page.rects) > 100
        words = page.crop((0, 100, page.width, 420)).extract_text()
    assert "datum" in words
    assert "measured" in words


def test_every_font_is_embedded_and_no_other_is_named() -> None:
    fonts = set()
    for page in read(the_paper()).pages:
        for font in page["/Resources"]["/Font"].values():
            described = font.get_object()
            fonts.add(described["/BaseFont"].split("+")[-1])
            assert "/FontFile2" in described["/FontDescriptor"].get_object()
    assert fonts == {"/FairgapSans-Regular".strip("/"), "FairgapSans-Bold"}
    assert b"Helvetica" not in the_paper()
    assert b"DejaVu" not in the_paper()


def test_it_says_its_language_and_title_and_is_tagged() -> None:
    paper = read(the_paper())
    root = paper.trailer["/Root"]
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"].get_object()["/DisplayDocTitle"] is not None
    assert paper.metadata is not None
    assert paper.metadata.title == "Quote Q-2026-000123, version 2"
    assert root["/MarkInfo"].get_object()["/Marked"]
    assert all("/StructParents" in page for page in paper.pages)


def tags_of(pdf: bytes) -> list[str]:
    with pdfplumber.open(BytesIO(pdf)) as paper:
        return [element["type"] for element in walk(paper.structure_tree)]


def walk(tree: list[dict]) -> list[dict]:  # type: ignore[type-arg]
    found = []
    for element in tree:
        found += [element, *walk(element.get("children", []))]
    return found


def test_headings_figures_and_tables_are_told_apart() -> None:
    tags = tags_of(the_paper())
    assert tags.count("H1") == 1
    assert tags.count("Figure") == 2
    assert tags.count("Table") == 2
    assert {"TH", "TD", "TR", "H2", "P", "LI"} <= set(tags)


def test_the_drawings_say_what_they_show() -> None:
    with pdfplumber.open(BytesIO(the_paper())) as paper:
        figures = [e for e in walk(paper.structure_tree) if e["type"] == "Figure"]
    assert all(len(figure["alt_text"]) > 40 for figure in figures)


def test_the_same_facts_make_the_same_bytes() -> None:
    assert quote_pdf(the_facts()) == quote_pdf(the_facts())


def test_another_process_makes_the_same_bytes() -> None:
    code = (
        "import hashlib; from tests.quotes.paper.papers import the_paper;"
        "print(hashlib.sha256(the_paper()).hexdigest())"
    )
    environ = {**os.environ, "PYTHONHASHSEED": "7"}
    said = subprocess.run(
        [sys.executable, "-c", code], env=environ, capture_output=True, text=True, check=True
    )
    assert said.stdout.strip() == hashlib.sha256(the_paper()).hexdigest()


def test_another_number_makes_another_paper() -> None:
    assert quote_pdf(replace(the_facts(), number="Q-2026-000124")) != the_paper()


def test_what_customers_write_is_words_not_markup() -> None:
    name = "<b>Bold</b> &amp; <font size=40>Barge</font>"
    pdf = quote_pdf(the_facts(boat_name_and_station={"name": name, "station": "port"}))
    assert "<b>Bold</b> &amp;" in texts(pdf)[0]


@pytest.mark.parametrize("name", ["A" * 300, "word " * 60, "i" * 300])
def test_a_name_of_three_hundred_letters_stays_on_the_paper(name: str) -> None:
    facts = replace(the_facts(), customer=name.strip(), boat=name.strip())
    with pdfplumber.open(BytesIO(quote_pdf(facts))) as paper:
        assert len(paper.pages) <= 3
        for page in paper.pages:
            assert all(sign["x0"] > 0 and sign["x1"] < page.width for sign in page.chars)
            assert all(sign["top"] > 0 and sign["bottom"] < page.height for sign in page.chars)


@given(st.text(max_size=300))
@settings(max_examples=25, deadline=None)
def test_whatever_is_written_at_most_three_pages_come(text: str) -> None:
    facts = replace(the_facts(), customer=text, boat=text, job=text[:40])
    assert len(read(quote_pdf(facts)).pages) <= 3


def test_a_metric_shaft_speaks_metric_first() -> None:
    top = {"tape_unit": "mm", "wants": ["shaft", "coupling"]}
    pdf = quote_pdf(the_facts(top=top, without=("shell_od", "bearing_length"), **FORTY_MM))
    first, second = texts(pdf)
    assert "1560 mm · ≈61 27/64 in" in first
    assert "to come" in second


def test_parts_alone_need_no_drawing() -> None:
    pdf = quote_pdf(the_facts(top={"wants": ["bearing"]}))
    assert len(read(pdf).pages) == 1
    assert "Made up to the minimum order" in texts(pdf)[0]


def test_notes_are_printed() -> None:
    pdf = quote_pdf(replace(the_facts(), notes=("The mounts are soft: keep a wide gap.",)))
    assert "The mounts are soft" in texts(pdf)[0]


# --- The type ---------------------------------------------------------------------------


@given(st.text(max_size=80), st.floats(min_value=8, max_value=400))
def test_wrapped_lines_fit_and_lose_nothing(text: str, room: float) -> None:
    ready = printable(text)
    lines = wrapped(ready, "FairgapSans-Regular", 8.0, room)
    assert "".join(lines).replace(" ", "") == ready.replace(" ", "")
    for line in lines:
        assert len(line) == 1 or width(line, "FairgapSans-Regular", 8.0) <= room + 0.01


def test_direction_marks_are_dropped() -> None:
    assert printable("a\u202eb\u0000c\nd") == "abc d"
