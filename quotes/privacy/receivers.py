"""What this room answers when a customer's own records are asked for, or erased."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.dispatch import receiver

from intake.signals import customer_asked, customer_erased, orders_asked
from quotes.privacy import selectors, services


@receiver(orders_asked, dispatch_uid="quotes.orders_not_finished")
def orders_not_finished(submissions: Sequence[int], **_rest: Any) -> list[str]:
    """Accepted orders that stand in the way of erasing."""
    return selectors.orders_not_finished(submissions)


@receiver(customer_asked, dispatch_uid="quotes.hand_out")
def hand_out(
    submissions: Sequence[int], **_rest: Any
) -> tuple[str, list[dict[str, Any]], dict[str, bytes]]:
    """Quotes, answers, outcomes, mails and papers."""
    rows, files = selectors.kept_of(submissions)
    return "quotes", rows, files


@receiver(customer_erased, dispatch_uid="quotes.forget")
def forget(submissions: Sequence[int], **_rest: Any) -> None:
    """The same goes for what is kept here."""
    services.forget_requests(submissions)
