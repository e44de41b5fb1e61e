"""Lines for what the customer chose besides: options, a rush.

What can be chosen is named by a key that says all there is to price it: ``fit``, ``rush``,
``heat``, ``certificate``, ``long:25.4`` (millimetres left on), ``part:2:CODE``, ``spare:1:CODE``.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM, Length
from catalog.domain.stock import Stock
from quotes.domain.choice import LONG, left_on
from quotes.domain.lines import (
    Found,
    Line,
    capital,
    listed,
    plain,
    priced_line,
    rounded,
    show,
    sum_line,
    unpriced,
)
from quotes.domain.order import Order, Shaft
from quotes.domain.rates import Rates
from quotes.domain.work import labour, work_step

FIT, RUSH, HEAT, CERTIFICATE = "fit", "rush", "heat", "certificate"
PART, SPARE = "part", "spare"
RUSH_TEXT = "Rush: made before its turn"
SPARE_WORD = "Spare: "
# Rows of the catalogue that price what is no part and has no size.
_ROWS = {
    HEAT: ("SV-HEAT", "Both shafts from one heat of bar"),
    CERTIFICATE: ("SV-CERT", "Certificate of the bar"),
}
_ONE = Decimal(1)
_FIT_TEXT = "Fit your coupling, face on the shaft"


def chosen_lines(
    order: Order, stock: Stock, rates: Rates, so_far: Sequence[Found]
) -> Iterator[Found]:
    """A line for each option that was ticked; ``so_far``: the lines without them.

    The rush comes last: it goes by all labour, that of what was ticked included.
    """
    lines = list(so_far)
    for key in sorted(order.choice.options - {RUSH}):
        lines.append(found := option_line(key, order, stock, rates, so_far))
        yield found
    if RUSH in order.choice.options:
        yield rush_line(lines, rates)


def option_line(
    key: str, order: Order, stock: Stock, rates: Rates, so_far: Sequence[Found]
) -> Found:
    """The line of one option other than a rush; without an amount where nothing prices it."""
    name, _, rest = key.partition(":")
    if name in (PART, SPARE):
        found = _part(rest, stock, spare=name == SPARE)
    elif name in _ROWS:
        found = _row(*_ROWS[name], stock)
    elif name == FIT and order.shaft is not None:
        found = _fit(order.shaft, stock)
    elif name == LONG and order.shaft is not None and (extra := left_on(rest)):
        found = _left_long(extra, order.shaft, rates, so_far)
    else:
        found = unpriced(key.upper()[:40], "Option", "each", "it is not on offer any more")
    return rounded(found, rates.currency)


def rush_line(lines: Sequence[Found], rates: Rates) -> Found:
    """A share of the labour in these lines, to be made before its turn."""
    text, work = RUSH_TEXT, labour(lines)
    if not work:
        return unpriced("RUSH", text, "each", "the price of the work is not known yet")
    how = f"{plain(rates.rush_rate * 100)} % of {listed(work)} labour"
    return rounded(sum_line("RUSH", text, work * rates.rush_rate, how), rates.currency)


def key_words(key: str, stock: Stock) -> str:
    """What a key means, for people."""
    name, _, rest = key.partition(":")
    if name in (PART, SPARE):
        part = stock.part(rest.partition(":")[2])
        return part.description if part else rest.partition(":")[2]
    rows = {row: text for row, (_code, text) in _ROWS.items()}
    words = {FIT: _FIT_TEXT, RUSH: RUSH_TEXT, LONG: "a shaft left long to be trimmed", **rows}
    return words.get(name, key[:40])


def _part(rest: str, stock: Stock, *, spare: bool) -> Found:
    count, _, code = rest.partition(":")
    part = stock.part(code) if count.isdecimal() else None
    if part is None:
        return unpriced(code[:40] or "OPTION", "Option", "each", "no longer in the catalogue")
    text = f"{SPARE_WORD}{part.description}" if spare else capital(part.description)
    times = "" if count == "1" else f"{count} × "
    how = f"{times}{listed(part.price)}"
    return priced_line(part.code, text, Decimal(count), part.per, part.price, how)


def _row(code: str, text: str, stock: Stock) -> Found:
    row = stock.part(code)
    if row is None:
        return unpriced(code, text, "each", "not in the catalogue")
    return priced_line(code, text, _ONE, row.per, row.price, listed(row.price))


def _fit(shaft: Shaft, stock: Stock) -> Found:
    row = work_step(stock, "SV-FIT", shaft.diameter)
    if row is None:
        return unpriced("SV-FIT", _FIT_TEXT, "each", "no price for this diameter in the catalogue")
    return priced_line(row.code, _FIT_TEXT, _ONE, "each", row.price, listed(row.price))


# --- Left long, to be faced at the boat -------------------------------------------------


def _left_long(extra: Length, shaft: Shaft, rates: Rates, so_far: Sequence[Found]) -> Found:
    """The bar's price for what is left on, in whole steps as the bar itself is charged."""
    inch = shaft.system == "inch"
    unit, unit_nm = ("in", NM_PER_INCH) if inch else ("mm", NM_PER_MM)
    step = rates.charge_step_in if inch else rates.charge_step_mm
    text = f"Left {show(extra, shaft.system)} long at the coupling end, for a yard to face"
    price = _bar_price(so_far, unit)
    if price is None:
        return unpriced("LONG", text, unit, "the price of the bar is not known yet")
    steps, rest = divmod(Decimal(extra.nm), step * unit_nm)
    charged = (steps + bool(rest)) * step
    how = f"{plain(charged)} {unit} × {listed(price)}"
    return priced_line("LONG", text, charged, unit, price, how)


def _bar_price(so_far: Sequence[Found], unit: str) -> Decimal | None:
    """The bar is the one line that is charged by length."""
    lines = (found if isinstance(found, Line) else found[0] for found in so_far)
    return next((line.unit_price for line in lines if line.unit == unit), None)
