"""Two or three metals for one shaft, side by side."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from catalog.domain.stock import Stock
from intake.domain.history import History
from intake.domain.limits import DEFAULT_LIMITS, Limits
from quotes.domain.order import Order
from quotes.domain.rates import Rates
from quotes.domain.terms import NO_TERMS, Terms

CREVICE = (
    "Crevice corrosion: this metal pits where salt water stands still, under packing, in the "
    "bearing and in a log. Not for a boat that lies idle in salt water."
)
NOT_ENGINEERED = (
    "The torque margin is a figure by formula, not engineered by us. A change of metal goes to a "
    "qualified designer; class, flag and local rules decide."
)
NO_HISTORY = History()
VERIFY = "Strengths are usual minima (common practice): verify per bar certificate."


@dataclass(frozen=True, slots=True)
class AlloyColumn:
    """One metal for this shaft. All words are ready to print.

    ``alloy`` is what a choice keeps, ``name`` the number with its system, ``metal`` what it is.
    ``words`` is what to say to the customer, ``crevice`` how it stands still sea water. ``caution``
    is "" or must be shown beside it. ``total`` is the whole price, tax and freight in it (None: a
    price is to come); ``difference`` that total less the chosen metal's (None where unknown).
    ``margin`` says the torque margin, ``safety`` and ``wanted`` are its figures (None: not known).
    ``stock`` says in stock or how long. ``choosable``: a customer may take it alone; ``by_staff``:
    staff may, having spoken; ``barred`` says why not. ``sure``: where the strength comes from.
    """

    alloy: str
    name: str
    metal: str
    words: str
    crevice: str
    caution: str
    total: Decimal | None
    difference: Decimal | None
    margin: str
    safety: Decimal | None
    wanted: Decimal | None
    in_stock: bool
    stock: str
    chosen: bool
    choosable: bool
    by_staff: bool
    barred: str
    sure: str


def alloy_columns(
    order: Order,
    body: Mapping[str, Any],
    record: Mapping[str, Any],
    stock: Stock,
    rates: Rates,
    terms: Terms = NO_TERMS,
    *,
    by_hand: Mapping[str, Decimal] | None = None,
    history: History = NO_HISTORY,
    limits: Limits = DEFAULT_LIMITS,
) -> tuple[AlloyColumn, ...]:
    """The chosen metal and one or two others that there is a bar of; empty without a shaft."""
    del order, body, record, stock, rates, terms, by_hand, history, limits
    return ()
