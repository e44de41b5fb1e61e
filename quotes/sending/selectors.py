"""What left us, and when."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from quotes.models import Quote
from quotes.sending.models import Shipment


def shipment_of(quote: Quote) -> Shipment | None:
    """How a shaft left; None while it is here."""
    return Shipment.objects.filter(quote=quote).select_related("by").first()


def shipped_on(quote: Quote) -> date | None:
    """The day the shaft left us; None while it is here."""
    return Shipment.objects.filter(quote=quote).values_list("day", flat=True).first()


def shipped_days(quote_ids: Iterable[int]) -> dict[int, date]:
    """The days these quotes' shafts left us, by quote; one that is here has none."""
    rows = Shipment.objects.filter(quote__in=list(quote_ids))
    return dict(rows.values_list("quote_id", "day"))
