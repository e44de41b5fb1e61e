"""How long it takes: working days from acceptance, and the days between which it leaves us."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from typing import Any

from quotes.domain.calendar import USUAL, Calendar
from quotes.domain.order import PLAIN_ALLOYS, Order
from quotes.domain.rates import Rates

RUSH = "rush"  # the option that puts the work first
# Working days a figure of ours may be off, and in which a stated range must be taken up; invented.
SPREAD, HOLDS = 2, 3
# Days on the road, and days to fit it and let her settle; common practice, no source.
TRANSIT, FITTING = 3, 2


class Bar(StrEnum):
    """Where the bar is: laid aside for this order, in the catalogue's stock, or to be ordered."""

    HELD = "held"
    IN_STOCK = "in stock"
    TO_ORDER = "to order"


@dataclass(frozen=True, slots=True)
class LeadRange:
    """The first and the last day on which it leaves us; ``accept_by``: the day that holds for."""

    first: date
    last: date
    accept_by: date | None = None


def lead_days(order: Order, rates: Rates, bar: Bar = Bar.IN_STOCK) -> int:
    """Working days of our own until it leaves the shop, the slowest part first.

    A bar laid aside counts as a blank, one to be ordered as a special alloy does. Days are the
    desk's own (invented for the demo).
    """
    days = rates.lead_days
    if order.shaft is None:
        return days["blank"]
    needed = [days["blank" if bar == Bar.HELD else "bar"]]
    if bar != Bar.HELD and (bar == Bar.TO_ORDER or order.shaft.alloy not in PLAIN_ALLOYS):
        needed.append(days["special_alloy"])
    if order.coupling_comes or order.shaft.forward_end == "tapered":
        needed.append(days["coupling"])
    return max(needed)


def bar_of(order: Order, record: Mapping[str, Any]) -> Bar:
    """Where the bar is by the stored sheet: in stock where nothing else is known."""
    bars = [part for part in record.get("parts") or () if part.get("kind") == "bar"]
    if order.shaft is None or not bars or any(part.get("in_stock") for part in bars):
        return Bar.IN_STOCK
    return Bar.TO_ORDER


def lead_range(
    order: Order,
    record: Mapping[str, Any],
    rates: Rates,
    calendar: Calendar,
    load_days: int,
    from_day: date,
    *,
    bar: Bar | None = None,
    accept_by: date | None = None,
) -> LeadRange:
    """Between which days it leaves us when it is accepted from ``from_day`` on.

    First: our own days and nothing waits before it. Last: accepted as late as ``accept_by``,
    behind ``load_days`` working days of other work, and ``SPREAD`` days more. A rush goes first,
    so that no other work counts; a parcel without a shaft waits for no lathe either.
    """
    own = lead_days(order, rates, bar or bar_of(order, record))
    waits = 0 if order.shaft is None or is_rush(order) else load_days
    last = calendar.after(accept_by or from_day, own + waits + SPREAD)
    return LeadRange(calendar.after(from_day, own), last, accept_by)


def is_rush(order: Order) -> bool:
    """Whether the customer chose that this work goes first."""
    return RUSH in order.choice.options


def working_days_after(day: date, count: int, calendar: Calendar = USUAL) -> date:
    """The day so many working days later, by the shop's calendar.

    >>> working_days_after(date(2026, 11, 27), 3)  # a Friday
    datetime.date(2026, 12, 2)
    """
    return calendar.after(day, count)


# --- In words ---------------------------------------------------------------------------


def lead_words(
    order: Order,
    record: Mapping[str, Any],
    rates: Rates,
    leaves: LeadRange | None = None,
    say_day: Callable[[date], str] = date.isoformat,
    needed: date | None = None,
) -> tuple[str, ...]:
    """Sentences about the time it takes; ``leaves`` says it in days, ``say_day`` words a day.

    ``needed``: the day it must be in the boat, which may be too early for that.
    """
    days = lead_days(order, rates, bar_of(order, record))
    said = [f"Leaves us about {days} working days after you accept."]
    if leaves is not None:
        said = [range_words(leaves, say_day)]
        said += ["Your work goes first, so nothing else waits before it."] * is_rush(order)
        said += too_late_words(leaves, needed, say_day)
    if order.coupling_comes:
        said.append("Your own coupling must reach us first: the days count from then.")
    waiting = list(_not_on_the_shelf(order, record))
    if waiting:
        said.append(f"Not on the shelf today, we will tell you the day: {', '.join(waiting)}.")
    return tuple(said)


def _not_on_the_shelf(order: Order, record: Mapping[str, Any]) -> Iterator[str]:
    """Of what the sheet asks for, only what this order has: a remake is the shaft alone."""
    ordered = {part.code for part in order.parts}
    for part in record.get("parts") or ():
        is_ours = part["code"] in ordered or (order.shaft and part.get("kind") == "bar")
        if is_ours and not part.get("in_stock"):
            yield part["code"]


def ready_on(last: date, transit: int = TRANSIT, fitting: int = FITTING) -> date:
    """The day it is in the boat at the latest: sent, on the road, fitted.

    >>> ready_on(date(2026, 12, 12))
    datetime.date(2026, 12, 17)
    """
    return last + timedelta(days=transit + fitting)


def needed_day(answers: Mapping[str, Any]) -> date | None:
    """When she must run or be lifted, whichever is sooner; None where nobody said.

    >>> needed_day({"needed_by": {"run": "2026-12-24", "lift": "2026-12-20"}})
    datetime.date(2026, 12, 20)
    """
    told = answers.get("needed_by")
    days = [told.get(name) for name in ("run", "lift")] if isinstance(told, Mapping) else []
    return min((day for text in days if (day := _day(text))), default=None)


def _day(text: object) -> date | None:
    try:
        return date.fromisoformat(str(text))
    except ValueError:
        return None


def too_late_words(
    leaves: LeadRange, needed: date | None, say_day: Callable[[date], str] = date.isoformat
) -> list[str]:
    """What to say where it may come too late; nothing where it does not, or nobody said when."""
    ready = ready_on(leaves.last)
    if needed is None or ready <= needed:
        return []
    return [
        f"You need it by {say_day(needed)}; with the way to you and {FITTING} days to fit it, "
        f"it may be {say_day(ready)}. Can the lift move? Ring us: a rush puts your work first."
    ]


def range_words(leaves: LeadRange, say_day: Callable[[date], str] = date.isoformat) -> str:
    """The range as one sentence; the month is said once where both days are in it.

    >>> leaves = LeadRange(date(2026, 12, 8), date(2026, 12, 12), date(2026, 12, 1))
    >>> range_words(leaves, lambda day: f"{day.day} December")
    'Leaves us between 8 and 12 December, if you accept by 1 December.'
    """
    first, last = leaves.first, leaves.last
    one_month = (first.year, first.month) == (last.year, last.month)
    begins = str(first.day) if one_month else say_day(first)
    if first == last:
        said = f"Leaves us on {say_day(last)}"
    else:
        said = f"Leaves us between {begins} and {say_day(last)}"
    return (
        f"{said}, if you accept by {say_day(leaves.accept_by)}." if leaves.accept_by else f"{said}."
    )
