"""Adding dated prices, inside the transaction of whatever else is changed."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.contrib.auth.models import User

from catalog.models import PartPrice
from catalog.prices import selectors

LONGEST_WHY = 400
_BATCH = 500


@dataclass(frozen=True, slots=True)
class NewPrice:
    """One price from a day on."""

    code: str
    price: Decimal
    from_day: date


def store_prices(new: Collection[NewPrice], *, by: User | None, why: str) -> None:
    """Add the rows, inside the caller's transaction, numbered after those that are there."""
    last = selectors.last_numbers({one.code for one in new})
    rows = []
    for one in new:
        last[one.code] = number = last.get(one.code, 0) + 1
        rows.append(
            PartPrice(
                code=one.code, number=number, price=one.price, from_day=one.from_day, by=by,
                why=why[:LONGEST_WHY],
            )
        )  # fmt: skip
    PartPrice.objects.bulk_create(rows, batch_size=_BATCH)
