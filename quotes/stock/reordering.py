"""What is to be ordered, how much of it, and why."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalog.domain.lengths import Length
from catalog.models import Part
from catalog.pieces import selectors as rack
from catalog.pieces.models import ReorderPoint
from quotes.domain.nesting import Demand, Rod, plan
from quotes.stock import selectors
from quotes.stock.models import SHAFT, Hold
from quotes.stock.rows import whose


@dataclass(frozen=True, slots=True)
class ReorderRow:
    """One line of the list. ``code`` "" where no part of the catalogue is what is wanted."""

    code: str
    what: str
    quantity: int
    on_hand: int | None
    held: int
    why: tuple[str, ...]


def reorder_rows() -> list[ReorderRow]:
    """Everything accepted that is not there, and every part at its reorder point, by code."""
    wanted: dict[str, list[Hold]] = {}
    for hold in selectors.to_order():
        wanted.setdefault(hold.part_code or hold.what, []).append(hold)
    low = {point.part.code: point for point in rack.low_parts()}
    parts = {part.code: part for part in rack.parts_of([*wanted, *low])}
    keys = sorted({*wanted, *low})
    return [_row(key, parts.get(key), wanted.get(key, []), low.get(key)) for key in keys]


def _row(key: str, part: Part | None, holds: list[Hold], low: ReorderPoint | None) -> ReorderRow:
    short = _bars_for(holds, part) + sum(hold.quantity for hold in holds if hold.line != SHAFT)
    up_to = low.to - _free(part) if low and part else 0
    return ReorderRow(
        code=part.code if part else "",
        what=part.description if part else holds[0].what,
        quantity=short + max(0, up_to),
        on_hand=part.on_hand if part else None,
        held=part.held if part else 0,
        why=(*_because(holds), *_low_words(low)),
    )


def _bars_for(holds: list[Hold], part: Part | None) -> int:
    """New bars of the stock length for these shafts, as many on each as fit; one each where the
    stock length is not known, or is too short for it."""
    shafts = [hold for hold in holds if hold.line == SHAFT]
    if part is None or part.stock_length_nm is None or not shafts:
        return len(shafts)
    bar = Length(part.stock_length_nm)
    rods = [Rod(str(at), bar, whole=True) for at in range(len(shafts))]
    made = plan([Demand(str(hold.pk), hold.needed) for hold in shafts], rods)
    return made.score.opened + made.score.unserved


def _free(part: Part | None) -> int:
    return (part.on_hand or 0) - part.held if part else 0


def _because(holds: list[Hold]) -> Iterator[str]:
    for hold in holds:
        needs = hold.needed.both() if hold.line == SHAFT else str(hold.quantity)
        yield f"{hold.quote.number}, {whose(hold)}: {needs}"


def _low_words(low: ReorderPoint | None) -> Iterator[str]:
    if low:
        yield f"{_free(low.part)} free; to be ordered at {low.at}, up to {low.to}"
