"""What is read of intake: one question answered each, in a constant number of queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Literal

from django.db import connection
from django.db.models import Count, Prefetch, QuerySet
from django.utils import timezone

from intake.domain.causes import CAUSES
from intake.domain.history import History
from intake.domain.lifecycle import OPEN, Status
from intake.domain.questions import QUESTIONS
from intake.domain.sheet import Sheet
from intake.models import CallRecord, Event, FindingRecord, SheetVersion, Submission

Dimension = Literal["cause", "check", "question"]

# A second sheet for the same boat within this time is the same order, sent again.
DUPLICATE_DAYS = 45
_MOST_DUPLICATES = 20


def by_token(token: str) -> Submission:
    """The submission behind a private link. Raises Submission.DoesNotExist."""
    return Submission.objects.get(token=token)


def by_reference(reference: str) -> Submission:
    """The submission of this reference, as people type it. Raises Submission.DoesNotExist."""
    return Submission.objects.get(reference=reference.strip().upper())


def by_key(idempotency_key: str) -> Submission | None:
    """What an earlier call with this key stored, if anything."""
    known = Submission.objects.exclude(idempotency_key="")  # the index holds no empty keys
    return known.filter(idempotency_key=idempotency_key).order_by().first()


def current_sheet(submission: Submission) -> SheetVersion:
    """The version that counts now; the one already read with it, where there is one."""
    return submission.current


def call_queue() -> QuerySet[Submission]:
    """Who must be called, longest wait first. Take a page of it: three queries, however long.

    Each comes with its ``current`` sheet, and that with what to ask (``to_ask``: the findings of
    severity stop and ask, dearest first).
    """
    waiting = Submission.objects.filter(status=Status.NEEDS_CALL)
    return waiting.order_by("received_at", "pk").prefetch_related(_current())


def calls_waiting() -> int:
    """How many submissions are in the call-back queue."""
    return Submission.objects.filter(status=Status.NEEDS_CALL).count()


def _current() -> Prefetch[str, QuerySet[SheetVersion], str]:
    held = FindingRecord.objects.exclude(severity="note").order_by("position")
    sheets = SheetVersion.objects.filter(is_current=True).prefetch_related(  # type: ignore[no-redef]
        Prefetch("finding_rows", queryset=held, to_attr="to_ask")
    )
    return Prefetch("sheets", queryset=sheets, to_attr="current_sheets")


def checks_seen(submission: Submission) -> frozenset[str]:
    """The checks that have held any version of this submission so far."""
    rows = FindingRecord.objects.filter(sheet__submission=submission, counts=True)
    return frozenset(rows.order_by().values_list("check_id", flat=True))


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a submission's history."""

    at: datetime
    kind: Literal["event", "sheet", "call"]
    row: Event | SheetVersion | CallRecord


def history_of(submission: Submission) -> list[Entry]:
    """Everything that happened, oldest first: versions, calls and changes of status."""
    sheets = submission.sheets.select_related("made_by")
    calls = submission.calls.select_related("by", "sheet")
    events = submission.events.select_related("by")
    lines = [Entry(sheet.made_at, "sheet", sheet) for sheet in sheets]
    lines += [Entry(call.at, "call", call) for call in calls]
    lines += [Entry(event.at, "event", event) for event in events]
    # What happened in one step has one time: the call comes before the version it led to.
    order = {"call": 0, "sheet": 1, "event": 2}
    return sorted(lines, key=lambda line: (line.at, order[line.kind], line.row.pk))


def history_facts(sheet: Sheet, exclude: Submission | None = None) -> History:
    """What the desk knows beside the sheet: other open sheets for this boat and contact, and
    (on a re-check of ``exclude``) what a person has asked and had confirmed."""
    settled = _settled(exclude) if exclude else frozenset()
    return History(same_open=_same_open(sheet, exclude), settled=settled)


def _settled(submission: Submission) -> frozenset[tuple[str, str]]:
    confirmed = submission.calls.filter(outcome="confirmed")
    return frozenset(confirmed.values_list("check_id", "fingerprint"))


def _same_open(sheet: Sheet, exclude: Submission | None) -> tuple[str, ...]:
    boat = boat_key(sheet.boat_name)
    if not boat:
        return ()  # Without a name two boats of one yard cannot be told apart.
    since = timezone.now() - timedelta(days=DUPLICATE_DAYS)
    mine = contact_keys(sheet.contact.phone, sheet.contact.email)
    with connection.cursor() as cursor:
        cursor.execute(
            _SAME_BOAT, [boat, sheet.station, _moment(since), exclude.pk if exclude else 0]
        )
        return tuple(
            reference
            for reference, phone, email in cursor.fetchall()
            if mine & contact_keys(phone, email)
        )


# Asked on every request, so it is not built anew on each: that costs ten times the answer.
_SAME_BOAT = f"""
    SELECT reference, contact_phone, contact_email FROM {Submission._meta.db_table}
    WHERE boat_key = %s AND station = %s AND received_at >= %s
      AND status IN ({", ".join(f"'{status}'" for status in sorted(OPEN))}) AND id <> %s
    ORDER BY received_at LIMIT {_MOST_DUPLICATES}
"""  # noqa: S608  (made of our own constants)


def _moment(when: datetime) -> Any:
    """A moment as this database compares it."""
    return connection.ops.adapt_datetimefield_value(when)


def boat_key(name: str | None) -> str:
    """A boat's name without its case and spacing.

    >>> boat_key("  Biscuit   BARREL ")
    'biscuit barrel'
    """
    return " ".join((name or "").casefold().split())[:300]


def contact_keys(phone: str | None, email: str | None) -> set[str]:
    """What one contact is known by: the digits of a number, an address without its case."""
    digits = "".join(filter(str.isdecimal, phone or ""))
    return {key for key in (digits, (email or "").strip().casefold()) if key}


@dataclass(frozen=True, slots=True)
class MonthlyCount:
    """How often one cause, check or question came up; one count for each month asked for."""

    key: str
    label: str
    counts: tuple[int, ...]

    @property
    def total(self) -> int:
        return sum(self.counts)


def mismatches_by_month(dimension: Dimension, months: Sequence[str]) -> list[MonthlyCount]:
    """Mismatches in the given months ("2026-11", oldest first), most frequent first.

    By ``cause``: as recorded on calls. By ``check`` or ``question``: findings of severity stop
    or ask, each counted once a submission, in the month it was received.
    """
    column, rows = _grouped(dimension, list(months))
    counts: dict[str, dict[str, int]] = defaultdict(dict)
    for row in rows:
        counts[row[column]][row["month"]] = row["n"]
    label = _labels(dimension)
    table = [
        MonthlyCount(key, label.get(key, key), tuple(by.get(month, 0) for month in months))
        for key, by in counts.items()
    ]
    return sorted(table, key=lambda row: (-row.total, row.key))


def _grouped(dimension: Dimension, months: list[str]) -> tuple[str, QuerySet[Any, Any]]:
    if dimension == "cause":
        called = CallRecord.objects.filter(month__in=months).exclude(cause="")
        return "cause", called.order_by().values("month", "cause").annotate(n=Count("pk"))
    column = {"check": "check_id", "question": "answer"}[dimension]
    held = FindingRecord.objects.filter(counts=True, month__in=months)
    return column, held.order_by().values("month", column).annotate(n=Count("pk"))


def _labels(dimension: Dimension) -> Mapping[str, str]:
    if dimension == "cause":
        return CAUSES
    if dimension == "question":
        return {slug: question.ask for slug, question in QUESTIONS.items()}
    return {}


def months_back(count: int) -> list[str]:
    """The last ``count`` months as they are stored, oldest first, this one included."""
    today = timezone.localdate()
    last = today.year * 12 + today.month - 1
    return [f"{n // 12}-{n % 12 + 1:02d}" for n in range(last - count + 1, last + 1)]
