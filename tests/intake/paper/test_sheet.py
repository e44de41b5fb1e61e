"""The measuring sheet: one page, the drawing's letters and the boxes', the code, the draft."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from io import BytesIO
from typing import Any

import pdfplumber
import pytest
import segno

from intake.measuring_sheet import LETTERS, sheet_facts
from intake.paper.sheet import sheet_pdf
from intake.paper.sheet_facts import Code, SheetFacts
from intake.short_path import DIAMETER, FACE, GAP, Plan
from tests.intake.paper.geometry import MM, Page, outside, pages, walk
from tests.quotes.paper.papers import read

LINK = "https://desk.example.org/guided/#h=0123456789abcdefghijkl"
CODE = Code(LINK, ("Point a camera here to go on with this draft", "Until noon."))
TYPED: dict[str, Any] = {
    "tape_unit": "in",
    "wants": ["shaft", "coupling"],
    "contact.name": "Wilmot Tarpley",
    "contact.email": "w@example.org",
    "contact.role": "yard",
    "answers.boat_name_and_station.name": "Biscuit Barrel",
    "answers.boat_name_and_station.station": "port",
    "answers.drive_layout": "inline",
    "answers.dia_clean.text": "1 1/8",
    "answers.dia_clean.method": "paper_strip",
    "answers.face_to_strut_aft.text": "44 5/8",
    "answers.face_to_strut_aft.method": "rod",
    "answers.gap_now.text": "19 mm",
    "answers.hub_length.state": "cannot_measure",
    "answers.old_length_face_to_thread.text": "49 3/8",
    "answers.bearing_length.count": "2",
    "answers.water.weeks_idle": "6",
}
PASSING = {"answers.drive_layout": "v_pass_through"}
either_size = pytest.mark.parametrize("size", ["a4", "letter"])


def facts(**typed: Any) -> SheetFacts:
    return sheet_facts(typed, CODE)


@cache
def the_sheet(size: str = "a4") -> bytes:
    return sheet_pdf(facts(), size=size)


@cache
def the_page(size: str = "a4") -> Page:
    (page,) = pages(the_sheet(size))
    return page


def page_of(given: SheetFacts, size: str = "letter") -> Page:
    """Exactly one page."""
    (page,) = pages(sheet_pdf(given, size=size))
    return page


# --- One page ---------------------------------------------------------------------------


@pytest.mark.parametrize(("size", "wide", "high"), [("a4", 210, 297), ("letter", 215.9, 279.4)])
def test_one_page_of_the_size_asked_for(size: str, wide: float, high: float) -> None:
    page = the_page(size)
    assert (page.wide, page.high) == pytest.approx((wide, high), abs=0.01)


@either_size
@pytest.mark.parametrize("typed", [{}, TYPED, {**TYPED, **PASSING}], ids=["empty", "full", "V"])
def test_nothing_leaves_the_printable_part(size: str, typed: dict[str, Any]) -> None:
    assert outside(page_of(facts(**typed), size), 8.0) == []


@either_size
def test_the_last_answer_stands_above_the_foot(size: str) -> None:
    """Also where a drive asks one length more and the whole sheet is filled."""
    page = page_of(facts(**{**TYPED, **PASSING}), size)
    last = max(sign["bottom"] for sign in page.chars if sign["text"] == "6")
    foot = next(sign["top"] for sign in reversed(page.chars) if sign["text"] != " ")
    assert last < foot + 0.5


@either_size
def test_a_language_a_third_longer_still_fits_one_page(size: str) -> None:
    def longer(text: str) -> str:
        return f"{text} {'palabra ' * (len(text) // 24)}".strip()

    given = facts(**{**TYPED, **PASSING})
    measures = tuple(
        replace(
            one,
            ask=longer(one.ask),
            name=longer(one.name),
            ways=tuple(replace(way, words=longer(way.words)) for way in one.ways),
        )
        for one in given.measures
    )
    choices = tuple(replace(one, name=f"{one.name} palabra") for one in given.choices)
    longest = replace(
        given, measures=measures, choices=choices, lead=longer(given.lead),
        cautions=tuple(map(longer, given.cautions)), foot=longer(given.foot),
    )  # fmt: skip
    page = page_of(longest, size)
    assert outside(page, 8.0) == []
    lowest = max(s.y[1] for s in page.strokes)
    signs = [sign for sign in page.chars if sign["text"] != " "]
    assert signs[-1]["top"] * MM > lowest - 0.5  # the foot stands below every box


@either_size
def test_embedded_and_small(size: str) -> None:
    assert len(the_sheet(size)) <= 80_000
    for font in read(the_sheet(size)).pages[0]["/Resources"]["/Font"].values():
        assert "/FontFile2" in font.get_object()["/FontDescriptor"].get_object()


def test_the_same_facts_make_the_same_bytes() -> None:
    assert sheet_pdf(facts(**TYPED), size="a4") == sheet_pdf(facts(**TYPED), size="a4")


def test_it_is_tagged_and_says_its_title_and_language() -> None:
    paper = read(sheet_pdf(facts(), size="a4", language="es"))
    root = paper.trailer["/Root"]
    assert root["/Lang"] == "es"
    assert root["/MarkInfo"].get_object()["/Marked"]
    assert paper.metadata.title == "Measuring sheet"
    with pdfplumber.open(BytesIO(the_sheet())) as pdf:
        elements = list(walk(pdf.structure_tree))
    tags = [element["type"] for element in elements]
    assert tags.count("H1") == 1
    assert tags.count("Figure") == 2  # the code, the drawing
    assert tags.count("TR") == 10  # the heads, nine numbers
    assert all(len(e["alt_text"]) > 20 for e in elements if e["type"] == "Figure")


# --- Questions and letters --------------------------------------------------------------


def test_every_box_has_its_letter_in_the_drawing() -> None:
    drawing = next(s for s in {s.figure for s in the_page().strokes} if s.startswith("Drive line"))
    with pdfplumber.open(BytesIO(the_sheet())) as pdf:
        page = pdf.pages[0]
        (mcid,) = [
            mcid for e in walk(page.structure_tree) if e.get("alt_text", "") == drawing
            for mcid in e["mcids"]
        ]  # fmt: skip
        drawn = [sign["text"] for sign in page.chars if sign["mcid"] == mcid]
    letters = [one.letter for one in facts().measures]
    assert sorted(set(letters)) == list("ABCDEFGH")
    assert sorted(sign for sign in drawn if sign.isupper()) == sorted(set(letters))


def test_no_length_is_drawn_that_is_not_asked() -> None:
    words = " ".join(stroke.figure for stroke in the_page().strokes)
    assert "Drive line" in words
    for word in ("tail", "overall"):
        assert f" {word} " not in the_page().text


def test_a_drive_that_is_passed_through_asks_one_length_more() -> None:
    given = facts(**PASSING)
    assert [one.slug for one in given.measures][2:4] == [
        "face_to_strut_aft.again", "gearbox_through",
    ]  # fmt: skip
    assert "K Through the gearbox" in page_of(given).text
    assert "K" not in {one.letter for one in facts().measures}


@pytest.mark.parametrize("plan", [DIAMETER, FACE, GAP])
def test_a_box_has_the_questions_own_words_and_ways(plan: Plan) -> None:
    text = the_page().text
    assert str(plan.ask) in text
    assert f"{LETTERS[plan.slug]} {plan.boxes[0].label}" in text
    for _value, words in plan.boxes[1].options:
        assert str(words) in text


def test_every_number_can_be_in_either_system_or_not_measurable() -> None:
    assert len(re.findall(r"\bin mm\b", the_page().text)) == 9
    for one in facts().measures:
        assert [tick.words for tick in one.unit] == ["in", "mm"]
    assert the_page().text.count("can't") >= 7


@pytest.mark.parametrize(
    "said",
    ["keel is blocked", "Battery off", "Your name", "Boat", "Which shaft", "her only shaft",
     "Measured on (day)", "straight back from the engine", "bolted up tight", "Tape",
     "millimetres", "Hub points", "brackish", "Tape began at"],
)  # fmt: skip
def test_it_asks_what_the_short_path_asks(said: str) -> None:
    assert said in the_page().text


# --- The draft --------------------------------------------------------------------------


@pytest.mark.parametrize(
    "said",
    ["Wilmot Tarpley", "w@example.org", "Biscuit Barrel", "1 1/8", "44 5/8", "19 mm", "49 3/8",
     "× paper strip", "× rod", "× port", "× the yard", "× inches", "× shaft coupling",
     "× straight back from the engine", "× can't", "× two, end to end"],
)  # fmt: skip
def test_a_draft_fills_the_sheet(said: str) -> None:
    assert said in page_of(facts(**TYPED)).text
    assert said not in the_page().text


def test_the_tapes_unit_is_ticked_only_where_the_number_says_none() -> None:
    by_slug = {one.slug: one for one in facts(**TYPED).measures}
    assert [tick.on for tick in by_slug["dia_clean"].unit] == [True, False]
    assert [tick.on for tick in by_slug["gap_now"].unit] == [False, False]
    assert [tick.on for tick in by_slug["shell_od"].unit] == [False, False]


def test_a_first_reading_is_not_shown_while_a_second_is_to_be_taken_blind() -> None:
    alone = {key: value for key, value in TYPED.items() if "old_length" not in key}
    text = page_of(facts(**alone)).text
    assert "44 5/8" not in text
    assert "hidden for a blind second reading" in text
    again = {**alone, "answers.face_to_strut_aft.again.text": "44 9/16"}
    text = page_of(facts(**again)).text
    assert "44 5/8" in text
    assert "44 9/16" in text


@pytest.mark.parametrize("words", ["<b>Barge</b> &amp;", "W" * 400, "王 Łódź", "\u202eabc", ""])
def test_whatever_is_typed_stays_words_on_the_page(words: str) -> None:
    typed = {key: words for key in TYPED if key not in ("wants",)} | {"wants": [words]}
    assert outside(page_of(facts(**typed)), 8.0) == []


# --- The code ---------------------------------------------------------------------------


def modules(page: Page) -> list[list[bool]]:
    """The dark squares of the code on the page, as rows."""
    squares = page.figure("Point a camera here")
    left, top = min(s.x[0] for s in squares), min(s.y[0] for s in squares)
    side = min(s.long for s in squares)
    dark = {(round((s.y[0] - top) / side), round((s.x[0] - left) / side)) for s in squares}
    count = max(max(row, column) for row, column in dark) + 1
    return [[(row, column) in dark for column in range(count)] for row in range(count)]


def test_the_code_is_the_link_by_another_encoder() -> None:
    """62 bytes fill a code of this size: two encoders may fill up differently, readers skip it.

    Which of the eight masks is best is left to the encoder too; every one reads the same.
    """
    link = f"{LINK}mnopq"
    drawn = modules(page_of(sheet_facts({}, Code(link, CODE.words))))
    encoded = [
        segno.make(link, error="m", boost_error=False, micro=False, mask=mask, mode="byte")
        for mask in range(8)
    ]
    assert len(link) == 62
    assert drawn in [[[bool(one) for one in row] for row in code.matrix] for code in encoded]


def test_the_code_can_be_pointed_at_and_typed() -> None:
    squares = the_page().figure("Point a camera here")
    assert min(s.long for s in squares) >= 0.4  # mm: what a phone still tells apart
    left = max(s.x[1] for s in squares)
    assert the_page().wide - left > 9  # its quiet zone and the margin
    assert LINK in the_page().text.replace(" ", "")
    assert "Until noon." in the_page().text
