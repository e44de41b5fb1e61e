"""The paper flows: no text over another, none off the page, one to three pages, nothing lost."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from typing import Any

import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.domain.facts import QuoteFacts
from quotes.paper.quote import quote_pdf
from tests.quotes.paper.besides import ADDRESS, everything, full_facts, full_paper
from tests.quotes.paper.papers import texts, the_facts

_INSIDE_MM = 10 * 72 / 25.4  # a printer's edge


def words_of(pdf: bytes) -> list[list[Any]]:
    with pdfplumber.open(BytesIO(pdf)) as paper:
        return [
            page.extract_words(x_tolerance=1.5, keep_blank_chars=False, use_text_flow=False,
                               extra_attrs=["size"])
            for page in paper.pages
        ]  # fmt: skip


def overlaps(words: list[Any]) -> list[tuple[str, str]]:
    """Pairs of words whose ink meets: their boxes less the room for tall letters that few have."""
    boxes = []
    for word in words:
        trim = 0.22 * word["size"]
        boxes.append((word["x0"] + 0.3, word["top"] + trim, word["x1"] - 0.3, word["bottom"] - trim,
                      word["text"]))  # fmt: skip
    boxes.sort(key=lambda one: one[1])
    found = []
    for at, one in enumerate(boxes):
        for other in boxes[at + 1 :]:
            if other[1] >= one[3]:
                break
            if one[0] < other[2] and other[0] < one[2]:
                found.append((one[4], other[4]))
    return found


def assert_well_set(pdf: bytes, most_pages: int = 3) -> None:
    pages = words_of(pdf)
    assert 1 <= len(pages) <= most_pages
    for words in pages:
        assert overlaps(words) == []
        assert min(w["x0"] for w in words) >= _INSIDE_MM
        assert max(w["x1"] for w in words) <= 595.28 - _INSIDE_MM
        assert min(w["top"] for w in words) >= 0.7 * _INSIDE_MM
        assert max(w["bottom"] for w in words) <= 841.89 - 0.6 * _INSIDE_MM
        assert min(w["size"] for w in words) >= 3.0


def test_a_paper_with_everything_is_well_set() -> None:
    assert_well_set(full_paper())


def test_a_plain_shaft_takes_two_pages_and_parts_alone_one() -> None:
    assert_well_set(quote_pdf(the_facts()), most_pages=2)
    parts = the_facts(everything(alloys=(), offers=(), photos=()), top={"wants": ["bearing"]})
    assert_well_set(quote_pdf(parts), most_pages=1)


WORDS = "The mounts are soft and the packing old, so keep a wide gap and look again in spring"


def crowded(lines: int, readings: int, name: str, note: str = WORDS) -> QuoteFacts:
    """A quote such as nobody ever had: the real lines over and over, every option, three metals."""
    facts = full_facts()
    every = facts.lines * (lines // len(facts.lines) + 1)
    return replace(
        facts,
        customer=name,
        boat=name,
        job=name[:40],
        notes=(note, note),
        lines=tuple(replace(one, text=f"{at}: {one.text}") for at, one in enumerate(every[:lines])),
        readings=tuple(
            replace(facts.readings[1], label=f"{at}: {note}"[:60]) for at in range(readings)
        ),
        options=tuple(replace(one, why=note) for one in facts.options),
        alloys=tuple(replace(one, words=note, margin=note) for one in facts.alloys),
    )


@pytest.mark.parametrize("name", ["A" * 300, "word " * 60])
def test_the_longest_paper_still_holds_on_three_pages(name: str) -> None:
    pdf = quote_pdf(crowded(40, 60, name.strip()))
    assert_well_set(pdf)
    told = " ".join(texts(pdf))
    assert [at for at in range(40) if f"{at}: " not in told] == []
    assert "more, on your status page" in told
    assert told.count("Stainless pits") == 1


@given(
    st.integers(0, 40),
    st.integers(0, 60),
    st.text(st.characters(codec="utf-8"), max_size=300),
    st.text("abc defg hij 1/2,.-–éß", min_size=1, max_size=120),
)
@settings(max_examples=6, deadline=None)
def test_whatever_comes_nothing_meets_and_nothing_leaves_the_page(
    lines: int, readings: int, name: str, note: str
) -> None:
    assert_well_set(quote_pdf(crowded(lines, readings, name, note)))


def test_what_no_three_pages_hold_takes_a_fourth_rather_than_lose_a_line() -> None:
    facts = crowded(30, 5, "Wilmot Tarpley")
    lines = tuple(replace(one, text=f"{one.text}, {WORDS}", how=WORDS) for one in facts.lines)
    pdf = quote_pdf(replace(facts, lines=lines * 2))
    assert_well_set(pdf, most_pages=5)
    told = " ".join(texts(pdf))
    assert [at for at in range(30) if told.count(f" {at}: ") < 2] == []


def test_readings_run_over_onto_the_next_page_before_any_is_left_out() -> None:
    facts = the_facts()
    every = tuple(replace(facts.readings[1], label=f"Number {at}") for at in range(60))
    told = " ".join(texts(quote_pdf(replace(facts, readings=every))))
    assert all(f"Number {at} " in told for at in range(60))
    assert "more, on your status page" not in told


def test_more_photos_than_fit_are_counted() -> None:
    facts = full_facts()
    told = " ".join(texts(quote_pdf(replace(facts, photos=facts.photos * 2))))
    assert "and 4 more photos, on your status page" in told


def test_a_long_address_is_printed_whole() -> None:
    address = ADDRESS.replace("desk", "a-desk-with-a-long-name.on-the-north-quay")
    pdf = quote_pdf(replace(full_facts(), address=address))
    assert_well_set(pdf)
    told = "".join(texts(pdf)).replace(" ", "")
    assert address.rpartition("/")[2] in told


def test_the_foot_counts_the_pages() -> None:
    pages = texts(full_paper())
    assert [f"page {at} of {len(pages)}" in page for at, page in enumerate(pages, 1)] == [
        True for _page in pages
    ]
