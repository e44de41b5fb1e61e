"""Work priced by the size of the bar, and which lines of a price are labour."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from catalog.domain.lengths import Length
from catalog.domain.stock import Kind, Stock, StockPart
from quotes.domain.lines import Found, Line

# Ends, fitting, straightening. The tube and its caps are goods, though they are rows of work.
_LABOUR = ("SV-PROP", "SV-FWD", "SV-FIT", "SV-STRAIGHT")


def work_step(stock: Stock, prefix: str, diameter: Length) -> StockPart | None:
    """The smallest step of one job (``SV-FIT``) that reaches this diameter, or None."""
    steps = [
        part
        for part in stock.of_kind(Kind.SERVICE)
        if part.code.startswith(f"{prefix}-") and part.diameter and part.diameter >= diameter
    ]
    return min(steps, key=lambda part: part.diameter.nm if part.diameter else 0, default=None)


def labour(lines: Iterable[Found]) -> Decimal | None:
    """The sum of all work in these lines; None while the price of some of it is to come."""
    total = Decimal(0)
    for found in lines:
        line = found if isinstance(found, Line) else found[0]
        if not line.code.startswith(_LABOUR):
            continue
        if line.amount is None:
            return None
        total += line.amount
    return total
