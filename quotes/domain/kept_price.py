"""What a price was made from, kept with the quote, so that it can be worked out again in years."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import Length
from catalog.domain.stock import Kind, Stock, StockPart
from quotes.domain.exact_json import from_json, to_json
from quotes.domain.order import Order, Shaft
from quotes.domain.pricing import Priced, price
from quotes.domain.rates import Rates
from quotes.domain.remake_price import kept_remake, remade
from quotes.domain.tax import NOWHERE, Place, rules_at
from quotes.domain.terms import NO_TERMS, Terms

PRICE = "price"
_FORM = 1  # of what is kept; a later form is read beside this one, never instead of it


class NotKept(ValueError):
    """The quote was made before anything was kept: its lines stand, but cannot be made again."""


def kept(
    order: Order,
    stock: Stock,
    rates: Rates,
    terms: Terms = NO_TERMS,
    by_hand: Mapping[str, Decimal] | None = None,
    place: Place = NOWHERE,
    left_over: Length | None = None,
) -> dict[str, Any]:
    """Everything ``price`` was given, as JSON with exact numbers as text, under the name "price".

    Of the catalogue only the rows that were looked at; of the place only the rules of tax that
    hold there, since a postcode is the customer's own.
    """
    given = dict(by_hand or {})
    watched = _Watched.over(stock)
    price(order, watched, rates, given, terms, place, left_over)
    rules = rules_at(rates.taxes, place)
    return {
        PRICE: {
            "form": _FORM,
            "order": to_json(order),
            "stock": [_short(part) for part in stock.parts if part.code in watched.seen],
            "stock_version": stock.version,
            "rates": to_json(replace(rates, tax_rate=Decimal(0), tax_rules=rules)),
            "terms": to_json(terms),
            "by_hand": to_json(given),
            "left_over": to_json(left_over),
        }
    }


def again(inputs: Mapping[str, Any]) -> Priced:
    """The very price that was kept, from nothing but what was kept.

    Raises NotKept for a quote older than this.
    """
    facts = inputs.get(PRICE)
    if not facts:
        raise NotKept("This quote is older than what we keep of prices; its lines are as printed.")
    parts = tuple(from_json(StockPart, part) for part in facts["stock"])
    left_over = facts["left_over"]
    rates, remake = from_json(Rates, facts["rates"]), kept_remake(inputs)
    found = price(
        from_json(Order, facts["order"]),
        Stock(parts, facts["stock_version"]),
        rates,
        {code: Decimal(amount) for code, amount in facts["by_hand"].items()},
        from_json(Terms, facts["terms"]),
        left_over=None if left_over is None else Length(left_over),
    )
    return remade(found, remake, rates) if remake else found


def kept_left_over(inputs: Mapping[str, Any], shaft: Shaft) -> Length | None:
    """What was left of the piece when this very shaft was priced; None where no piece was known.

    Raises NotKept where nothing was kept, or another shaft was priced.
    """
    facts = inputs.get(PRICE)
    if not facts or from_json(Order, facts["order"]).shaft != shaft:
        raise NotKept("Another shaft was priced, or none.")
    left_over = facts["left_over"]
    return None if left_over is None else Length(left_over)


def _short(part: StockPart) -> dict[str, Any]:
    """A row of the catalogue without what it does not say."""
    return {name: each for name, each in to_json(part).items() if each not in (None, "")}


class _Watched(Stock):
    """The same shelf, which remembers the rows it gave out."""

    __slots__ = ("seen",)
    seen: set[str]

    @classmethod
    def over(cls, stock: Stock) -> _Watched:
        """Share the look-ups of ``stock``: building them anew would cost more than the price."""
        new = object.__new__(cls)
        for name in Stock.__slots__:
            object.__setattr__(new, name, getattr(stock, name))
        object.__setattr__(new, "seen", set())
        return new

    def _saw(self, parts: tuple[StockPart, ...]) -> tuple[StockPart, ...]:
        self.seen.update(part.code for part in parts)
        return parts

    def part(self, code: str) -> StockPart | None:
        found = Stock.part(self, code)
        self._saw((found,) if found else ())
        return found

    def of_kind(self, kind: Kind | str) -> tuple[StockPart, ...]:
        return self._saw(Stock.of_kind(self, kind))

    def bars(self, system: str, diameter: Length, alloy: str) -> tuple[StockPart, ...]:
        return self._saw(Stock.bars(self, system, diameter, alloy))

    def couplings(self, **wanted: Any) -> tuple[StockPart, ...]:
        return self._saw(Stock.couplings(self, **wanted))

    def bearings(self, *sizes: Any, **wanted: Any) -> tuple[StockPart, ...]:
        return self._saw(Stock.bearings(self, *sizes, **wanted))
