"""A stored price is shown with the taxes it was made with, whatever is asked today."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils.translation import override

from intake.said import said
from intake.services import receive_submission
from quotes import price_show
from quotes.choosing.selectors import on_offer
from quotes.domain.besides import alloy_facts
from quotes.models import Quote, QuoteDocument
from quotes.quote_state import quote_state
from quotes.services import issue_quote
from tests.given import a_body
from tests.quotes.given import a_quote, stock_the_shelf
from tests.quotes.paper.papers import texts

pytestmark = pytest.mark.django_db


@pytest.fixture
def quote() -> Quote:
    stock_the_shelf()
    return a_quote()


def test_each_line_says_how_it_was_made_and_each_tax_what_it_is_taken_of(quote: Quote) -> None:
    shown = price_show.of_quote(quote)
    assert shown.lines[0].how == "50 in × 3.60"
    assert [label for label, _amount in shown.sums][-1] == "Tax 7 % on goods and work"


def test_a_rate_is_not_made_up_for_a_price_that_kept_nothing(quote: Quote) -> None:
    quote.inputs, quote.tax = {}, quote.tax + 1
    assert price_show.taxes_of(quote) == ()
    assert [label for label, _amount in price_show.of_quote(quote).sums][-1] == "Tax"


def test_what_was_kept_is_shown_only_where_it_makes_the_stored_tax(quote: Quote) -> None:
    assert sum(one.amount for one in price_show.taxes_of(quote)) == quote.tax
    quote.tax += 1
    assert price_show.taxes_of(quote) == ()


@pytest.mark.parametrize(
    ("currency", "total", "bar"), [("EUR", "€697.07", "€180.00"), ("JPY", "¥697", "¥180")]
)
def test_wherever_a_currency_is_set_every_whole_price_says_it(
    settings: Any, client: Client, currency: str, total: str, bar: str
) -> None:
    """Places by ISO 4217; the sign as CLDR writes it. The worked price of the trade notes."""
    settings.SHOP = {**settings.SHOP, "currency": currency}
    stock_the_shelf()
    quote = a_quote()
    shown = price_show.of_quote(quote)
    assert (shown.total, shown.lines[0].amount) == (total, bar)
    assert quote_state(quote.submission).total == total
    (chosen, *others) = alloy_facts(on_offer(quote.sheet).columns(), currency)
    assert chosen.total == total
    assert all(one.difference.startswith(bar[0]) for one in others)
    paper = " ".join(texts(bytes(QuoteDocument.objects.get(quote=quote).content)))
    assert total in paper
    assert bar in paper
    page = client.get(reverse("status", args=[quote.submission.token])).content.decode()
    assert total in page
    assert f"{quote.total} {currency}" not in page


def test_a_spanish_reader_sees_a_price_as_spanish_writes_it(settings: Any) -> None:
    settings.SHOP = {**settings.SHOP, "currency": "EUR"}
    stock_the_shelf()
    quote = issue_quote(submission_id=receive_submission(body=a_body(), language="es").pk)
    paper = " ".join(texts(bytes(QuoteDocument.objects.get(quote=quote).content)))
    assert "697,07 €" in paper.replace("\N{NO-BREAK SPACE}", " ")
    with override("es"):
        assert said(price_show.of_quote(quote).total) == "697,07\N{NO-BREAK SPACE}€"
