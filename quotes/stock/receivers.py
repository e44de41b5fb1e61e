"""What this room does when bars have come into the rack: who waits for one has it."""

from __future__ import annotations

from typing import Any

from django.dispatch import receiver

from catalog.pieces.signals import goods_came
from quotes.stock.services import hold_what_waits


@receiver(goods_came, dispatch_uid="quotes.stock.goods_came")
def hold_for_who_waits(**_rest: Any) -> None:
    """The longest accepted first."""
    hold_what_waits()
