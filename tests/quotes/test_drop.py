"""What is left of a bar, too short to sell, is priced the same wherever a whole price is shown."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from quotes.choosing.selectors import on_offer
from quotes.domain.kept_price import again
from quotes.services import requote
from tests.intake.desk_given import a_call
from tests.quotes.given import a_quote, a_quoter, stock_the_shelf
from tests.quotes.stock.given import a_rack

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
