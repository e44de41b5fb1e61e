"""What is left of a bar, too short to sell, is priced the same wherever a whole price is shown."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from catalog.domain.lengths import inches
from catalog.pieces.models import Piece
from quotes.choosing.page import choice_page
from quotes.choosing.selectors import on_offer
from quotes.choosing.services import choose
from quotes.domain.kept_price import again
from quotes.making import order_of
from quotes.models import Quote
from quotes.services import requote
from quotes.stock.selectors import left_over_of
from tests.intake.desk_given import a_call
from tests.quotes.given import a_quote, a_quoter, stock_the_shelf
from tests.quotes.stock.given import NEEDED, a_rack, accept

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def drop_of(quote: Any) -> list[dict[str, Any]]:
    return [line for line in quote.lines if "left" in line["text"].lower()]


def test_a_short_end_is_charged_at_half_the_bars_rate() -> None:
    """Trade sum: half rate for a remnant under 24 in; 60 in less 49 9/16 leaves 10 7/16 (invented
    prices: 3.60 an inch)."""
    a_rack(60)
    quote = a_quote()
    (drop,) = drop_of(quote)
    assert Decimal(drop["amount"]) == Decimal("18.79")  # 10.4375 × 1.80 = 18.7875
    assert quote.goods == Decimal("613.15") + Decimal("18.79")
    assert again(quote.inputs).total == quote.total


def test_a_long_end_goes_back_to_the_rack_and_costs_nothing() -> None:
    a_rack(144)
    quote = a_quote()
    assert drop_of(quote) == []
    assert quote.total == Decimal("697.07")


def test_every_page_shows_the_same_whole_price() -> None:
    a_rack(60)
    quote = a_quote()
    chosen = on_offer(quote.sheet).columns()[0]
    assert chosen.total == quote.total
    desk = Client()
    desk.force_login(a_quoter(), backend="django.contrib.auth.backends.ModelBackend")
    running = desk.post(reverse("desk-price"), a_call()).content.decode()
    assert str(quote.total) in running


def test_asking_again_for_the_same_makes_no_new_version() -> None:
    a_rack(60)
    quote = a_quote()
    assert requote(quote.submission_id) == quote


def the_column(quote: Quote) -> Decimal | None:
    shown = choice_page(quote.sheet, quote, None, staff=True)
    assert shown
    return next(one.column.total for one in shown.alloys if one.column.chosen)


def test_a_bar_sawn_for_somebody_else_changes_no_price_that_was_offered() -> None:
    """The 60 in bar is gone, a new one has come: the offer stands, and its pages say the same."""
    a_rack(60)
    quote = a_quote()
    Piece.objects.update(gone_at=timezone.now())
    a_rack(144, paper="DN 2")
    assert left_over_of(order_of(quote)) == inches(144) - NEEDED
    assert requote(quote.submission_id) == quote
    assert the_column(quote) == quote.total


def test_an_order_that_holds_its_own_bar_is_priced_as_it_was() -> None:
    a_rack(60)
    quote = accept(a_quote())
    assert left_over_of(order_of(quote)) is None, "its own hold takes the bar away"
    assert requote(quote.submission_id, a_quoter()) == quote


def test_another_shaft_is_looked_up_anew() -> None:
    a_rack(60)
    quote = a_quote()
    a_rack(144, code="BM-1000")
    choose(submission=quote.submission, alloy="S31600", options=[], version=1)
    newer = Quote.objects.get(version=2)
    assert drop_of(newer) == []
    assert the_column(newer) == newer.total


def test_whoever_cannot_be_served_from_the_rack_pays_no_drop() -> None:
    a_rack(48)
    assert drop_of(a_quote()) == []
