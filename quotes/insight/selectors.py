"""Reading the counts and what lies behind them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.db.models import Q, QuerySet, Sum

from quotes.domain.insight.honesty import FIT_EDGES
from quotes.domain.insight.measures import Counted, Counts, Measure
from quotes.insight.asked import Asked
from quotes.models import Cell, FlagFact, MismatchFact, RequestFact

PAGE = 50
_MOST_WAITS = 100_000
_FILTERS = ("channel", "method", "layout", "role")


def counts(asked: Asked, measures: Iterable[Measure]) -> Counts:
    """Those measures by month and key, under the circumstances asked for: one query."""
    rows = under(Cell.objects.all(), asked).filter(measure__in=[one.value for one in measures])
    grouped = rows.order_by().values_list("month", "measure", "key")
    summed = grouped.annotate(Sum("n"), Sum("amount"))
    return {
        (month, Measure(measure), key): Counted(n, amount)
        for month, measure, key, n, amount in summed
    }


def under(rows: QuerySet[Any], asked: Asked, month: str = "month") -> QuerySet[Any]:
    """The rows of those months under those circumstances."""
    rows = rows.filter(**{f"{month}__range": (asked.first, asked.last)})
    for name in _FILTERS:
        if wanted := getattr(asked, name):
            rows = rows.filter(**{name: wanted})
    return rows.filter(parts__contains=asked.part) if asked.part else rows


def waits(asked: Asked) -> list[tuple[int, int, int]]:
    """Seconds waited for program, desk and customer, of each request that was quoted."""
    quoted = under(RequestFact.objects.exclude(machine_seconds=None), asked).order_by()
    names = ("machine_seconds", "desk_seconds", "customer_seconds")
    return list(quoted.values_list(*names)[:_MOST_WAITS])


def came_back(asked: Asked, most: int) -> list[MismatchFact]:
    """Mistakes that were seen before, the newest first, with their requests."""
    again = under(MismatchFact.objects.exclude(again=""), asked)
    return list(again.select_related("fact__submission").order_by("-on", "-pk")[:most])


# --- Behind a number ------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Behind:
    """Some of the requests behind a number; ``after``: where the next page goes on."""

    facts: list[RequestFact]
    after: int | None


def requests_behind(asked: Asked, measure: str, key: str, after: int | None = None) -> Behind:
    """Requests that are counted in a number, the newest first: two queries for any page."""
    facts = _counted_in(asked, measure, key)
    if after is not None:
        facts = facts.filter(pk__lt=after)
    found = list(facts.select_related("submission").order_by("-pk")[: PAGE + 1])
    return Behind(found[:PAGE], found[PAGE - 1].pk if len(found) > PAGE else None)


def _counted_in(asked: Asked, measure: str, key: str) -> QuerySet[RequestFact]:
    came = under(RequestFact.objects.all(), asked)
    left = under(RequestFact.objects.all(), asked, "shipped_month")
    if measure in (Measure.FLAG, Measure.FLAG_RIGHT, Measure.FLAG_ANSWERED):
        flags = under(FlagFact.objects.filter(check_id=key), asked)
        return RequestFact.objects.filter(pk__in=flags.order_by().values("fact"))
    if measure in (Measure.MISMATCH, Measure.BORN):
        return RequestFact.objects.filter(pk__in=_mistakes(asked, measure, key))
    if measure == Measure.CAUGHT:
        return came.filter(caught=key) if key else came.exclude(caught="")
    if measure == Measure.LACKING:
        return came.filter(lacking__icontains=key)
    if measure == Measure.SHIPPED:
        return left
    if measure == Measure.OVER:
        return left.filter(over__icontains=key)
    if measure == Measure.FIT_STATED:
        return left.filter(_in_fit_bin(key), fits__isnull=False)
    if measure == Measure.Z:
        return left.filter(_in_z_bin(key), fits=True)
    if measure == Measure.BAR_USED:
        bars = RequestFact.objects.filter(bar_facts__size=key)
        return bars.filter(bar_facts__month__range=(asked.first, asked.last)).distinct()
    return came


def _mistakes(asked: Asked, measure: str, key: str) -> QuerySet[MismatchFact, Any]:
    """By cause, by the letter of a family, or by the question it was made in."""
    rows = under(MismatchFact.objects.all(), asked)
    if measure == Measure.BORN:
        rows = rows.filter(answer=key)
    else:
        rows = rows.filter(cause__startswith=key) if len(key) == 1 else rows.filter(cause=key)
    return rows.order_by().values("fact")


def _in_fit_bin(key: str) -> Q:
    edges = (0.0, *FIT_EDGES, 1.01)
    at = int(key) if key.isdigit() and int(key) < len(edges) - 1 else 0
    return Q(stated_fit__gte=edges[at], stated_fit__lt=edges[at + 1])


def _in_z_bin(key: str) -> Q:
    if key == "-inf":
        return Q(z__lt=-4)
    if key == "inf":
        return Q(z__gte=4)
    try:
        low = float(key)
    except ValueError:
        return Q(pk=None)
    return Q(z__gte=low, z__lt=low + 0.5)
