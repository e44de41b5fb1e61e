"""A shaft has left: the customer's own parts of its order went with it."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.dispatch import receiver

from quotes.models import Quote
from quotes.receiving.services import returned_with_parcel
from quotes.shop.signals import shipped


@receiver(shipped, dispatch_uid="quotes.own_parts_left")
def own_parts_left(quote: Quote, day: date, **_rest: Any) -> None:
    """Inside the transaction that writes the shipment."""
    returned_with_parcel(quote=quote, day=day)
