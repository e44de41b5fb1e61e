"""What did a change do? A rate by month, with marks, and before and after each mark."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from intake.domain.shares import Share
from quotes.domain.insight.measures import Counts, Measure, total

NOTHING_OF_NOTHING = Share(0, 0)


@dataclass(frozen=True, slots=True)
class Mark:
    """Something that was changed on one day, in words. ``answer``: the question it concerns."""

    on: date
    words: str
    answer: str = ""

    @property
    def month(self) -> str:
        """The month it happened in."""
        return f"{self.on:%Y-%m}"


@dataclass(frozen=True, slots=True)
class BeforeAfter:
    """One mark, and the rate over as many whole months before it as after it.

    The month of the mark itself belongs to neither.
    """

    mark: Mark
    months: int
    before: Share
    after: Share

    @property
    def is_apart(self) -> bool:
        """Whether what may be true before and what may be true after have nothing in common.

        Stricter than a test of the difference: who is told so may rely on it.
        """
        if not self.before.of or not self.after.of:
            return False
        return self.before.high < self.after.low or self.after.high < self.before.low


@dataclass(frozen=True, slots=True)
class Changes:
    """Mistakes for each request by month, and every mark in those months."""

    months: tuple[str, ...]
    rates: tuple[Share, ...]
    marks: tuple[BeforeAfter, ...]


def changes(counts: Counts, months: Sequence[str], marks: Sequence[Mark]) -> Changes:
    """Requests with a mistake, of all that came, month by month; oldest first.

    A rule of its own for small desks: months are compared whole, so no season of days is split.
    """
    rates = tuple(_rate(counts, month) for month in months)
    inside = [mark for mark in marks if mark.month in months]
    compared = tuple(_around(mark, months, rates) for mark in sorted(inside, key=lambda m: m.on))
    return Changes(tuple(months), rates, compared)


def _rate(counts: Counts, month: str) -> Share:
    return Share(
        total(counts, Measure.CAUGHT, month=month).n, total(counts, Measure.RECEIVED, month=month).n
    )


def _around(mark: Mark, months: Sequence[str], rates: Sequence[Share]) -> BeforeAfter:
    at = list(months).index(mark.month)
    window = min(at, len(months) - at - 1)
    before = sum(rates[at - window : at], NOTHING_OF_NOTHING)
    after = sum(rates[at + 1 : at + 1 + window], NOTHING_OF_NOTHING)
    return BeforeAfter(mark, window, before, after)
