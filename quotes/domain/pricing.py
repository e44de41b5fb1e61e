"""From an order, the catalogue and the desk's rates to priced lines.

Decimal only, each amount rounded once by ``to_money``. Every line says how it was made. What the
catalogue does not have becomes a line without an amount and an entry of ``missing``: a price by
hand for that code (``by_hand``) completes it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM, Length
from catalog.domain.stock import Kind, Stock, StockPart
from quotes.domain.chosen import chosen_lines
from quotes.domain.freight import freight_class, inch_amount, tube_for
from quotes.domain.lines import (
    Found,
    Line,
    Missing,
    capital,
    completed,
    in_metric,
    inch_words,
    listed,
    plain,
    priced_line,
    show,
    sum_line,
    unpriced,
)
from quotes.domain.money import to_money
from quotes.domain.order import Order, Shaft, Wanted, alloy_words, same_metal
from quotes.domain.rates import Rates
from quotes.domain.terms import NO_TERMS, Terms

_ZERO = Decimal(0)
_ONE = Decimal(1)


@dataclass(frozen=True, slots=True)
class Priced:
    """A whole price. ``goods`` is goods and work; totals leave out what is ``missing``."""

    lines: tuple[Line, ...]
    missing: tuple[Missing, ...]
    goods: Decimal
    freight: Decimal
    freight_words: str
    tax: Decimal
    total: Decimal

    @property
    def complete(self) -> bool:
        return not self.missing


def price(
    order: Order,
    stock: Stock,
    rates: Rates,
    by_hand: Mapping[str, Decimal] | None = None,
    terms: Terms = NO_TERMS,
) -> Priced:
    """Price an order. ``by_hand``: unit prices staff give for codes the catalogue lacks."""
    del terms  # taken off with the dated rates
    asked = [completed(each, by_hand or {}) for each in _lines(order, stock, rates)]
    chosen = chosen_lines(order, stock, rates, asked)
    found = [*asked, *(completed(each, by_hand or {}) for each in chosen)]
    lines = [each if isinstance(each, Line) else each[0] for each in found]
    missing = tuple(each[1] for each in found if not isinstance(each, Line))
    goods = sum((line.amount for line in lines if line.amount is not None), _ZERO)
    if lines and not missing and goods < rates.minimum_order:
        lines.append(_minimum(goods, rates))
        goods = to_money(rates.minimum_order)
    freight_words, freight = _freight(order, rates) if lines else ("nothing to send", _ZERO)
    tax = to_money(goods * rates.tax_rate)
    freight = to_money(freight)
    total = goods + freight + tax
    return Priced(tuple(lines), missing, to_money(goods), freight, freight_words, tax, total)


def _lines(order: Order, stock: Stock, rates: Rates) -> Iterator[Found]:
    shaft = order.shaft
    if shaft:
        yield _bar(shaft, order, stock, rates)
        yield _end(stock, "SV-PROP", shaft, "Propeller end")
        yield _forward_end(shaft, stock)
        yield from _straighten(shaft, stock, rates)
    elif "shaft" in order.wants:
        yield unpriced("SHAFT", "Shaft", "each", "no length has been worked out yet")
    if _fits_coupling(order):
        yield _fit(order, shaft, stock)
    yield from _parts(order, stock)
    if shaft:
        yield _nut(shaft, stock)
        yield _keys(shaft, stock)
        yield from _tube(shaft, stock, rates)


# --- The bar and its work ---------------------------------------------------------------


def _bar(shaft: Shaft, order: Order, stock: Stock, rates: Rates) -> Found:
    charged, allowance, unit = _charged(shaft, rates)
    bar = _bar_part(shaft, order, stock, charged, unit)
    what = f"{show(shaft.diameter, shaft.system)} {alloy_words(shaft.alloy)}"
    overall = show(shaft.overall, shaft.system)
    text = f"Bar, {what}: {overall} overall + {plain(allowance)} {unit} for ends and saw"
    if bar is None:
        why = "no bar of this size, alloy and length in the catalogue"
        code = f"BAR {what}".replace(" ", "-").replace("/", "_")
        return unpriced(code, text, unit, why, charged)
    how = f"{plain(charged)} {unit} × {listed(bar.price)}"
    return priced_line(bar.code, text, charged, unit, bar.price, how)


def _charged(shaft: Shaft, rates: Rates) -> tuple[Decimal, Decimal, str]:
    """Charged length, the allowance in it, and their unit: whole steps, never less."""
    if shaft.system == "inch":
        allowance, step, unit_nm, unit = rates.saw_in, rates.charge_step_in, NM_PER_INCH, "in"
    else:
        allowance, step, unit_nm, unit = rates.saw_mm, rates.charge_step_mm, NM_PER_MM, "mm"
    needed = Decimal(shaft.overall.nm) + allowance * unit_nm
    steps, rest = divmod(needed, step * unit_nm)
    return (steps + bool(rest)) * step, allowance, unit


def _bar_part(
    shaft: Shaft, order: Order, stock: Stock, charged: Decimal, unit: str
) -> StockPart | None:
    """The bar the checks chose when it is this alloy, else the first that is long enough."""
    names = same_metal(shaft.alloy)
    chosen = [stock.part(part.code) for part in order.parts if part.kind == Kind.BAR]
    bars = [bar for bar in chosen if bar and bar.alloy in names and bar.diameter == shaft.diameter]
    for alloy in sorted(names):
        bars += stock.bars(shaft.system, shaft.diameter, alloy)
    fits = [bar for bar in bars if bar.per == unit and _long_enough(bar, shaft)]
    return min(fits, key=lambda bar: not bar.in_stock, default=None)


def _long_enough(bar: StockPart, shaft: Shaft) -> bool:
    return bar.stock_length is None or bar.stock_length >= shaft.overall


def _forward_end(shaft: Shaft, stock: Stock) -> Found:
    if shaft.forward_end == "tapered":
        return _end(stock, "SV-FWD-TAP", shaft, "Coupling end, tapered")
    return _end(stock, "SV-FWD-STR", shaft, "Coupling end")


def _end(stock: Stock, prefix: str, shaft: Shaft, text: str) -> Found:
    return _work(stock, prefix, shaft.diameter, text, "end")


def _work(stock: Stock, prefix: str, diameter: Length, text: str, unit: str) -> Found:
    """One job priced by diameter: the smallest step of that job which reaches it."""
    row = _step(stock, prefix, diameter)
    if row is None:
        why = "no price for this diameter in the catalogue"
        return unpriced(prefix, text, unit, why)
    return priced_line(row.code, _work_text(row, text), _ONE, unit, row.price, listed(row.price))


def _step(stock: Stock, prefix: str, diameter: Length) -> StockPart | None:
    steps = [
        part
        for part in stock.of_kind(Kind.SERVICE)
        if part.code.startswith(f"{prefix}-") and part.diameter and part.diameter >= diameter
    ]
    return min(steps, key=lambda part: part.diameter.nm if part.diameter else 0, default=None)


def _work_text(row: StockPart, text: str) -> str:
    """Our own heading with the detail the catalogue row gives after its colon."""
    detail = row.description.partition(":")[2].rpartition(", up to")[0].strip()
    return f"{text}: {detail}" if detail else text


def _straighten(shaft: Shaft, stock: Stock, rates: Rates) -> Iterator[Found]:
    """One line: a base price, and a price for each inch over the free length."""
    base, each = stock.part("SV-STRAIGHT"), stock.part("SV-STRAIGHT-OVER")
    over = max(_ZERO, inch_amount(shaft.charged_by) - rates.straighten_free_in)
    text = "Straighten and certify"
    if base is None or (over and each is None):
        yield unpriced("SV-STRAIGHT", text, "each", "no price in the catalogue")
        return
    how = f"{listed(base.price)} to {plain(rates.straighten_free_in)} in"
    amount = base.price
    if over and each:
        how += f" + {inch_words(over)} in over × {listed(each.price)}"
        amount += over * each.price
    yield sum_line(base.code, text, amount, how + in_metric(shaft.system, shaft.charged_by))


# --- Coupling and parts -----------------------------------------------------------------


def _fits_coupling(order: Order) -> bool:
    """Fit and face needs shaft and coupling in the shop: one we sell, or one that is sent in."""
    return order.shaft is not None and ("coupling" in order.wants or order.coupling_comes)


def _fit(order: Order, shaft: Shaft | None, stock: Stock) -> Found:
    if shaft is None:
        raise ValueError("nothing to fit the coupling to")
    ours = "coupling" in order.wants
    text = "Fit coupling and face on the shaft" if ours else "Fit your coupling, face on the shaft"
    return _work(stock, "SV-FIT", shaft.diameter, text, "each")


_KINDS = (("coupling", Kind.COUPLING, "Half coupling"), ("bearing", Kind.BEARING, "Strut bearing"))


def _parts(order: Order, stock: Stock) -> Iterator[Found]:
    for want, kind, words in _KINDS:
        if want not in order.wants:
            continue
        chosen = [part for part in order.parts if part.kind == kind]
        if not chosen:
            count = order.bearing_count if want == "bearing" else 1
            why = "nothing in the catalogue matches"
            yield unpriced(want.upper(), words, "each", why, Decimal(count))
        for part in chosen:
            yield _part(part, stock, words)


def _part(wanted: Wanted, stock: Stock, words: str) -> Found:
    part, quantity = stock.part(wanted.code), Decimal(wanted.quantity)
    if part is None:
        return unpriced(wanted.code, words, "each", "no longer in the catalogue", quantity)
    times = "" if quantity == 1 else f"{plain(quantity)} × "
    how = f"{times}{listed(part.price)}"
    return priced_line(part.code, capital(part.description), quantity, part.per, part.price, how)


def _nut(shaft: Shaft, stock: Stock) -> Found:
    if not shaft.thread:
        return unpriced("NUT", "Propeller nut", "set", "the thread is not known: no table gives it")
    code = f"NT-{shaft.thread.replace('/', '_')}"
    part = stock.part(code)
    if part is None:
        text = f"Propeller nut {shaft.thread}"
        return unpriced(code[:40], text, "set", "not in the catalogue")
    return priced_line(
        code, capital(part.description), _ONE, part.per, part.price, listed(part.price)
    )


def _keys(shaft: Shaft, stock: Stock) -> Found:
    two = Decimal(2)
    if not shaft.key:
        why = "the tables do not give one key for both ends"
        return unpriced("KEY", "Keys, two", "each", why, two)
    code = f"KY-{shaft.key.replace('/', '_')}"
    part = stock.part(code)
    text = f"Keys {shaft.key}, two"
    if part is None:
        return unpriced(code, text, "each", "not in the catalogue", two)
    return priced_line(code, text, two, part.per, part.price, f"2 × {listed(part.price)}")


# --- Tube, freight, minimum -------------------------------------------------------------


def _tube(shaft: Shaft, stock: Stock, rates: Rates) -> Iterator[Found]:
    base, each = stock.part("SV-TUBE"), stock.part("SV-TUBE-IN")
    tube = tube_for(shaft.charged_by, rates)
    text = f"Tube and end caps, {show(tube, shaft.system)}"
    if base is None or each is None:
        yield unpriced("SV-TUBE", text, "each", "no price in the catalogue")
        return
    length = inch_amount(tube)
    how = f"{listed(base.price)} + {inch_words(length)} in × {listed(each.price)}"
    amount = base.price + length * each.price
    yield sum_line(base.code, text, amount, how + in_metric(shaft.system, tube))


def _freight(order: Order, rates: Rates) -> tuple[str, Decimal]:
    if order.shaft is None:
        return "Freight, parcel", rates.freight_classes[0][1]
    tube = tube_for(order.shaft.charged_by, rates)
    words, amount = freight_class(tube, rates.freight_classes)
    return f"Freight, tube {show(tube, order.shaft.system)} ({words})", amount


def _minimum(goods: Decimal, rates: Rates) -> Line:
    how = f"{to_money(rates.minimum_order)} − {to_money(goods)}"
    return sum_line("MINIMUM", "Made up to the minimum order", rates.minimum_order - goods, how)
