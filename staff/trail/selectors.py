"""Reading the trail."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from django.db.models import QuerySet
from django.utils import timezone

from staff.models import Change
from staff.trail.asked import Asked

PAGE = 50
_MOST_SENT = 100_000


def changes_of(record: str, key: object) -> QuerySet[Change]:
    """What was changed of one record, newest first; one query with who did it."""
    return Change.objects.filter(record=record, key=str(key)).select_related("by")


@dataclass(frozen=True, slots=True)
class ChangePage:
    """Some changes, newest first; ``after``: where the next page goes on."""

    changes: list[Change]
    after: int | None


def some_changes(asked: Asked) -> ChangePage:
    """Every change there is, page by page: one query, however many there are."""
    rows = _asked_for(asked)
    if asked.after is not None:
        rows = rows.filter(pk__lt=asked.after)
    found = list(rows[: PAGE + 1])
    return ChangePage(found[:PAGE], found[PAGE - 1].pk if len(found) > PAGE else None)


def all_of_them(asked: Asked) -> Iterator[Change]:
    """The same without pages, to be sent along."""
    return _asked_for(asked)[:_MOST_SENT].iterator(chunk_size=500)


def kinds() -> list[str]:
    """The kinds of records something was ever changed of."""
    return list(Change.objects.order_by("record").values_list("record", flat=True).distinct())


def _asked_for(asked: Asked) -> QuerySet[Change]:
    rows = Change.objects.select_related("by").order_by("-pk")
    if asked.record:
        rows = rows.filter(record=asked.record)
    if asked.key:
        rows = rows.filter(key=asked.key)
    if asked.by:
        rows = rows.filter(by__username=asked.by)
    if asked.first:
        rows = rows.filter(at__gte=_morning(asked.first))
    if asked.last:
        rows = rows.filter(at__lt=_morning(asked.last + timedelta(days=1)))
    return rows


def _morning(day: date) -> datetime:
    return timezone.make_aware(datetime.combine(day, time.min))
