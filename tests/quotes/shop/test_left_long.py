"""A shaft left long for a yard to face: priced, sawn, drawn, measured and sent by that length."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.urls import reverse

from catalog.domain.lengths import Length, inches, mm
from intake.domain.reading import read_sheet
from intake.evaluate import evaluate
from quotes.domain.as_made import AsMade, Made, accepted
from quotes.domain.as_made_verdict import Verdict, judge
from quotes.domain.choice import NO_CHOICE, Choice
from quotes.domain.cut_words import CutRow, cut_facts, small_end, stored_chain
from quotes.domain.fitting import left_long_steps
from quotes.domain.kept_price import again, kept
from quotes.domain.nesting import bar_needed
from quotes.domain.order import Order, read_order
from quotes.domain.packing import PackingRow, packing_facts, pounds, tube_length
from quotes.domain.pricing import Priced, price
from quotes.domain.rates import Rates
from quotes.domain.stations import FACE, LEFT, THREAD, left_long
from quotes.inspecting import services as inspecting
from quotes.inspecting.selectors import finished_length, made_length
from quotes.models import Quote
from quotes.outcomes.selectors import expected_of
from quotes.paper.cut_sheet import cut_sheet_pdf
from quotes.sending import services as sending
from quotes.shop import services as shop
from quotes.stock.models import Hold
from quotes.stock.wants import wants_of
from tests.given import a_body, demo_stock
from tests.quotes.given import an_accepted, stock_the_shelf
from tests.quotes.paper.papers import texts
from tests.quotes.shop.shafts import a_made, inspected
from tests.staff.given import a_member, logged_in

INCH_LONG = Choice(options=frozenset({"long:25.4"}))
ROW = CutRow("Desk", "Q-2026-000001", 1, 1, "FG-1", "today", "https://example.org/x")


def sheet() -> tuple[dict[str, Any], dict[str, Any]]:
    body = a_body()
    return body, evaluate(read_sheet(body), demo_stock()).as_record()


def the_order(choice: Choice = INCH_LONG) -> Order:
    return read_order(*sheet(), choice)


def priced(choice: Choice) -> Priced:
    return price(the_order(choice), demo_stock(), Rates())


# --- Lengths and prices -------------------------------------------------------------------


def test_it_is_an_inch_longer_where_it_is_sawn_and_carried_and_as_long_in_the_boat() -> None:
    shaft = the_order().shaft
    assert shaft
    assert (shaft.length, shaft.sent) == (inches(49), inches(50))
    assert shaft.sent_overall == shaft.overall + inches(1)
    assert tube_length(shaft, Rates()) == inches(54)  # 50 in and 4 in (common practice)
    assert bar_needed(shaft.sent_overall) - bar_needed(shaft.overall) == inches(1)


def test_bar_tube_and_freight_go_by_the_longer_length() -> None:
    """An inch of bar at 3.60 and an inch of tube at the catalogue's price (invented)."""
    plain, longer = priced(NO_CHOICE), priced(INCH_LONG)
    each = demo_stock().part("SV-TUBE-IN")
    assert each
    assert longer.goods - plain.goods == Decimal("3.60") + each.price
    assert "tube 54 in" in longer.freight_words


def test_a_longer_freight_class_is_reached_by_what_is_left_on() -> None:
    """24 in left on: 73 in and the tube's 4 in are over the class that ends at 72 in."""
    much = Choice(options=frozenset({"long:609.6"}))
    assert priced(much).freight > priced(NO_CHOICE).freight


def test_the_price_is_made_again_from_what_was_kept() -> None:
    order = the_order()
    assert again(kept(order, demo_stock(), Rates())).total == priced(INCH_LONG).total


def test_it_weighs_what_is_left_on_too() -> None:
    """A cylinder of an inch: pi/4 · 1² · 1 · 0.285 lb (density as in the table of metals)."""
    longer, plain = the_order().shaft, the_order(NO_CHOICE).shaft
    made = stored_chain(*sheet())
    assert longer
    assert plain
    assert made
    more = pounds(longer, made, small_end(longer)) - pounds(plain, made, small_end(plain))
    assert abs(more - Decimal("0.2238")) < Decimal("0.003")


# --- The papers ---------------------------------------------------------------------------


def test_the_cut_sheet_says_how_long_it_is_cut_and_to_what_the_yard_faces_it() -> None:
    facts = cut_facts(ROW, *sheet(), the_order())
    assert facts.length.startswith("50.0000 in")
    assert facts.length_label == "End as cut to end of threads"
    said = dict(facts.forward)["Left long"]
    assert said.startswith("by 1 in")
    assert "the yard faces it to 49 in" in said
    assert facts.boxes[0].within == "49.969 to 50.031 in"
    assert not any("left 1/8 in" in line for line in facts.work)
    printed = " ".join(texts(cut_sheet_pdf(facts)))
    assert "faces it to 49 in" in printed


def test_a_sheet_that_is_not_left_long_says_nothing_of_it() -> None:
    facts = cut_facts(ROW, *sheet(), the_order(NO_CHOICE))
    assert facts.length.startswith("49.0000 in")
    assert "left long" not in str(facts).lower()


def test_no_station_moves_for_what_is_left_on() -> None:
    made = stored_chain(*sheet())
    assert made
    longer = left_long(made, inches(1))
    assert longer.at(LEFT) == -inches(1)
    assert (longer.at(FACE), longer.at(THREAD)) == (Length(0), inches(49))
    assert longer.overall - made.overall == inches(1)
    assert sum(one.length.nm for one in longer.pieces) == longer.overall.nm
    assert left_long(made, Length(0)) == made


def test_a_shaft_through_the_gearbox_is_longer_at_its_front() -> None:
    made = stored_chain(*sheet())
    assert made
    front = replace(made.stations[0], key="front", x=-inches(3))
    piece = replace(made.pieces[0], start="front", end="face", length=inches(3))
    through = replace(made, stations=(front, *made.stations), pieces=(piece, *made.pieces))
    longer = left_long(through, inches(1))
    assert longer.at("front") == -inches(4)
    assert longer.pieces[0].length == inches(4)
    assert longer.at(LEFT) is None


def test_packing_list_and_fitting_card_say_it() -> None:
    order, made = the_order(), stored_chain(*sheet())
    assert order.shaft
    assert made
    row = PackingRow("Desk", "Q-1", 1, "FG-1", "", "", "", "", [])
    facts = packing_facts(row, order, made, small_end(order.shaft), Rates(), order.shaft.sent)
    assert "left long by 1 in" in facts.things[0].text
    assert "faces it to 49 in" in facts.things[0].text
    assert facts.tube.startswith("54 in")
    (step,) = left_long_steps(order.shaft)
    assert "49 in" in step


# --- As made ------------------------------------------------------------------------------


def made_at(text: str) -> Made:
    wanted = accepted(sheet()[1]["stack"], has_coupling=False, left_long=inches(1))
    runout = dict.fromkeys(("coupling", "bearing", "taper"), inches("0.001"))
    made = AsMade(inches(text), "caliper", small_end=inches("0.828"), runout=runout, contact=80)
    return Made(wanted, made)


def test_as_long_as_it_was_to_be_left_it_passes_with_the_gap_it_will_make() -> None:
    made = made_at("50")
    assert judge(made).verdict == Verdict.PASS
    assert made.gap == mm(sheet()[1]["stack"]["predicted_gap"])
    assert "once 1.000 in" in judge(made).notes[0]


def test_cut_to_the_finished_length_the_desk_is_rung_and_nothing_is_scrapped() -> None:
    """There is nothing left to face, and the shaft is as long as it must be."""
    judged = judge(made_at("49"))
    assert judged.verdict == Verdict.RING
    assert "The yard has 0.000 in" in judged.advice[0]


def test_shorter_than_it_must_be_it_is_short() -> None:
    assert judge(made_at("48 1/2")).verdict == Verdict.SCRAP


# --- Through the shop ---------------------------------------------------------------------


@pytest.fixture
def bronagh(db: None) -> User:
    stock_the_shelf()
    return a_member("bronagh", "machinist")


def chosen_long(quote: Quote) -> Quote:
    """As it is kept with a quote that was priced with that choice."""
    choice = {"alloy": "", "options": ["long:25.4"]}
    Quote.objects.filter(pk=quote.pk).update(inputs={**quote.inputs, "choice": choice})
    return Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)


@pytest.mark.django_db
def test_bench_and_boat_know_both_lengths(bronagh: User) -> None:
    quote = chosen_long(a_made(bronagh))
    inspected(quote, bronagh, length="50", face="")
    assert (made_length(quote), finished_length(quote)) == (inches(50), inches(49))
    foreseen = expected_of(quote)
    assert foreseen
    assert foreseen.length == inches(49)
    page = logged_in(bronagh).get(reverse("shop-shaft", args=[quote.submission.reference]))
    said = " ".join(page.content.decode().split())
    assert "left long by 1 in" in said
    assert "the yard faces it to 49 in" in said
    assert sending.reckoned(quote)[0] == inches(54)
    card = " ".join(texts(sending.fitting_card(quote)))
    assert "left long by 1 in" in card
    assert inspecting.promised(quote).length == inches(50)


@pytest.mark.django_db
def test_the_bar_that_is_held_is_long_enough(bronagh: User) -> None:
    quote = an_accepted(days_ago=0)
    held = Hold.objects.get(quote=quote, line="shaft")
    (bar, *_rest) = wants_of(chosen_long(quote))
    assert bar.needed - held.needed == inches(1)
    assert shop.facts_of(chosen_long(quote)).length.startswith("50.0000 in")
