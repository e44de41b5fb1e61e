"""In which order people are called back: by the moment the call must have been made, and why then.

That moment does not move while somebody waits, so an index keeps the order.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import NamedTuple

from intake.domain.limits import Limits

_COUNT = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
          "eleven", "twelve")  # fmt: skip
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


class CallNeed(NamedTuple):
    """The latest moment a call should be made, and why then, in words for the desk."""

    call_by: datetime
    why: str


def call_need(
    since: datetime, needed_by: date | None, at_stake: Decimal | None, limits: Limits
) -> CallNeed:
    """When somebody who waits ``since`` then must have been called. Earliest first is the order.

    ``since`` in the desk's own time zone; ``needed_by`` the day she must run or be lifted;
    ``at_stake`` what a wrong cut would cost in parts. Whichever comes first: the usual time (less
    where much is at stake), or the day that still leaves time for shop and road. A call that
    is wanted sooner than one can be made is wanted as soon as can be.
    """
    usual = _usual(since, at_stake, limits)
    if needed_by is None:
        return usual
    day = f"She must run on {needed_by.day} {_MONTHS[needed_by.month - 1]}"
    soonest = since + timedelta(hours=limits.call_soonest_hours)
    # Counted in days first: a date of long ago has no day nine days before it.
    left = (needed_by - since.date()).days - limits.days_shop_and_road
    last = _midnight(since, since.date() + timedelta(days=left)) if left > 0 else since
    if last < soonest:
        return min(usual, CallNeed(soonest, f"{day}, which leaves no day to wait."))
    if last < usual.call_by:
        days = _counted(limits.days_shop_and_road, "day")
        return CallNeed(last, f"{day}; {days} in the shop and on the road.")
    return usual


def _usual(since: datetime, at_stake: Decimal | None, limits: Limits) -> CallNeed:
    """As everybody is called: within so many hours, sooner where a wrong cut would be dear."""
    if at_stake is not None and at_stake >= limits.call_dear_from:
        within = _counted(limits.call_within_hours_dear, "hour")
        dear = since + timedelta(hours=limits.call_within_hours_dear)
        return CallNeed(dear, f"Parts for {at_stake:f} at stake: called within {within}.")
    within = _counted(limits.call_within_hours, "hour")
    return CallNeed(since + timedelta(hours=limits.call_within_hours), f"Called within {within}.")


def _midnight(since: datetime, day: date) -> datetime:
    """The beginning of a day on the desk's clock."""
    return datetime(day.year, day.month, day.day, tzinfo=since.tzinfo)


def _counted(number: int, what: str) -> str:
    """Small numbers as words.

    >>> _counted(9, "day"), _counted(1, "hour"), _counted(48, "hour")
    ('nine days', 'one hour', '48 hours')
    """
    word = _COUNT[number] if number < len(_COUNT) else str(number)
    return f"{word} {what}" if number == 1 else f"{word} {what}s"
