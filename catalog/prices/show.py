"""A list of prices before it is set: what each part costs now, and what it would."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalog.domain.stock import Stock
from catalog.prices.dating.services import NewPrice

SHOWN = 300


@dataclass(frozen=True, slots=True)
class PreviewRow:
    """One part in the preview. ``change`` in words; "" where the price stays."""

    code: str
    description: str
    now: str
    new: str
    per: str
    change: str
    from_day: date


@dataclass(frozen=True, slots=True)
class Preview:
    """The first rows, how many there are, and how many of them change something."""

    rows: tuple[PreviewRow, ...]
    count: int
    changes: int

    @property
    def hidden(self) -> int:
        """Rows that are not shown."""
        return self.count - len(self.rows)


def preview(new: Sequence[NewPrice], shelf: Stock) -> Preview:
    """Every row against today's price."""
    rows = [_row(one, shelf) for one in new]
    changes = sum(bool(row.change) for row in rows)
    return Preview(tuple(rows[:SHOWN]), len(rows), changes)


def _row(one: NewPrice, shelf: Stock) -> PreviewRow:
    part = shelf.part(one.code)
    now = part.price if part else Decimal(0)
    return PreviewRow(
        code=one.code,
        description=part.description if part else "",
        now=price_text(now),
        new=price_text(one.price),
        per=part.per if part else "",
        change=_change(now, one.price),
        from_day=one.from_day,
    )


def _change(now: Decimal, new: Decimal) -> str:
    if now == new:
        return ""
    if not now:
        return "new"
    part = (new - now) / now * 100
    return f"{'+' if part > 0 else '−'}{abs(part):.1f} %"


def price_text(price: Decimal) -> str:
    """A price of the catalogue, two places at least: ``3.60``, ``0.145``."""
    places = max(2, -int(price.normalize().as_tuple().exponent))
    return f"{price:.{places}f}"
