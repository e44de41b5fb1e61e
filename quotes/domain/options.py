"""What can be had besides, with its price: options, and what is worth doing while she is open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from catalog.domain.stock import Stock
from intake.domain.history import History
from quotes.domain.chosen import chosen_lines
from quotes.domain.order import Order
from quotes.domain.rates import Rates

__all__ = ["OPTION", "WHILE_OUT", "Offer", "chosen_lines", "offers"]

OPTION = "option"
WHILE_OUT = "while the shaft is out"
NO_HISTORY = History()


@dataclass(frozen=True, slots=True)
class Offer:
    """One thing that can be added to a quote, never added unasked.

    ``key`` is what a choice keeps. ``group`` is OPTION or WHILE_OUT. ``why`` says what on this
    boat makes it fit, ``how`` how the amount is made ("2 × 6.00"). ``amount`` is before tax, in
    the shop's currency; None where the catalogue has no price: "ask us", and cannot be ticked.
    """

    key: str
    group: str
    text: str
    why: str
    how: str
    amount: Decimal | None
    ticked: bool = False

    @property
    def tickable(self) -> bool:
        """Only what has a price can be chosen."""
        return self.amount is not None


def offers(
    order: Order,
    stock: Stock,
    rates: Rates,
    body: Mapping[str, Any],
    record: Mapping[str, Any],
    *,
    history: History = NO_HISTORY,
) -> tuple[Offer, ...]:
    """What can be added to this order; ticked where ``order.choice`` holds its key.

    ``body`` and ``record``: the sheet as typed and its stored outcome. ``history``: what else is
    known of this boat, as the checks had it (the other side's shaft).
    """
    del order, stock, rates, body, record, history
    return ()
