"""Setting prices from a day on. Each function is one whole step, stored or not at all."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from datetime import date
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils import timezone

from catalog.models import Part
from catalog.prices import selectors
from catalog.prices.dating.services import LONGEST_WHY, NewPrice, store_prices
from catalog.services import TRAIL, next_version
from staff.trail.services import States, note_changes

__all__ = ["LONGEST_WHY", "NewPrice", "PriceRefused", "PricesOvertaken", "set_prices"]


class PricesOvertaken(Exception):
    """Somebody else has set a price of the same part meanwhile."""

    def __init__(self, codes: Collection[str] = ()) -> None:
        which = f" of {', '.join(sorted(codes)[:5])}" if codes else ""
        super().__init__(
            f"Somebody else set a price{which} a moment ago. Nothing of yours is stored; please "
            "look at theirs, then send yours again if they are still needed."
        )


class PriceRefused(ValueError):
    """What cannot be stored, as a sentence for whoever typed it. ``field``: the box it is about."""

    def __init__(self, field: str, words: str) -> None:
        super().__init__(words)
        self.field = field


def set_prices(
    *, prices: Iterable[NewPrice], by: User, why: str, seen: int | None = None
) -> tuple[NewPrice, ...]:
    """Set prices, each from its own day, today at the earliest; those that change something.

    ``seen``: the newest row that was stored when these were looked at. Raises PriceRefused and
    PricesOvertaken; then nothing is stored.
    """
    new, why = tuple(prices), why.replace("\x00", "").strip()
    _hold(new, why)
    codes = {one.code for one in new}
    try:
        with transaction.atomic():
            next_version()  # first: whoever waits here sees what the other one has set
            if seen is not None and (late := selectors.set_since(seen, codes)):
                raise PricesOvertaken(late)
            return _set(new, codes, by, why)
    except IntegrityError as error:
        raise PricesOvertaken from error  # the numbers of a part's prices follow each other


def _hold(new: tuple[NewPrice, ...], why: str) -> None:
    if not why:
        words = "Please write why, in a sentence for whoever reads it next year."
        raise PriceRefused("why", words)
    if len(why) > LONGEST_WHY:
        raise PriceRefused("why", f"Please keep the reason under {LONGEST_WHY} characters.")
    if any(one.from_day < timezone.localdate() for one in new):
        raise PriceRefused(
            "from_day", "That day is over; quotes of that day keep their prices. Use today."
        )


def _set(
    new: tuple[NewPrice, ...], codes: Collection[str], by: User, why: str
) -> tuple[NewPrice, ...]:
    known = set(Part.objects.filter(code__in=codes).values_list("code", flat=True))
    if gone := sorted(set(codes) - known):
        raise PriceRefused("code", f"There is no part {gone[0]} in the catalogue.")
    then: dict[date, dict[str, Decimal]] = {}
    for day in {one.from_day for one in new}:
        then[day] = selectors.prices_on(day, codes)
    changed = tuple(one for one in new if then[one.from_day].get(one.code) != one.price)
    if not changed:
        raise PriceRefused("price", "These are the prices of that day already; change one first.")
    store_prices(changed, by=by, why=why)
    before = {(one.code, one.from_day): then[one.from_day].get(one.code) for one in changed}
    _tell(changed, before, by, why)
    return changed


def _tell(
    changed: Iterable[NewPrice],
    before: Mapping[tuple[str, date], Decimal | None],
    by: User,
    why: str,
) -> None:
    """One line of the trail for each price, in one statement."""
    lines: list[tuple[object, States]] = []
    for one in changed:
        old = before[one.code, one.from_day]
        name = f"price from {one.from_day.isoformat()}"
        lines.append((one.code, ({name: _text(old)}, {name: _text(one.price)})))
    note_changes(record=TRAIL, by=by, why=why, changes=lines)


def _text(price: Decimal | None) -> str:
    return "" if price is None else f"{price.normalize():f}"
