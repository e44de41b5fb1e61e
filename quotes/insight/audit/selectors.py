"""Audit calls that are to be made, and who may be drawn for one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import QuerySet

from intake.domain.lifecycle import Status
from quotes.models import AuditCall, AuditSalt, RequestFact
from quotes.stock.models import SHAFT, TAKEN, Hold

PAGE = 25
_JUDGED = (Status.READY, Status.QUOTED, Status.ACCEPTED, Status.DECLINED, Status.LAPSED)


@dataclass(frozen=True, slots=True)
class AuditPage:
    """Some of the calls, longest drawn first; ``after``: where the next page goes on."""

    calls: list[AuditCall]
    after: int | None


def salt() -> str:
    """What the draw is keyed with; "" while there is none."""
    return AuditSalt.objects.values_list("salt", flat=True).first() or ""


def may_be_drawn(since: datetime) -> list[int]:
    """Requests of that time that nothing has held and nobody has called about, not drawn yet."""
    facts = RequestFact.objects.filter(received_at__gte=since, flags=0, calls=0)
    free = facts.filter(submission__status__in=_JUDGED, submission__audit_call=None)
    return list(free.order_by("pk").values_list("pk", flat=True))


def to_make(show: str, after: int | None = None) -> AuditPage:
    """Calls to be made, or those of which nobody was reached: one query for any page."""
    wanted = "not_reached" if show == "tried" else ""
    calls: QuerySet[AuditCall] = AuditCall.objects.filter(outcome=wanted)
    calls = calls.exclude(submission__status=Status.WITHDRAWN).select_related("submission")
    if after is not None:
        calls = calls.filter(pk__gt=after)
    found = list(calls.order_by("pk")[: PAGE + 1])
    return AuditPage(found[:PAGE], found[PAGE - 1].pk if len(found) > PAGE else None)


def audit_call(reference: str) -> AuditCall:
    """The call of one request. Raises AuditCall.DoesNotExist."""
    calls = AuditCall.objects.select_related("submission", "by")
    return calls.get(submission__reference=reference)


def is_sawn(call: AuditCall) -> bool:
    """Whether the bar of its shaft has been sawn: then a correction comes too late."""
    of_it = Hold.objects.filter(quote__submission=call.submission_id, line=SHAFT, state=TAKEN)
    return of_it.exists()


def audit_calls_handed_out(submissions: Sequence[int]) -> list[dict[str, Any]]:
    """What was written down of calls about these requests, for the customer who asks."""
    made = AuditCall.objects.filter(submission__in=submissions).exclude(outcome="").order_by("pk")
    rows = made.values("submission__reference", "at", "outcome", "note")
    return [{"audit_call": row.pop("submission__reference"), **row} for row in rows]
