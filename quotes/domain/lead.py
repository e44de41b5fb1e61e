"""How long it takes, in working days from acceptance."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

from quotes.domain.order import PLAIN_ALLOYS, Order
from quotes.domain.rates import Rates


def lead_days(order: Order, rates: Rates) -> int:
    """Working days until it leaves the shop, the slowest part first. Days are the desk's own."""
    days = rates.lead_days
    needed = [3] if order.shaft is None else [days["bar"]]
    if order.shaft and order.shaft.alloy not in PLAIN_ALLOYS:
        needed.append(days["special_alloy"])
    if order.shaft and (order.coupling_comes or order.shaft.forward_end == "tapered"):
        needed.append(days["coupling"])
    return max(needed)


def working_days_after(day: date, count: int) -> date:
    """The day so many working days later; no holiday is known here.

    >>> working_days_after(date(2026, 11, 27), 3)  # a Friday
    datetime.date(2026, 12, 2)
    """
    while count > 0:
        day += timedelta(days=1)
        count -= day.weekday() < 5
    return day


def lead_words(order: Order, record: Mapping[str, Any], rates: Rates) -> tuple[str, ...]:
    """Sentences about the time it takes."""
    said = [f"Leaves us about {lead_days(order, rates)} working days after you accept."]
    if order.coupling_comes:
        said.append("Your own coupling must reach us first: the days count from then.")
    waiting = [part["code"] for part in record.get("parts") or () if not part.get("in_stock")]
    if waiting:
        said.append(f"Not on the shelf today, we will tell you the day: {', '.join(waiting)}.")
    return tuple(said)
