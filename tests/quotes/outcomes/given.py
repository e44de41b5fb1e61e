"""Orders that have left us, so many days ago."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

from django.contrib.auth.models import User
from django.utils import timezone

from quotes.models import Quote
from quotes.sending.models import Shipment
from tests.quotes.given import an_accepted


def sent(quote: Quote, *, days_ago: int) -> Quote:
    """The same order, sent that long ago, as the sending page writes it."""
    packer, _new = User.objects.get_or_create(username="packer")
    Shipment.objects.create(
        quote=quote,
        day=timezone.localdate() - timedelta(days=days_ago),
        tube_nm=1_346_200_000,
        weight_lb=Decimal("11.0"),
        carrier="Otterhithe Freight",
        by=packer,
    )
    return Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)


def a_sent(*, days_ago: int, **changes: Any) -> Quote:
    """An order that was accepted and sent."""
    return sent(an_accepted(days_ago=days_ago + 10, **changes), days_ago=days_ago)
