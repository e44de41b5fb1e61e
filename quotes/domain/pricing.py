"""From an order, the catalogue and the desk's rates to priced lines.

Decimal only, each amount rounded once by ``to_money``. Every line says how it was made. What the
catalogue does not have becomes a line without an amount and an entry of ``missing``: a price by
hand for that code (``by_hand``) completes it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from catalog.domain.lengths import Length
from catalog.domain.stock import Stock
from quotes.domain.chosen import chosen_lines
from quotes.domain.freight import Parcel, freight_for, inches_of, shaft_pounds, tube_for
from quotes.domain.lines import Found, Line, Missing, completed, rounded, sum_line, unpriced
from quotes.domain.money import to_money
from quotes.domain.order import Order, Shaft
from quotes.domain.part_lines import fit_line, fits_coupling, keys_line, nut_line, part_lines
from quotes.domain.rates import Rates
from quotes.domain.shaft_lines import drop_line, shaft_lines, tube_lines
from quotes.domain.tax import FREIGHT, GOODS, KINDS, NOWHERE, WORK, Place, TaxSum, kind_of, taxes
from quotes.domain.terms import DISCOUNT, NO_TERMS, Terms, discount_line, shared

MINIMUM = "MINIMUM"
_ZERO = Decimal(0)


@dataclass(frozen=True, slots=True)
class Priced:
    """A whole price. ``goods`` is goods and work, less a discount; totals leave out what is
    ``missing``. ``taxes``: each rate with what it is taken of; ``tax`` is their sum.
    """

    lines: tuple[Line, ...]
    missing: tuple[Missing, ...]
    goods: Decimal
    freight: Decimal
    freight_words: str
    tax: Decimal
    total: Decimal
    taxes: tuple[TaxSum, ...] = ()
    currency: str = ""

    @property
    def complete(self) -> bool:
        return not self.missing


def price(
    order: Order,
    stock: Stock,
    rates: Rates,
    by_hand: Mapping[str, Decimal] | None = None,
    terms: Terms = NO_TERMS,
    place: Place = NOWHERE,
    left_over: Length | None = None,
) -> Priced:
    """Price an order. ``by_hand``: unit prices staff give for codes the catalogue lacks.

    ``place``: where it goes, for the tax. ``left_over``: what would be left of the piece it is cut
    from, None while no piece is laid aside; too little to sell is charged in part.
    """
    found = _found(order, stock, rates, by_hand or {}, left_over)
    lines = [each if isinstance(each, Line) else each[0] for each in found]
    missing = tuple(each[1] for each in found if not isinstance(each, Line))
    lines += _agreed(lines, terms, rates, whole=not missing)
    words, freight = _freight(order, rates) if lines else ("nothing to send", _ZERO)
    return summed(lines, missing, words, to_money(freight, rates.currency), rates, place)


def summed(
    lines: Sequence[Line],
    missing: tuple[Missing, ...],
    words: str,
    freight: Decimal,
    rates: Rates,
    place: Place,
) -> Priced:
    """Lines that are rounded already with their sums and taxes."""
    bases = {**_sums(lines, rates.currency), FREIGHT: freight}
    goods = to_money(bases[GOODS] + bases[WORK], rates.currency)
    found = taxes(bases, rates.taxes, place, rates.currency)
    tax = to_money(sum((one.amount for one in found), _ZERO), rates.currency)
    total = goods + freight + tax
    return Priced(tuple(lines), missing, goods, freight, words, tax, total, found, rates.currency)


def _found(
    order: Order,
    stock: Stock,
    rates: Rates,
    by_hand: Mapping[str, Decimal],
    left_over: Length | None,
) -> list[Found]:
    """Every line, rounded once, completed by hand where the catalogue has no price."""

    def done(each: Found) -> Found:
        return rounded(completed(each, by_hand), rates.currency)

    asked = [done(each) for each in _asked(order, stock, rates)]
    bar = asked[0] if order.shaft else None
    if left_over is not None and isinstance(bar, Line):
        drop = drop_line(bar, left_over, rates)
        asked[1:1] = [done(drop)] if drop else []
    return asked + [done(each) for each in chosen_lines(order, stock, rates, asked)]


def _asked(order: Order, stock: Stock, rates: Rates) -> Iterator[Found]:
    shaft = order.shaft
    if shaft:
        yield from shaft_lines(shaft, order, stock, rates)
    elif "shaft" in order.wants:
        yield unpriced("SHAFT", "Shaft", "each", "no length has been worked out yet")
    if fits_coupling(order):
        yield fit_line(order, shaft, stock)
    yield from part_lines(order, stock)
    if shaft:
        yield nut_line(shaft, stock)
        yield keys_line(shaft, stock)
        yield from tube_lines(shaft, stock, rates)


# --- What was agreed, and the sums ------------------------------------------------------


def _agreed(lines: Sequence[Line], terms: Terms, rates: Rates, *, whole: bool) -> Iterator[Line]:
    """The discount, then what makes a small order up to the least we send."""
    goods = sum((line.amount for line in lines if line.amount is not None), _ZERO)
    discount = discount_line(goods, terms, rates)
    if discount is not None:
        discount = rounded(discount, rates.currency)
        goods += discount.amount or _ZERO
        yield discount
    if lines and whole and goods < rates.minimum_order:
        yield rounded(_minimum(goods, rates), rates.currency)


def _minimum(goods: Decimal, rates: Rates) -> Line:
    least = to_money(rates.minimum_order, rates.currency)
    how = f"{least} − {to_money(goods, rates.currency)}"
    return sum_line(MINIMUM, "Made up to the minimum order", least - goods, how)


def _sums(lines: Sequence[Line], currency: str) -> dict[str, Decimal]:
    """What goods and work come to, each less its part of the discount."""
    sums = dict.fromkeys(KINDS, _ZERO)
    for line in lines:
        if line.amount is not None and line.code != DISCOUNT:
            sums[kind_of(line.code)] += line.amount
    off = sum((line.amount or _ZERO for line in lines if line.code == DISCOUNT), _ZERO)
    before = {**sums, GOODS: sums[GOODS] - _made_up(lines)}
    for kind, part in shared(off, before, currency).items():
        sums[kind] += part
    return sums


def _made_up(lines: Sequence[Line]) -> Decimal:
    return sum((line.amount or _ZERO for line in lines if line.code == MINIMUM), _ZERO)


def _freight(order: Order, rates: Rates) -> tuple[str, Decimal]:
    if order.shaft is None:
        return "Freight, parcel", rates.freight_classes[0][1]
    return freight_for(_parcel(order.shaft, rates), rates)


def _parcel(shaft: Shaft, rates: Rates) -> Parcel:
    across = shaft.diameter + inches_of(rates.tube_wider_in)
    pounds = shaft_pounds(shaft.diameter, shaft.sent_overall, shaft.alloy)
    return Parcel(tube_for(shaft.tube_by, rates), across, pounds, shaft.system)
