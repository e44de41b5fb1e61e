"""Do they fit first time? Of what was sent and heard of, what fitted without rework."""

from __future__ import annotations

from dataclasses import dataclass

from intake.domain.shares import Share
from quotes.domain.insight.measures import Counts, Measure, by_month, total


@dataclass(frozen=True, slots=True)
class FitMonth:
    """The orders that left in one month, or in all: silence is no success and no failure."""

    month: str
    right: Share  # fitted with no rework, of those heard of
    coverage: Share  # heard of, of those that left


@dataclass(frozen=True, slots=True)
class Fit:
    """All months together, and each."""

    whole: FitMonth
    months: tuple[FitMonth, ...]


def first_time_right(counts: Counts) -> Fit:
    """First-time-right with its coverage, by the month an order left in."""
    months = by_month(counts, Measure.SHIPPED)
    return Fit(_of(counts, ""), tuple(_of(counts, month) for month in months))


def _of(counts: Counts, month: str) -> FitMonth:
    known = total(counts, Measure.KNOWN, month=month).n
    return FitMonth(
        month,
        Share(total(counts, Measure.RIGHT, month=month).n, known),
        Share(known, total(counts, Measure.SHIPPED, month=month).n),
    )
