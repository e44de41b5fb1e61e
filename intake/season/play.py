"""Play a season, or a part of it."""

from __future__ import annotations

from catalog.domain.stock import Stock
from intake.season.customers import a_customer
from intake.season.desks import by_tool
from intake.season.tally import Tally, count


def play(seed: int, first: int, last: int, stock: Stock) -> Tally:
    """Customers ``first`` to ``last`` (not included) of a season, against the three desks.

    Every customer depends on seed and number alone: parts of a season add up to the whole.
    """
    tally = Tally()
    for index in range(first, last):
        customer = a_customer(seed, index)
        count(tally, customer, by_tool(customer, stock))
    return tally
