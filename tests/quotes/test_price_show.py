"""A stored price is shown with the taxes it was made with, whatever is asked today."""

from __future__ import annotations

import pytest

from quotes import price_show
from quotes.models import Quote
from tests.quotes.given import a_quote, stock_the_shelf

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
