"""Two or three metals for one shaft, side by side."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import Length
from catalog.domain.materials import Material, material
from catalog.domain.standards import Confidence
from catalog.domain.stock import Kind, Stock
from intake.domain.history import History
from intake.domain.limits import DEFAULT_LIMITS, Limits
from quotes.domain.alloy_words import ALLOYS, CREVICE, AlloyWords
from quotes.domain.margin import NO_MARGIN, Judged, judge_alloy
from quotes.domain.order import DEFAULT_ALLOY, Order, Shaft, alloy_words, same_metal
from quotes.domain.pricing import Priced, price
from quotes.domain.rates import Rates
from quotes.domain.tax import NOWHERE, Place
from quotes.domain.terms import NO_TERMS, Terms

__all__ = ["CREVICE", "NOT_ENGINEERED", "VERIFY", "AlloyColumn", "alloy_columns", "bars_for"]

NOT_ENGINEERED = (
    "The torque margin is a figure by formula, not engineered by us. A change of metal goes to a "
    "qualified designer; class, flag and local rules decide."
)
VERIFY = "Strengths are usual minima (common practice): verify per bar certificate."
NO_HISTORY = History()
_MOST = 3


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
    place: Place = NOWHERE,
    *,
    by_hand: Mapping[str, Decimal] | None = None,
    history: History = NO_HISTORY,
    limits: Limits = DEFAULT_LIMITS,
    left_over_of: Callable[[Order], Length | None] = lambda _order: None,
) -> tuple[AlloyColumn, ...]:
    """The chosen metal first, then up to two others that there is a bar of; empty without a shaft.

    The sheet's own metal is always among them, so that there is a way back.

    Each with the whole price made anew, and with what the checks say of it on this sheet.
    ``left_over_of``: what would be left of the piece an order is sawn from, as the price needs it.
    Relative words: common practice, no source. Margin: ABYC P-6 formula as published.
    """
    shaft = order.shaft
    if shaft is None:
        return ()
    own = own_alloy(shaft, body)
    in_reach = list(dict.fromkeys([shaft.alloy, own, *bars_for(shaft, stock)]))
    made_of = {alloy: _in(order, shaft, alloy) for alloy in in_reach}
    priced = {
        alloy: price(one, stock, rates, by_hand, terms, place, left_over_of(one))
        for alloy, one in made_of.items()
    }
    columns = [
        _column(
            alloy,
            shaft,
            judge_alloy(alloy, shaft, body, stock, history, limits),
            (priced[alloy], priced[shaft.alloy]),
            _on_shelf(shaft, alloy, stock),
            rates,
            free=alloy in (shaft.alloy, own),
        )
        for alloy in in_reach
    ]
    return (columns[0], *_best(columns[1:], own))


def own_alloy(shaft: Shaft, body: Mapping[str, Any]) -> str:
    """The metal the sheet itself asks for."""
    return str(body.get("alloy") or DEFAULT_ALLOY[shaft.system])


def bars_for(shaft: Shaft, stock: Stock) -> tuple[str, ...]:
    """Other metals we have words for, with a bar of this size and length in the catalogue."""
    mine = same_metal(shaft.alloy)
    found = dict.fromkeys(
        bar.alloy
        for bar in stock.of_kind(Kind.BAR)
        if bar.system == shaft.system
        and bar.diameter == shaft.diameter
        and bar.alloy in ALLOYS
        and bar.alloy not in mine
        and (bar.stock_length is None or bar.stock_length >= shaft.sent_overall)
    )
    return tuple(found)


def _best(columns: list[AlloyColumn], own: str) -> list[AlloyColumn]:
    """The sheet's own, then what can be chosen, then what lies here, then what costs less."""

    def rank(column: AlloyColumn) -> tuple[bool, bool, bool, Decimal]:
        last = column.alloy != own, not column.choosable, not column.in_stock
        return *last, column.total or Decimal("Infinity")

    return sorted(columns, key=rank)[: _MOST - 1]


def _in(order: Order, shaft: Shaft, alloy: str) -> Order:
    return replace(order, shaft=replace(shaft, alloy=alloy))


def _on_shelf(shaft: Shaft, alloy: str, stock: Stock) -> bool:
    bars = (bar for name in same_metal(alloy) for bar in stock.bars(*_size(shaft), name))
    return any(
        bar.in_stock and (bar.stock_length is None or bar.stock_length >= shaft.sent_overall)
        for bar in bars
    )


def _size(shaft: Shaft) -> tuple[str, Any]:
    return shaft.system, shaft.diameter


def _column(
    alloy: str,
    shaft: Shaft,
    judged: Judged,
    priced: tuple[Priced, Priced],
    on_shelf: bool,
    rates: Rates,
    *,
    free: bool,
) -> AlloyColumn:
    mine, chosens = priced
    words = ALLOYS.get(alloy, AlloyWords("not known here", "Ask us about this metal."))
    known, margin = material(alloy), judged.margin or NO_MARGIN
    return AlloyColumn(
        alloy=alloy,
        name=alloy_words(alloy),
        metal=known.name if known else "",
        words=words.say,
        crevice=words.crevice,
        caution=words.caution,
        total=mine.total if mine.complete else None,
        difference=_difference(mine, chosens),
        margin=margin.words,
        safety=margin.safety,
        wanted=margin.wanted,
        in_stock=on_shelf,
        stock="in stock" if on_shelf else _lead(rates),
        chosen=alloy == shaft.alloy,
        choosable=free or not judged.barred,
        by_staff=free or not judged.stops,
        barred="" if free else judged.barred,
        sure=_sure(known),
    )


def _difference(mine: Priced, chosens: Priced) -> Decimal | None:
    """Known where the same prices are missing on both sides, for then they fall out."""
    missing = [{each.code for each in one.missing} for one in (mine, chosens)]
    return mine.total - chosens.total if missing[0] == missing[1] else None


def _lead(rates: Rates) -> str:
    return f"to be ordered, about {rates.lead_days['special_alloy']} working days"


def _sure(known: Material | None) -> str:
    if known is None:
        return "Its strength is in no table we have."
    if known.confidence == Confidence.MEMORY:
        return f"{VERIFY} This figure is from memory."
    return VERIFY
