"""Reading the limits in force, and what the desk has recorded to learn from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Any

from django.db import connection
from django.db.models import QuerySet, TextField
from django.db.models.functions import Cast

from intake.domain.lifecycle import Status
from intake.domain.limit_values import limits_from
from intake.domain.limits import DEFAULT_LIMITS, Limits
from intake.domain.slips import OK
from intake.models import CallRecord, LimitSet, SheetVersion

BOTH_WAYS = ("face_to_strut_aft", "old_length_face_to_thread")
OTHER = "X"  # a slip of the lengths that is on no list
_DECIDED = (Status.READY, Status.QUOTED, Status.ACCEPTED, Status.DECLINED, Status.LAPSED)
_MOST_KEPT = 4
_kept: dict[Any, Limits] = {}

# Asked on every request, so it is not built anew on each: that costs ten times the answer. The
# stamp is compared only with itself, so each database may give it in its own form.
_VERSION = f"SELECT stamp FROM {LimitSet._meta.db_table} ORDER BY number DESC LIMIT 1"  # noqa: S608


def current_limits() -> Limits:
    """The limits the checks go by now: one tiny query, and the same object until they change."""
    with connection.cursor() as cursor:
        cursor.execute(_VERSION)
        newest = cursor.fetchone()
    if newest is None:
        return DEFAULT_LIMITS
    (stamp,) = newest
    found = _kept.get(stamp)
    return found if found is not None else _keep(stamp)


def _keep(stamp: Any) -> Limits:
    """Build the newest set once; where two threads did at once, both get the first one's."""
    row = newest_set()
    if row is None:
        return DEFAULT_LIMITS
    built = limits_from(row.name, row.values, row.cause_counts)
    for old in list(_kept)[: 1 - _MOST_KEPT]:
        _kept.pop(old, None)
    return _kept.setdefault(stamp, built)


def newest_set() -> LimitSet | None:
    """The row of the limits in force; None while the code's defaults are."""
    return LimitSet.objects.order_by("-number").first()


def limit_sets() -> QuerySet[LimitSet]:
    """Every set that was ever adopted, newest first, with who adopted it."""
    return LimitSet.objects.select_related("adopted_by").order_by("-number")


def name_is_taken(name: str) -> bool:
    """Whether a set, or the code's own, already goes by that name (in any case of letters)."""
    own = name.casefold() == DEFAULT_LIMITS.name.casefold()
    return own or LimitSet.objects.filter(name__iexact=name).exists()


def cause_counts(known: Mapping[str, object] = DEFAULT_LIMITS.slips) -> dict[str, int]:
    """How many decided sheets with both ways to the length had each cause; "OK": none.

    Decided: the numbers were released. A sheet counts once, under the last cause recorded for it:
    a slip of the list by its code, another one of the two lengths as "X"; causes of other parts
    (a flange, a bearing) say nothing about the lengths.
    """
    decided = set(_with_both_ways().values_list("submission_id", flat=True))
    causes: dict[int, str] = {}
    calls = CallRecord.objects.exclude(cause="").order_by("at", "pk")
    for submission, cause, answer in calls.values_list("submission_id", "cause", "answer"):
        if cause in known:
            causes[submission] = cause
        elif answer in BOTH_WAYS:
            causes[submission] = OTHER
    counts = Counter(causes.get(submission, OK) for submission in decided)
    return dict(sorted(counts.items()))


def _with_both_ways() -> QuerySet[SheetVersion]:
    """The sheets, as they are now, of decided submissions that gave boat and old shaft."""
    sheets = SheetVersion.objects.filter(
        is_current=True, submission__status__in=[status.value for status in _DECIDED]
    ).annotate(read=Cast("readings", TextField()))
    for slug in BOTH_WAYS:
        sheets = sheets.filter(read__contains=f'"{slug}":')
    return sheets
