"""Names as people really have them: set whole, or said aloud that they are not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.paper.fonts import SUBSTITUTE, printable
from quotes.paper.fractions import with_fractions
from quotes.paper.quote import quote_pdf
from quotes.paper.unset import IN_OTHER_LETTERS, not_whole
from tests.quotes.paper.papers import elements, texts, the_facts

NOTE = "Not whole on this paper:"
ARABIC, CHINESE = "\u0645\u062d\u0645\u062f", "\u738b\u5c0f\u660e"  # Muhammad; Wang Xiaoming


def first_page(**changes: str) -> str:
    return texts(quote_pdf(replace(the_facts(), **changes)))[0]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "name",
    ["<b>Bold</b> &amp; Co", "Łódź Ørn Ğüneş", "Ελένη", "Наталья", "Nguyễn Thị Hạnh", "e\u0301lan"],
)
def test_what_our_letters_have_is_set_as_it_was_written(name: str) -> None:
    page = first_page(customer=name)
    assert printable(name) in page
    assert NOTE not in page


@pytest.mark.parametrize("name", [ARABIC, CHINESE, f"{CHINESE} {CHINESE}", "\U0001f6a4\U0001f6a4"])
def test_a_name_in_other_letters_is_never_set_wrong_and_the_note_names_it(name: str) -> None:
    page = first_page(customer=name)
    assert IN_OTHER_LETTERS in page
    assert f"{NOTE} the customer's name." in page
    assert "The true spelling is on your status page" in page
    assert not set(name) - {" "} & set(page)


def test_a_name_in_other_letters_is_read_out_as_it_is_written() -> None:
    pdf = quote_pdf(replace(the_facts(), customer=ARABIC))
    assert ARABIC in {element.get("actual_text") for element in elements(pdf)}


def test_a_boat_in_other_letters_keeps_its_side() -> None:
    boat = {"name": CHINESE, "station": "port"}
    page = texts(quote_pdf(the_facts(boat_name_and_station=boat)))[0]
    assert f"{IN_OTHER_LETTERS}, port shaft" in page
    assert f"{NOTE} the boat's name." in page


def test_a_name_partly_in_our_letters_shows_where_a_sign_is_missing() -> None:
    page = first_page(customer=f"{CHINESE[0]} Łódź Ørn", job=f"12{CHINESE}34567")
    assert f"{SUBSTITUTE} Łódź Ørn" in page
    assert f"12{SUBSTITUTE * 3}34567" in page
    assert f"{NOTE} the customer's name, your order number." in page


def test_a_mark_that_cannot_stand_on_its_letter_is_not_dropped_in_silence() -> None:
    page = first_page(customer="Xavier m\u0302")
    assert "Xavier m" in page
    assert f"{NOTE} the customer's name." in page


def test_marks_that_only_turn_the_direction_are_no_loss() -> None:
    assert not_whole(replace(the_facts(), customer="a\u202eb\u200f\u00adc")) == ()


def test_a_line_or_a_typed_number_that_is_not_whole_is_named_too() -> None:
    facts = the_facts()
    lines = (replace(facts.lines[0], text=f"Bar {CHINESE}"), *facts.lines[1:])
    readings = (replace(facts.readings[0], typed=f"1 {CHINESE}"), *facts.readings[1:])
    facts = replace(facts, lines=lines, readings=readings)
    assert not_whole(facts) == ("a number as you wrote it", "a line of the price")


def test_nobody_and_no_boat_are_said() -> None:
    boat = {"name": "", "station": "port"}
    facts = the_facts(boat_name_and_station=boat, top={"contact": {"phone": "+1 202 555 0100"}})
    page = texts(quote_pdf(facts))[0]
    assert "Name not given" in page
    assert "Boat not named, port shaft" in page
    assert "No order number of yours given" in page


def test_what_looks_like_a_fraction_in_a_name_or_number_of_theirs_stays() -> None:
    pdf = quote_pdf(replace(the_facts(), customer="Dock 1/2", job="PO 3/4"))
    words = {e.get("actual_text") for e in elements(pdf)}
    assert not any(text and ("Dock" in text or "PO" in text) for text in words)


def test_fractions_are_set_as_signs_and_read_out_as_numbers() -> None:
    assert with_fractions("49 5/16 in overall") == "49 ⁵⁄₁₆ in overall"
    assert with_fractions("12/25, 3/4/26, 9/8 in") == "12/25, 3/4/26, 9/8 in"
    read_out = {e.get("actual_text") for e in elements(quote_pdf(the_facts()))}
    assert "49 5/16 in · 1252.5 mm" in read_out
