"""What is read of call-backs: the queue by need, calls made, numbers read blind."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from django.contrib.auth.models import User
from django.db.models import Q, QuerySet
from django.utils import timezone

from intake.calling.claims.selectors import claim_of as claim_of
from intake.calling.filters import CallFilters, CallsMadeFilters, Place
from intake.calling.models import BlindReading
from intake.domain.lifecycle import Status
from intake.models import CallRecord, SheetVersion, Submission
from intake.selectors import with_current

LATE_MOST = 100  # counted no further: nobody needs to know more exactly


def waiting(*, filters: CallFilters, by: User, most: int) -> list[Submission]:
    """Who must be called, by need: one more than ``most``, from the place the filters tell.

    Each comes with its claim and the person, with its current sheet and what to ask. Three
    queries, however many wait.
    """
    found = Submission.objects.filter(_shown(filters, by), status=Status.NEEDS_CALL)
    if filters.verdict:
        found = found.filter(verdict=filters.verdict)
    if filters.channel:
        found = found.filter(channel=filters.channel)
    if place := filters.after:
        found = found.filter(
            Q(call_by__gt=place.at) | Q(call_by=place.at, pk__gt=place.pk), call_by__gte=place.at
        )
    in_order = found.order_by("call_by", "pk").select_related("claim__by")
    return list(in_order.prefetch_related(with_current())[: most + 1])


def _shown(filters: CallFilters, by: User) -> Q:
    now = timezone.now()
    due = Q(not_before__isnull=True) | Q(not_before__lte=now)
    shown = {
        "mine": Q(claim__by=by, claim__until__gt=now),
        "free": due & (Q(claim__isnull=True) | Q(claim__until__lte=now)),
        "later": Q(not_before__gt=now),
        "late": due & Q(call_by__lt=now),
    }
    return shown.get(filters.show, due)


def late() -> QuerySet[Submission]:
    """Who should have been called by now, the most pressing first; who is put off is not late."""
    now = timezone.now()
    due = Q(not_before__isnull=True) | Q(not_before__lte=now)
    past = Submission.objects.filter(due, status=Status.NEEDS_CALL, call_by__lt=now)
    return past.order_by("call_by", "pk")


def late_count() -> int:
    """How many are late, up to LATE_MOST: one query by the index, with a limit."""
    return len(late().values_list("pk", flat=True)[:LATE_MOST])


def calls_made(*, filters: CallsMadeFilters, most: int) -> list[CallRecord]:
    """Calls that were made, newest first: one more than ``most``. One query."""
    found = CallRecord.objects.select_related("by", "submission")
    if filters.day:
        start = _midnight(filters.day)
        found = found.filter(at__gte=start, at__lt=_midnight(filters.day + timedelta(days=1)))
    if filters.person:
        found = found.filter(by_id=filters.person)
    if place := filters.after:
        found = found.filter(Q(at__lt=place.at) | Q(at=place.at, pk__lt=place.pk))
        found = found.filter(at__lte=place.at)
    return list(found.order_by("-at", "-pk")[: most + 1])


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time(0), tzinfo=timezone.get_current_timezone())


def people() -> list[tuple[int, str]]:
    """Who works here, by name: who a call may have been made by."""
    names = User.objects.order_by("username").values_list("pk", "username")
    return list(names)


def version(submission: Submission, number: int) -> SheetVersion | None:
    """One version of its sheet, with who made it."""
    found = submission.sheets.filter(number=number).select_related("made_by")
    return found.first()


def newest_version(submission: Submission) -> SheetVersion:
    """The version that counts, with who made it."""
    return submission.sheets.select_related("made_by").get(is_current=True)


def blind_readings(sheet: SheetVersion, answer: str) -> list[BlindReading]:
    """Every reading of one answer that was taken without seeing the sheet, oldest first."""
    return list(BlindReading.objects.filter(sheet=sheet, answer=answer).select_related("by"))


def place_of(row: Submission | CallRecord) -> Place:
    """Where the next page begins: after this row."""
    at = row.call_by if isinstance(row, Submission) else row.at
    return Place(at or timezone.now(), row.pk)
