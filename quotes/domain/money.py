"""Money: Decimal from end to end, rounded in one place."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal

from quotes.domain.currency import places_of, written

_UNITS = {places: Decimal(1).scaleb(-places) for places in range(5)}


def to_money(amount: Decimal, currency: str = "") -> Decimal:
    """Round to the currency's smallest unit, half away from zero. The only rounding of money.

    >>> to_money(Decimal("42.9205")), to_money(Decimal("21.425"))
    (Decimal('42.92'), Decimal('21.43'))
    >>> to_money(Decimal("42.9205"), "JPY"), to_money(Decimal("42.9205"), "KWD")
    (Decimal('43'), Decimal('42.921'))
    """
    return amount.quantize(_UNITS[places_of(currency)], ROUND_HALF_UP)


def money_text(amount: Decimal, currency: str = "", language: str = "en") -> str:
    """Money as people read it: as the language writes the currency; without one, the bare number
    with a thin thousands mark, ``1 234.50``.

    >>> money_text(Decimal("1234.5"), "GBP"), money_text(Decimal("-3"))
    ('£1,234.50', '-3.00')
    """
    if currency:
        return written(amount, currency, language)
    return f"{amount:,.2f}".replace(",", "\N{NO-BREAK SPACE}")


class PriceError(ValueError):
    """This cannot be read as a price; the words say what would be."""


_PRICE = re.compile(r"(\d{1,6})(?:[.,](\d{1,4}))?")


def read_price(text: str) -> Decimal:
    """A unit price as staff type it: up to four places, a comma or a point.

    >>> read_price("12,5"), read_price(" 0.145 ")
    (Decimal('12.5'), Decimal('0.145'))
    >>> read_price("-3")
    Traceback (most recent call last):
        ...
    quotes.domain.money.PriceError: Please give a price like 12.50.
    """
    match = _PRICE.fullmatch(text.strip()[:20])
    if match is None or not match[0].isascii():
        raise PriceError("Please give a price like 12.50.")
    return Decimal(f"{match[1]}.{match[2] or 0}")
