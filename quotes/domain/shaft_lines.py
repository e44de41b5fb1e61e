"""The lines of a shaft: its bar, the work on it, the tube it travels in, and what is left over."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM, Length
from catalog.domain.stock import Kind, Stock, StockPart
from quotes.domain.freight import inch_amount, tube_for
from quotes.domain.lines import (
    Found,
    Line,
    in_metric,
    inch_words,
    listed,
    plain,
    priced_line,
    show,
    sum_line,
    unpriced,
)
from quotes.domain.order import Order, Shaft, alloy_words, same_metal
from quotes.domain.rates import Rates
from quotes.domain.work import work_step

DROP = "DROP"
_ZERO = Decimal(0)
_ONE = Decimal(1)


def shaft_lines(shaft: Shaft, order: Order, stock: Stock, rates: Rates) -> Iterator[Found]:
    """Bar, ends, straightening; the tube is a line of its own, further down."""
    yield _bar(shaft, order, stock, rates)
    yield _end(stock, "SV-PROP", shaft, "Propeller end")
    yield _forward_end(shaft, stock)
    yield from _straighten(shaft, stock, rates)


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
    return bar.stock_length is None or bar.stock_length >= shaft.sent_overall


def _forward_end(shaft: Shaft, stock: Stock) -> Found:
    if shaft.forward_end == "tapered":
        return _end(stock, "SV-FWD-TAP", shaft, "Coupling end, tapered")
    return _end(stock, "SV-FWD-STR", shaft, "Coupling end")


def _end(stock: Stock, prefix: str, shaft: Shaft, text: str) -> Found:
    return work_line(stock, prefix, shaft.diameter, text, "end")


def work_line(stock: Stock, prefix: str, diameter: Length, text: str, unit: str) -> Found:
    """One job priced by diameter: the smallest step of that job which reaches it."""
    row = work_step(stock, prefix, diameter)
    if row is None:
        why = "no price for this diameter in the catalogue"
        return unpriced(prefix, text, unit, why)
    return priced_line(row.code, _work_text(row, text), _ONE, unit, row.price, listed(row.price))


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


# --- The tube, and what is left of the bar ----------------------------------------------


def tube_lines(shaft: Shaft, stock: Stock, rates: Rates) -> Iterator[Found]:
    base, each = stock.part("SV-TUBE"), stock.part("SV-TUBE-IN")
    tube = tube_for(shaft.tube_by, rates)
    text = f"Tube and end caps, {show(tube, shaft.system)}"
    if base is None or each is None:
        yield unpriced("SV-TUBE", text, "each", "no price in the catalogue")
        return
    length = inch_amount(tube)
    how = f"{listed(base.price)} + {inch_words(length)} in × {listed(each.price)}"
    amount = base.price + length * each.price
    yield sum_line(base.code, text, amount, how + in_metric(shaft.system, tube))


def drop_line(bar: Line, left_over: Length, rates: Rates) -> Line | None:
    """What is left of the bar where nobody can use it, at a part of the bar's price; None where
    nothing is left, or as much as goes back to the rack.

    ``bar``: the priced line of the bar. ``left_over``: of the very piece it is cut from.
    """
    usable = inch_amount(left_over) >= rates.drop_under_in
    if bar.unit_price is None or usable or left_over.nm <= 0:
        return None
    per = NM_PER_INCH if bar.unit == "in" else NM_PER_MM
    left, price = Decimal(left_over.nm) / per, bar.unit_price * rates.drop_rate
    text = f"Left of the bar, under {plain(rates.drop_under_in)} in"
    amount = inch_words(left) if bar.unit == "in" else plain(left)
    how = f"{amount} {bar.unit} left × {listed(bar.unit_price)} × {plain(rates.drop_rate)}"
    if bar.unit == "in":
        how += in_metric("inch", left_over)
    return sum_line(DROP, text, left * price, how)
