"""Reading the counts: one query for whatever a page needs."""

from __future__ import annotations

from collections.abc import Iterable

from django.db.models import QuerySet, Sum

from quotes.domain.insight.measures import Counted, Counts, Measure
from quotes.insight.asked import Asked
from quotes.models import Cell


def counts(asked: Asked, measures: Iterable[Measure]) -> Counts:
    """Those measures by month and key, under the circumstances asked for: one query."""
    rows = under(Cell.objects.all(), asked).filter(measure__in=[one.value for one in measures])
    summed = (
        rows.order_by().values_list("month", "measure", "key").annotate(Sum("n"), Sum("amount"))
    )
    return {
        (month, Measure(measure), key): Counted(n, amount)
        for month, measure, key, n, amount in summed
    }


def under(rows: QuerySet[Cell], asked: Asked) -> QuerySet[Cell]:
    """The rows of those months under those circumstances."""
    rows = rows.filter(month__range=(asked.first, asked.last))
    for name in ("channel", "method", "layout", "role"):
        if wanted := getattr(asked, name):
            rows = rows.filter(**{name: wanted})
    return rows.filter(parts__contains=asked.part) if asked.part else rows
