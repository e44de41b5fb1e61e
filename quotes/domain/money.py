"""Money: Decimal from end to end, rounded in one place."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal

_CENT = Decimal("0.01")


def to_money(amount: Decimal) -> Decimal:
    """Round to cents, half away from zero. The only rounding in the project.

    >>> to_money(Decimal("42.9205")), to_money(Decimal("21.425"))
    (Decimal('42.92'), Decimal('21.43'))
    """
    return amount.quantize(_CENT, ROUND_HALF_UP)


def money_text(amount: Decimal) -> str:
    """Money as people read it, with a thin thousands mark: ``1 234.50``."""
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
