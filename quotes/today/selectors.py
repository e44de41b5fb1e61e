"""What is read of quotes for the day, and for finding a request by its quote's number."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta

from quotes.domain.lifecycle import QuoteStatus
from quotes.models import Quote

SHOWN = 10
SOON = timedelta(days=3)  # a quote that lapses within these is worth a call


def issued_since(moment: datetime) -> list[Quote]:
    """Issued since then, newest first; at most one more than are shown."""
    out = Quote.objects.filter(issued_at__gte=moment).exclude(status=QuoteStatus.DRAFTED)
    return list(out.select_related("submission").order_by("-issued_at", "-pk")[: SHOWN + 1])


def waiting_for_an_answer() -> list[Quote]:
    """Issued and not answered, whichever lapses first; at most one more than are shown."""
    out = Quote.objects.filter(status=QuoteStatus.ISSUED)
    return list(out.select_related("submission").order_by("valid_until", "pk")[: SHOWN + 1])


def lapses_soon(quote: Quote, today: date) -> bool:
    """Whether its last day is near."""
    return quote.valid_until is not None and quote.valid_until <= today + SOON


def numbers_of(submissions: Sequence[int]) -> Mapping[int, list[str]]:
    """Numbers of all quotes of these requests, by the request's key; one query."""
    numbers: dict[int, list[str]] = defaultdict(list)
    quotes = Quote.objects.filter(submission__in=submissions).order_by()
    for key, number in quotes.values_list("submission_id", "number"):
        numbers[key].append(number)
    return numbers
