"""Everything the desk has on some requests, read along in a constant number of queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, TypeVar

from django.db.models import QuerySet, Sum

from intake.models import CallRecord, Event, FindingRecord, SheetVersion, Submission
from quotes.cases.models import Case
from quotes.domain.lifecycle import QuoteStatus
from quotes.inspecting.models import Inspection
from quotes.models import AuditCall, Outcome, Quote
from quotes.stock.models import SHAFT, TAKEN, Hold

_T = TypeVar("_T")


@dataclass(frozen=True)
class Records:
    """One request with all that hangs on it, each kind oldest first."""

    submission: Submission
    sheets: list[SheetVersion] = field(default_factory=list)
    findings: list[FindingRecord] = field(default_factory=list)
    calls: list[CallRecord] = field(default_factory=list)
    events: list[Event] = field(default_factory=list)
    quotes: list[Quote] = field(default_factory=list)
    outcomes: list[Outcome] = field(default_factory=list)
    cases: list[Case] = field(default_factory=list)
    booked: dict[int, Decimal] = field(default_factory=dict)
    holds: list[Hold] = field(default_factory=list)
    inspections: list[Inspection] = field(default_factory=list)
    audits: list[AuditCall] = field(default_factory=list)

    @property
    def first_sheet(self) -> SheetVersion:
        """The sheet as it came."""
        return self.sheets[0]

    @property
    def shipped(self) -> Quote | None:
        """The order that left first; one that was made again for it does not count anew."""
        sent = [one for one in self.quotes if hasattr(one, "shipment") and not one.remake_of_id]
        return min(sent, key=lambda one: (one.shipment.day, one.pk), default=None)


def records_of(submissions: Sequence[int]) -> list[Records]:
    """Eleven queries for any number of requests; those without a sheet are left out."""
    mine: dict[str, Any] = {"submission__in": submissions}
    quotes = Quote.objects.filter(**mine).exclude(status=QuoteStatus.DRAFTED).order_by("version")
    of_quotes: dict[str, Any] = {"quote__submission__in": submissions}
    sheets = _by(SheetVersion.objects.filter(**mine).order_by("number"), "submission_id")
    findings = FindingRecord.objects.filter(sheet__submission__in=submissions, counts=True)
    rows: dict[str, Any] = {
        "findings": _by(findings.select_related("sheet").order_by("pk"), "sheet.submission_id"),
        "calls": _by(CallRecord.objects.filter(**mine).order_by("at", "pk"), "submission_id"),
        "events": _by(Event.objects.filter(**mine).order_by("at", "pk"), "submission_id"),
        "quotes": _by(quotes.defer("lines").select_related("shipment"), "submission_id"),
        "outcomes": _by_quote(Outcome.objects.filter(**of_quotes).order_by("at", "pk")),
        "cases": _by_quote(
            Case.objects.filter(**of_quotes)
            .select_related("quote__sheet")
            .order_by("opened_at", "pk")
        ),
        "holds": _by_quote(
            Hold.objects.filter(**of_quotes, line=SHAFT, state=TAKEN)
            .exclude(piece=None)
            .select_related("piece", "remnant")
            .order_by("pk")
        ),
        "audits": _by(AuditCall.objects.filter(**mine), "submission_id"),
        "inspections": _by_quote(Inspection.objects.filter(**of_quotes).order_by("number")),
    }
    booked = _booked(submissions)
    found = Submission.objects.filter(pk__in=submissions).order_by("pk")
    return [
        Records(
            one,
            sheets=sheets[one.pk],
            booked=booked,
            **{name: by.get(one.pk, []) for name, by in rows.items()},
        )
        for one in found
        if one.pk in sheets
    ]


def _booked(submissions: Sequence[int]) -> dict[int, Decimal]:
    cases = Case.objects.filter(quote__submission__in=submissions).order_by()
    sums = cases.values_list("pk").annotate(Sum("costs__amount"))
    return {pk: amount for pk, amount in sums if amount is not None}


def _by_quote(rows: QuerySet[Any, Any]) -> dict[int, list[Any]]:
    return _by(rows.select_related("quote"), "quote.submission_id")


def _by(rows: Iterable[_T], path: str) -> dict[int, list[_T]]:
    found: dict[int, list[_T]] = defaultdict(list)
    for row in rows:
        key: Any = row
        for name in path.split("."):
            key = getattr(key, name)
        found[key].append(row)
    return found
