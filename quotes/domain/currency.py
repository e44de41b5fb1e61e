"""Currencies: how many places each has, and how money is written in each language."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

USUAL_PLACES = 2


@cache
def places_of(currency: str) -> int:
    """Places of the currency's smallest unit; "" (none said) has two.

    Source: ISO 4217 minor units, as kept in CLDR.

    >>> places_of("EUR"), places_of("JPY"), places_of("KWD"), places_of("")
    (2, 0, 3, 2)
    """
    if not currency:
        return USUAL_PLACES
    from babel.numbers import get_currency_precision  # here: not every process writes money

    return get_currency_precision(currency)


@cache
def is_currency(code: str) -> bool:
    """Whether this is a code of ISO 4217, in capitals."""
    from babel.numbers import is_currency as known

    return bool(known(code, locale="en"))


def written(amount: Decimal, currency: str, language: str) -> str:
    """Money with its sign or code, as that language writes it.

    >>> written(Decimal("1234.50"), "EUR", "en"), written(Decimal("1234"), "JPY", "en")
    ('€1,234.50', '¥1,234')
    """
    from babel.numbers import format_currency

    return str(format_currency(amount, currency, locale=_locale(language)))


@cache
def _locale(language: str) -> str:
    """The language as CLDR names it; English for one it does not know."""
    from babel.core import Locale, UnknownLocaleError

    try:
        return str(Locale.parse(language, sep="-" if "-" in language else "_"))
    except (UnknownLocaleError, ValueError):
        return "en"
