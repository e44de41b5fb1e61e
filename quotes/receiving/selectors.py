"""Which own parts of customers are awaited, here, or late."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.db.models import Q, QuerySet
from django.utils import timezone
from django.utils.formats import date_format

from intake.models import Submission
from quotes.cases.models import Case
from quotes.domain.case_words import STANDS_OPEN
from quotes.domain.lifecycle import QuoteStatus
from quotes.models import Quote
from quotes.receiving.models import COUPLING, OwnPart

PAGE = 25
# So many days after we began to wait, the counter rings. Common practice, no source.
LATE_AFTER = timedelta(days=7)
_MISSING: dict[str, Any] = {"received_on": None, "not_coming": ""}


def waiting_for(quote: Quote) -> tuple[str, ...]:
    """What an order still waits for before it can be fitted and faced, in words; empty: nothing."""
    missing = OwnPart.objects.filter(quote=quote, case=None, what=COUPLING, **_MISSING)
    return tuple(
        f"Waiting for the customer's {part.get_what_display()} since "
        f"{date_format(part.awaited_since, 'j M Y')}: turn the shaft, but fit and face nothing "
        "until it is here."
        for part in missing
    )


def waiting_ids(quotes: Sequence[int]) -> frozenset[int]:
    """Which of these orders wait for the customer's coupling; one query."""
    missing = OwnPart.objects.filter(quote__in=quotes, case=None, what=COUPLING, **_MISSING)
    return frozenset(missing.values_list("quote_id", flat=True))


def part_of(quote: Quote, what: str, case: Case | None) -> OwnPart:
    """The one row of this part. Raises OwnPart.DoesNotExist."""
    return OwnPart.objects.get(quote=quote, what=what, case=case)


def part_by_key(submission: Submission, pk: int) -> OwnPart:
    """A part of this request. Raises OwnPart.DoesNotExist."""
    return OwnPart.objects.select_related("quote", "case").get(quote__submission=submission, pk=pk)


def parts_of(submission: Submission) -> list[OwnPart]:
    """Every part of this request, awaited first, in two queries with who took it in."""
    parts = OwnPart.objects.filter(quote__submission=submission)
    found = parts.select_related("quote", "case", "received_by", "returned_by")
    return sorted(found, key=lambda part: (part.received_on is not None, part.pk))


@dataclass(frozen=True, slots=True)
class PartsPage:
    """Some awaited parts, longest awaited first; ``after``: the key the next page begins behind,
    None where there is none. ``late``: before that day it is late."""

    parts: Sequence[OwnPart]
    after: int | None
    late_before: date


def awaited(after: int | None = None, size: int = PAGE) -> PartsPage:
    """Parts of orders and cases that still stand, and are not here."""
    parts = _awaited()
    if after is not None:
        parts = parts.filter(_behind(after))
    found = list(parts.order_by("awaited_since", "pk")[: size + 1])
    late = timezone.localdate() - LATE_AFTER
    return PartsPage(found[:size], found[size - 1].pk if len(found) > size else None, late)


def _awaited() -> QuerySet[OwnPart]:
    order = Q(case=None, quote__status=QuoteStatus.ACCEPTED, quote__shipment=None)
    parts = OwnPart.objects.filter(order | Q(case__state__in=STANDS_OPEN), **_MISSING)
    return parts.select_related("quote__submission", "case")


def _behind(key: int) -> Q:
    day = OwnPart.objects.filter(pk=key).values_list("awaited_since", flat=True).first()
    if day is None:
        return Q(pk__isnull=False)
    later = Q(awaited_since__gt=day) | Q(awaited_since=day, pk__gt=key)
    return later & Q(awaited_since__gte=day)  # which an index can be read from
