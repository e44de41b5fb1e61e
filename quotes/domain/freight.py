"""Freight by the length of the tube."""

from __future__ import annotations

from decimal import Decimal

from catalog.domain.lengths import NM_PER_INCH, Length, inches
from quotes.domain.rates import FreightClasses, Rates


def inch_amount(length: Length) -> Decimal:
    """The length in inches, converted exactly (a metric length as far as 28 digits carry).

    >>> inch_amount(inches("49 1/2"))
    Decimal('49.5')
    """
    return Decimal(length.nm) / NM_PER_INCH


def tube_for(shaft: Length, rates: Rates) -> Length:
    """How long the tube is that carries a shaft of this length.

    >>> tube_for(inches(49), Rates()).inch_text
    '53'
    """
    return shaft + inches(str(rates.tube_extra_in))


def freight_class(tube: Length, classes: FreightClasses) -> tuple[str, Decimal]:
    """The class a tube falls in, as words, and its price.

    >>> freight_class(inches("48"), Rates().freight_classes)
    ('up to 48 in', Decimal('22'))
    >>> freight_class(inches("48 1/64"), Rates().freight_classes)[0]
    '48–72 in class'
    """
    below: Decimal | None = None
    size = inch_amount(tube)
    for limit, price in classes:
        if limit is None or size <= limit:
            return _words(below, limit), price
        below = limit
    raise ValueError("the freight classes stop short: the last one has no limit")


def _words(below: Decimal | None, limit: Decimal | None) -> str:
    if limit is None:
        return f"over {below} in"
    return f"up to {limit} in" if below is None else f"{below}–{limit} in class"
