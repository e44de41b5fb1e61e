"""Counts of a month are made anew from its facts, as often as anything in it changes."""

from __future__ import annotations

from collections.abc import Iterable

from django.db import transaction
from django.db.models import Count

from quotes.domain.insight.measures import Measure
from quotes.insight.counting.cells import (
    Tallies,
    count_bars,
    count_flags,
    count_mismatches,
    count_received,
    count_shipped,
)
from quotes.insight.models import (
    BarFact,
    Cell,
    FlagFact,
    MismatchFact,
    MonthToCount,
    RequestFact,
)

_BATCH = 2000
_CIRCUMSTANCES = ("channel", "method", "layout", "role", "parts")


@transaction.atomic(savepoint=False)
def month_is_behind(months: Iterable[str]) -> None:
    """Its counts will be made anew; said in the transaction that changes its facts.

    A month that stands on the list already is held until that transaction ends: whoever counted
    it meanwhile would take it off without having seen the facts.
    """
    missing = set(months) - {""}
    while missing:  # one that was counted and taken off just now is put there again
        rows = [MonthToCount(month=month) for month in sorted(missing)]
        MonthToCount.objects.bulk_create(rows, ignore_conflicts=True)
        held = MonthToCount.objects.filter(pk__in=missing).order_by("pk").select_for_update()
        missing -= set(held.values_list("pk", flat=True))


def count_months(most: int = 0) -> int:
    """Make the counts of months that are behind anew, the newest first; how many.

    ``most``: no more than so many now; 0 is all. A month is taken off the list in the transaction
    that counts it, so whoever changes a fact meanwhile puts it back.
    """
    months = MonthToCount.objects.order_by("-month").values_list("month", flat=True)
    some = list(months[:most] if most else months)
    for month in some:
        count_month(month)
    return len(some)


@transaction.atomic
def count_month(month: str) -> None:
    """The counts of one month, all of them, from its facts as they are now."""
    MonthToCount.objects.filter(pk=month).delete()
    cells = _tallies(month).cells()
    Cell.objects.filter(month=month).delete()
    Cell.objects.bulk_create(cells, batch_size=_BATCH)


def _tallies(month: str) -> Tallies:
    tallies = Tallies(month)
    of_month = {"month": month}
    count_received(tallies, RequestFact.objects.filter(**of_month).iterator(_BATCH))
    shipped = RequestFact.objects.filter(shipped_month=month)
    count_shipped(tallies, shipped.iterator(_BATCH))
    count_flags(tallies, FlagFact.objects.filter(**of_month).iterator(_BATCH))
    count_mismatches(tallies, MismatchFact.objects.filter(**of_month).iterator(_BATCH))
    bars = BarFact.objects.filter(**of_month).select_related("fact")
    count_bars(tallies, bars.iterator(_BATCH))
    _count_calls(tallies, month)
    return tallies


def _count_calls(tallies: Tallies, month: str) -> None:
    """Calls that were made in the month, by the circumstances of their requests."""
    called = RequestFact.objects.filter(submission__calls__month=month).order_by()
    rows = called.values_list(*_CIRCUMSTANCES).annotate(n=Count("submission__calls"))
    for *circumstances, n in rows:
        channel, method, layout, role, parts = circumstances
        tallies.add((channel, method, layout, role, parts), Measure.CALL, n=n)
