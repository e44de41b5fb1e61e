"""The cut sheet, read back by independent readers."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace
from io import BytesIO
from typing import Any

import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches, mm
from intake.domain.shapes import Text
from quotes.domain.cut_drawing import WIDE, cut_drawing
from quotes.domain.cut_ends import not_known, propeller_end
from quotes.domain.cut_facts import decimal_inches
from quotes.domain.cut_words import station_rows
from quotes.domain.end_rows import end_rows
from quotes.domain.order import Shaft, standard_thread
from quotes.domain.stations import chain
from quotes.paper.cut_sheet import RING, cut_sheet_pdf
from tests.intake.checks.examples.given import PASS_THROUGH
from tests.quotes.given import FORTY_MM
from tests.quotes.paper.cut_sheets import the_cut, the_cut_sheet
from tests.quotes.paper.papers import read, texts
from tests.quotes.paper.test_quote import tags_of, walk
from tests.quotes.stacks import SIZES, a_stack

METRIC: dict[str, Any] = {
    **FORTY_MM,
    "top": {"tape_unit": "mm", "wants": ["shaft", "coupling"]},
    "without": ("shell_od", "bearing_length"),
}
FULL: dict[str, Any] = {  # every station that can be known, and a job of forty letters
    "hub_length_coupling": {"text": "2 1/2", "method": "rule"},
    "strut_barrel": {"text": "4", "method": "rule"},
    "keyway": {"width": "1/4", "depth": "1/8", "coupling_width": "1/4"},
    "top": {"job": "W" * 40},
}
KINDS = ("clean", "full", "metric", "right through")
each_page = pytest.mark.parametrize("page", ["a4", "letter"])


@pytest.fixture(scope="module")
def words() -> str:
    """In the order in which it is set, column after column."""
    return re.sub(r"\s+", " ", read(the_cut_sheet()).pages[0].extract_text())


@pytest.mark.parametrize(
    "said",
    [
        "Cut sheet Biscuit Barrel, single shaft for Wilmot Tarpley",
        "Quote Q-2026-000123, version 2, accepted 26 November 2026",
        "FG-7K2M9P, sheet version 1",
        "UNS S20910",
        "49.0000 in (1244.60 mm)",
        "49.3125 in (1252.54 mm)",
        "± 1/32 in (± 0.8 mm), common practice",
        "⌀ 0.8280 in (21.03 mm) ± 0.001 in (0.827 to 0.829)",
        "1:16 on diameter (0.7500 in per ft), C 2.7500 in",
        "0.2490 to 0.2500 in wide, 0.1250 to 0.1270 in deep",
        "3/4-10 UNC, right hand, G 1.4375 in",
        "hole for a 1/8 in cotter pin (verify before metal is cut)",
        "1/4 in square key, 0.1250 in (3.18 mm) deep at the side (ANSI B17.1)",
        "32 µin (0.8 µm) or better",
        "0.002 in per foot",
        "at most 0.005 in (0.13 mm) TIR",
        "8. Stamp with the quote's number.",
        "Face to thread end 48.969 to 49.031 in",
        "TIR, coupling end",
        "Made by, name and date Inspected by another, name and date",
        "Ring the desk before correcting anything.",
        # Section 6.4, point by point, what stands besides: bar, forward end, undercut, chain.
        "Sawn from ring: no piece held",
        "square, chamfered; recess 0 to 1/16 in behind",
        "0.0005 to 0.001 in clear (trade guidance) or a light drive fit",
        "shaft dimpled under each, wired or locked",
        "face run-out at most 0.002 in",
        "none in our copy of the table; the thread runs out clean",
        "corners with a fillet, radius and length to the key and hub in hand",
        "Bearing, aft end (strut) 44.1250",
        "the 7 pieces come to 49.3125 in (1252.54 mm) overall",
        "Bar: heat from the certificate",
        "Taper contact at least 70 %",
        "we do not certify strength",
    ],
)
def test_it_says_what_a_machinist_needs(words: str, said: str) -> None:
    assert said in words


def test_no_price_and_no_way_to_the_customer_but_the_name() -> None:
    said = "".join(texts(the_cut_sheet()))
    for secret in ("697.07", "180.00", "202 555", "owner", "valid until"):
        assert secret not in said


def test_the_drawing_and_the_table_carry_the_same_numbers() -> None:
    with pdfplumber.open(BytesIO(the_cut_sheet())) as paper:
        page = paper.pages[0]
        table_top = page.search("Stations, from the coupling face")[0]["top"]
        drawn = page.crop((0, 110, page.width, table_top)).extract_text()
        table = page.crop((0, table_top, page.width, table_top + 140)).extract_text()
    for row in the_cut().stations:
        assert row.inch in drawn, row.name
        assert row.mm in drawn, row.name
        assert f"{row.letter} {row.name} {row.inch}" in table


def test_fractions_are_set_as_fractions_and_read_as_such() -> None:
    """Raised, slash, small, in the order of reading, and the whole number stays apart."""
    with pdfplumber.open(BytesIO(the_cut_sheet())) as paper:
        signs = paper.pages[0].chars
    said = "".join(sign["text"] for sign in signs)
    at = said.index("47 9⁄16")
    seven, space, nine, slash, one = signs[at + 1 : at + 6]
    assert nine["size"] < seven["size"] == slash["size"]
    assert one["bottom"] > nine["bottom"] + 2, "nine is raised"
    assert space["text"] == " "


@each_page
@pytest.mark.parametrize("changes", [{}, FULL, METRIC, PASS_THROUGH], ids=KINDS)
def test_one_page_and_nothing_beyond_its_edges_or_over_its_foot(
    page: str, changes: dict[str, Any]
) -> None:
    with pdfplumber.open(BytesIO(cut_sheet_pdf(the_cut(**changes), page))) as paper:
        (only,) = paper.pages
        assert all(sign["x0"] >= 30 and sign["x1"] <= only.width - 30 for sign in only.chars)
        foot = only.search("we do not certify")[0]["top"]
        above = [w for w in only.extract_words() if w["top"] < foot - 14]
        lines = sorted({round(w["bottom"], 1) for w in above})
        ring = only.search(RING)[-1]["top"]
        assert lines[-1] < ring
        small = min(sign["size"] for sign in only.chars if sign["text"] != " ")
        assert small >= 4.3, "the under of a fraction is the smallest"


@each_page
@pytest.mark.parametrize("changes", [{}, FULL, METRIC, PASS_THROUGH], ids=KINDS)
def test_no_word_stands_on_another(page: str, changes: dict[str, Any]) -> None:
    with pdfplumber.open(BytesIO(cut_sheet_pdf(the_cut(**changes), page))) as paper:
        signs = [sign for sign in paper.pages[0].chars if sign["text"].strip()]
    signs.sort(key=lambda sign: sign["top"])
    for at, one in enumerate(signs):
        for other in signs[at + 1 :]:
            if other["top"] > one["bottom"]:
                break
            across = min(one["x1"], other["x1"]) - max(one["x0"], other["x0"])
            down = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            both_fraction = one["size"] != other["size"]
            assert across < 1.2 or down < 3.2 or both_fraction, (one["text"], other["text"], down)


def test_the_code_is_square_and_leads_to_this_page() -> None:
    with pdfplumber.open(BytesIO(the_cut_sheet())) as paper:
        figures = [e for e in walk(paper.structure_tree) if e["type"] == "Figure"]
    told = [figure["alt_text"] for figure in figures]
    assert any(the_cut().address in text for text in told)
    assert any("H, Tip of the cotter-pin nose: 49.3125 in" in text for text in told)


def test_headings_and_tables_are_tagged_and_fonts_embedded() -> None:
    tags = tags_of(the_cut_sheet())
    assert tags.count("H1") == 1
    assert tags.count("Table") == 2
    assert {"TH", "TD", "TR", "H2", "P", "LI", "Figure"} <= set(tags)
    paper = read(the_cut_sheet())
    assert paper.trailer["/Root"]["/MarkInfo"].get_object()["/Marked"]
    assert paper.metadata.title == "Cut sheet, quote Q-2026-000123, version 2"
    fonts = paper.pages[0]["/Resources"]["/Font"].values()
    assert all("/FontFile2" in font.get_object()["/FontDescriptor"].get_object() for font in fonts)


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        (METRIC, "the propeller end"),
        (PASS_THROUGH, "the front end of a shaft right through"),
        ({"coupling_bore": {"kind": "taper"}}, "the taper at the coupling"),
    ],
)
def test_what_is_not_known_is_said_and_the_sheet_is_not_to_be_cut_from(
    changes: dict[str, Any], missing: str
) -> None:
    facts = the_cut(**changes)
    assert not facts.cuttable
    said = texts(cut_sheet_pdf(facts))[0]
    assert said.startswith("Otterhithe Shaft Desk Not to be cut from: ring the desk")
    assert f"Not known: {missing}" in said
    assert "not known: ring the desk" in said
    assert "As made" not in said
    assert "Made by" not in said, "nobody signs it"


def test_the_same_facts_make_the_same_bytes_in_another_process() -> None:
    code = (
        "import sys; from tests.quotes.paper.cut_sheets import the_cut_sheet;"
        "sys.stdout.buffer.write(the_cut_sheet())"
    )
    again = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
    assert again.stdout == the_cut_sheet()
    assert cut_sheet_pdf(replace(the_cut(), number="Q-2026-000124")) != the_cut_sheet()


@given(st.text(max_size=300))
@settings(max_examples=25, deadline=None)
def test_whatever_is_written_one_page_comes(text: str) -> None:
    facts = replace(the_cut(), customer=text, boat=text, job=text[:40])
    assert len(read(cut_sheet_pdf(facts)).pages) == 1


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.inch_text)
def test_every_size_is_drawn_in_order_and_on_the_paper(size: Length) -> None:
    made = chain(a_stack(size, inches(90)), coupling=inches(3), bearing=inches(6))
    shaft = Shaft("inch", size, "S20910", "conventional", made.length, made.overall,
                  "straight", "3/4-10", "1/4")  # fmt: skip
    drawing = cut_drawing(made, station_rows(made), shaft, inches("5/8"))
    texts_drawn = [one for one in drawing.shapes if isinstance(one, Text)]
    assert all(one.span[0] >= 0 and one.span[1] <= WIDE for one in texts_drawn)
    letters = [one.x for one in texts_drawn if len(one.text) == 1]
    assert letters == sorted(letters)
    assert len(letters) == len(made.stations)


def test_decimals_of_a_shop() -> None:
    assert decimal_inches(inches("1/64")) == "0.015625"
    assert decimal_inches(-inches("3 15/16")) == "-3.9375"


@pytest.mark.parametrize(
    ("size", "said"),
    [
        ("25", ("1:10 (ISO 4566), 53 to 55 mm long", "19.50 to 19.70 mm", "M16x1.5, 25 mm long",
                "key 6 mm wide (ISO 4566)")),
        ("30", ("1:10 (ISO 4566), 70 to 75 mm long", "22.50 to 23.00 mm", "M20x1.5, 30 mm long",
                "8x7 mm key (ISO 4566)")),
    ],
)  # fmt: skip
def test_metric_ends_print_the_rows_that_were_seen_and_ask_the_rest(
    size: str, said: tuple[str, ...]
) -> None:
    """ISO 4566 as far as its rows were seen: 25 and 30 mm; the length of the taper is a range."""
    rows = end_rows("mm", mm(size))
    shaft = Shaft("mm", mm(size), "1.4462", "conventional", mm(1400), mm(1400), "straight",
                  standard_thread("mm", mm(size)), "")  # fmt: skip
    made = chain(a_stack(system="mm", nominal={"mm": size}))
    words = " ".join(value for _label, value in propeller_end(shaft, made, rows))
    for each in said:
        assert each in words
    assert "ring the desk" in words
    assert not_known(shaft, made), "a range is not a length to cut"
