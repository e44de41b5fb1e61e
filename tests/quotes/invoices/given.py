"""Quotes that have left us, for tests of invoices."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.contrib.auth.models import User
from django.utils import timezone

from quotes.invoices.models import Invoice
from quotes.invoices.services import issue_invoice
from quotes.models import Quote
from quotes.sending.models import Shipment
from tests.quotes.given import an_accepted

BUYER = "Wilmot Tarpley\n3 Withy Bed\nOtterhithe"


def a_shipped(by: User, **changes: Any) -> Quote:
    """An accepted quote whose shaft left us today."""
    quote = an_accepted(days_ago=9, **changes)
    send(quote, by)
    return quote


def send(quote: Quote, by: User) -> None:
    """The shaft leaves us today."""
    Shipment.objects.create(
        quote=quote,
        day=timezone.localdate(),
        tube_nm=1,
        weight_lb=Decimal(12),
        carrier="van",
        by=by,
    )


def an_invoice(quote: Quote, by: User, nonce: str = "form-1") -> Invoice:
    """The invoice of one quote."""
    return issue_invoice(quotes=[quote], buyer=BUYER, by=by, nonce=nonce)


def pay(quote: Quote, by: User, amount: str, kind: str = "payment", nonce: str = "") -> bool:
    """Money that came in, or went back, today."""
    from quotes.payments.services import record_payment

    typed = {
        "kind": kind, "amount": amount, "how": "bank transfer",
        "day": timezone.localdate().isoformat(),
    }  # fmt: skip
    return record_payment(quote=quote, typed=typed, nonce=nonce or f"{kind} {amount}", by=by)
