"""What is read of intake: one question answered each, in a constant number of queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from django.db.models import Count, Prefetch, QuerySet
from django.utils import timezone

from intake import own_answers
from intake.domain.causes import CAUSES
from intake.domain.lifecycle import Status
from intake.domain.questions import QUESTIONS
from intake.models import CallRecord, Event, FindingRecord, SheetVersion, Submission
from intake.records.selectors import history_facts as history_facts  # asked for here by all
from intake.second_reading import SAID_BY

Dimension = Literal["cause", "check", "question"]


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


def fresh_sheet(submission: Submission) -> SheetVersion:
    """The version that counts at this moment, whatever was read along earlier."""
    return submission.sheets.get(is_current=True)


def measured_afresh(submission: Submission) -> frozenset[str]:
    """The answers that the customer took once more on the status page."""
    own = submission.sheets.filter(said_by=SAID_BY)
    return own_answers.measured_afresh(list(own.order_by().values_list("reason", flat=True)))


def call_queue() -> QuerySet[Submission]:
    """Who must be called, the most pressing first. Take a page of it: three queries, however long.

    Each comes with its ``current`` sheet, and that with what to ask (``to_ask``: the findings of
    severity stop and ask, dearest first).
    """
    waiting = Submission.objects.filter(status=Status.NEEDS_CALL)
    return waiting.order_by("call_by", "pk").prefetch_related(with_current())


def calls_waiting() -> int:
    """How many submissions are in the call-back queue."""
    return Submission.objects.filter(status=Status.NEEDS_CALL).count()


def with_current() -> Prefetch[str, QuerySet[SheetVersion], str]:
    """Reads the current sheets along, each with what to ask: two queries for any number."""
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
