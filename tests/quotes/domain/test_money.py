"""Money is rounded once, to its currency's smallest unit, and written as people write it."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.domain.currency import is_currency
from quotes.domain.money import money_text, to_money
from quotes.domain.pricing import price
from quotes.domain.rates import Rates
from tests.quotes.domain.orders import s01, the_shelf

_NBSP = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("amount", "currency", "language", "text"),
    [
        # As CLDR has it, by way of Babel.
        ("1234.5", "", "en", f"1{_NBSP}234.50"),
        ("1234.5", "EUR", "en", "€1,234.50"),
        ("12345.5", "EUR", "es", f"12.345,50{_NBSP}€"),
        ("1234", "JPY", "en", "¥1,234"),
        ("-61.32", "GBP", "en", "-£61.32"),
        ("1234.5", "GBP", "en-gb", "£1,234.50"),
        ("1.5", "USD", "no such tongue", "$1.50"),
    ],
)
def test_money_is_written_as_its_currency_and_language_are(
    amount: str, currency: str, language: str, text: str
) -> None:
    assert money_text(Decimal(amount), currency, language) == text


@pytest.mark.parametrize(
    ("currency", "rounded"), [("", "0.13"), ("EUR", "0.13"), ("JPY", "0"), ("KWD", "0.125")]
)
def test_places_are_those_of_iso_4217(currency: str, rounded: str) -> None:
    assert str(to_money(Decimal("0.125"), currency)) == rounded


@given(st.decimals(-(10**9), 10**9, places=6, allow_nan=False, allow_infinity=False),
       st.sampled_from(["", "EUR", "JPY", "KWD"]))  # fmt: skip
def test_rounding_twice_is_rounding_once_and_never_off_by_more_than_half(
    amount: Decimal, currency: str
) -> None:
    once = to_money(amount, currency)
    assert to_money(once, currency) == once
    unit = Decimal(1).scaleb(int(once.as_tuple().exponent))
    assert abs(once - amount) * 2 <= unit
    assert to_money(-amount, currency) == -once


def test_a_price_without_cents_adds_up_in_whole_units() -> None:
    result = price(s01(), the_shelf(), Rates(currency="JPY"))
    assert [str(line.amount) for line in result.lines][3] == "24"
    assert (str(result.goods), str(result.tax), str(result.total)) == ("613", "43", "697")


def test_codes_of_currencies_are_known() -> None:
    assert is_currency("EUR")
    assert not is_currency("euro")
