"""Which requests something happened to since the facts were last made.

What the desk does is written as rows that are only added: whoever knows the last key that was
looked at finds everything newer. A transaction may commit after one that took a later key, so
some keys are looked at twice; facts may be made twice.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db.models import Max, QuerySet

from intake.models import CallRecord, Event, SheetVersion
from quotes.cases.models import CaseCost, CaseEvent
from quotes.insight.models import CountedUpTo, MonthToCount
from quotes.inspecting.models import Inspection
from quotes.models import NotYetFitted, Outcome, Quote
from quotes.sending.models import Shipment
from quotes.shop.models import ShopMove

OVERLAP = 300
MOST = 2000
# Rows that are only added, and the way from each to its request.
RECORDS: Mapping[str, tuple[type[Any], str]] = {
    "sheet": (SheetVersion, "submission"),
    "event": (Event, "submission"),
    "call": (CallRecord, "submission"),
    "quote": (Quote, "submission"),
    "shop move": (ShopMove, "quote__submission"),
    "inspection": (Inspection, "quote__submission"),
    "shipment": (Shipment, "quote__submission"),
    "outcome": (Outcome, "quote__submission"),
    "not yet": (NotYetFitted, "quote__submission"),
    "case event": (CaseEvent, "case__quote__submission"),
    "case cost": (CaseCost, "case__quote__submission"),
}


def newest(record: str) -> int:
    """The last key of a kind; 0 of none."""
    model, _ = RECORDS[record]
    return int(model.objects.aggregate(last=Max("pk"))["last"] or 0)


def counted_up_to() -> dict[str, int]:
    """The last key that was looked at, for each kind."""
    return dict(CountedUpTo.objects.values_list("record", "key"))


def happened(record: str, after: int, to: int) -> set[int]:
    """The requests rows of a kind belong to, from one key to another."""
    model, path = RECORDS[record]
    rows: QuerySet[Any, Any] = model.objects.filter(pk__gt=after, pk__lte=to).order_by()
    return set(rows.values_list(path, flat=True))


def counted_at() -> datetime | None:
    """When the counts were last brought up to date; None: never."""
    found: datetime | None = CountedUpTo.objects.aggregate(at=Max("at"))["at"]
    return found


def is_behind() -> bool:
    """Whether some month is still to be counted."""
    return MonthToCount.objects.exists()
