"""What one day at the desk holds: each list by its index, and only so long as a screen takes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Generic, TypeVar

from django.db.models import Q, QuerySet
from django.utils import timezone

from intake.desk_drafts.selectors import Listed, open_drafts
from intake.domain.lifecycle import Status
from intake.finding.lists.selectors import rows_of
from intake.finding.models import RequestLine
from intake.models import CallRecord, Submission

SHOWN = 10
WEEK = timedelta(days=7)
Row = TypeVar("Row")


@dataclass(frozen=True, slots=True)
class Some(Generic[Row]):
    """The first of a list, and whether there are more."""

    rows: Sequence[Row]
    more: bool

    @classmethod
    def of(cls, rows: Sequence[Row]) -> Some[Row]:
        """At most ``SHOWN`` of rows that were read with one more."""
        return cls(rows[:SHOWN], len(rows) > SHOWN)

    def __len__(self) -> int:
        return len(self.rows)


@dataclass(frozen=True, slots=True)
class Day:
    """One day of the desk, as it stands ``now``."""

    now: datetime

    @property
    def today(self) -> date:
        """The day on the desk's own clock."""
        return timezone.localdate(self.now)

    @property
    def midnight(self) -> datetime:
        """When it began."""
        return datetime.combine(self.today, time(0), timezone.get_current_timezone())

    @property
    def late(self) -> Some[Submission]:
        """Calls that should have been made by now, the oldest first."""
        due = Q(not_before=None) | Q(not_before__lte=self.now)
        return _first(_to_call(Q(call_by__lt=self.now) & due))

    @property
    def to_make(self) -> Some[Submission]:
        """Calls that must be made before the day is over."""
        end = self.midnight + timedelta(days=1)
        due = Q(not_before=None) | Q(not_before__lte=self.now)
        return _first(_to_call(Q(call_by__gte=self.now, call_by__lt=end) & due))

    @property
    def promised(self) -> Some[Submission]:
        """Who asked to be called again today, in that order."""
        end = self.midnight + timedelta(days=1)
        asked = Q(not_before__gte=self.midnight, not_before__lt=end)
        held = Submission.objects.filter(asked, status=Status.NEEDS_CALL)
        return _first(held.select_related("claim__by").order_by("not_before", "pk"))

    @property
    def made(self) -> Some[CallRecord]:
        """Calls that were written down today, newest first."""
        calls = CallRecord.objects.filter(at__gte=self.midnight).order_by("-at", "-pk")
        return Some.of(list(calls.select_related("submission", "by")[: SHOWN + 1]))

    @property
    def drafts(self) -> Some[Listed]:
        """Calls that are being typed, or were left open."""
        return Some.of(open_drafts(SHOWN + 1))

    @property
    def needed(self) -> Some[Submission]:
        """What is needed within a week and is not done, and what was needed in the last."""
        days = (self.today - WEEK, self.today + WEEK)
        lines = RequestLine.objects.filter(needed__range=days).order_by("needed", "-pk")
        return Some.of(rows_of(list(lines.values_list("pk", flat=True)[: SHOWN + 1])))


def _to_call(when: Q) -> QuerySet[Submission]:
    held = Submission.objects.filter(when, status=Status.NEEDS_CALL)
    return held.select_related("claim__by").order_by("call_by", "pk")


def _first(rows: QuerySet[Submission]) -> Some[Submission]:
    return Some.of(list(rows[: SHOWN + 1]))
