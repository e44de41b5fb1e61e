"""The order behind a quote: its sheet, with the choice that was kept, and of a remake the shaft."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from quotes.domain.kept_choice import kept_choice
from quotes.domain.order import Order, read_order
from quotes.domain.remake_price import kept_remake, shaft_alone


def quoted_order(
    body: Mapping[str, Any], record: Mapping[str, Any], inputs: Mapping[str, Any]
) -> Order:
    """The order as it was priced. ``inputs``: what the quote was made from.

    A remake is the shaft alone: the parts of the first order are with the customer.
    """
    order = read_order(body, record, kept_choice(inputs))
    return shaft_alone(order) if kept_remake(inputs) else order
