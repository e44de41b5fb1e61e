"""What a case costs, line by line. The usual amounts are the demo's cost model, invented."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from quotes.domain.money import to_money

# Invented: an hour at the desk comes to the 43 that the cost model has for a remake.
DESK_RATE = Decimal("43.00")
LARGEST = Decimal("99999.99")


@dataclass(frozen=True, slots=True)
class Usual:
    """One usual line: kind of cost, words, amount. Every amount is invented."""

    kind: str
    words: str
    amount: Decimal


def _usual(*lines: tuple[str, str, str]) -> tuple[Usual, ...]:
    return tuple(Usual(kind, words, Decimal(amount)) for kind, words, amount in lines)


_DESK = ("desk", "desk time, one hour", "43.00")
# Sums: remake 470, shorten 180, swap 75 (invented; how 180 and 75 are split is invented too).
USUAL: dict[str, tuple[Usual, ...]] = {
    "remake": _usual(
        ("material", "a new bar", "180.00"),
        ("labour", "a day's part at the lathe", "165.00"),
        ("freight_in", "long parcel back", "41.00"),
        ("freight_out", "long parcel out again", "41.00"),
        _DESK,
    ),
    "shorten": _usual(
        ("labour", "face off, keyway run on, fit and face", "98.00"),
        ("freight_in", "long parcel back", "41.00"),
        ("freight_out", "long parcel out again", "41.00"),
    ),
    "swap": _usual(
        ("freight_in", "parcel back", "16.00"),
        ("freight_out", "parcel out again", "16.00"),
        _DESK,
    ),
}


def desk_cost(minutes: int, rate: Decimal = DESK_RATE) -> Decimal:
    """Minutes (0 or more) at the desk's rate for an hour, rounded once.

    >>> desk_cost(20)
    Decimal('14.33')
    """
    return to_money(rate * minutes / 60)


_COST = re.compile(r"([-−]?)\s*(\d{1,6})(?:[.,](\d{1,2}))?")


def read_cost(text: str) -> Decimal | None:
    """An amount as staff type it, with a minus to take a line back; None where it is none.

    >>> read_cost("12,5"), read_cost("-41"), read_cost("a lot")
    (Decimal('12.50'), Decimal('-41.00'), None)
    """
    match = _COST.fullmatch(text.strip())
    if match is None:
        return None
    sign, whole, part = match.groups()
    amount = Decimal(f"{whole}.{part or 0}")
    return to_money(-amount if sign else amount)
