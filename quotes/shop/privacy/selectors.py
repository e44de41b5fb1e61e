"""What the shop keeps of some requests: how a shaft was measured, let go, sent, and its hours."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from quotes.inspecting.models import Inspection
from quotes.passport.models import HoursReading
from quotes.sending.models import Shipment
from quotes.shop.models import DeskWord, ShopMove


def shafts_handed_out(submissions: Sequence[int]) -> list[dict[str, Any]]:
    """One row for each thing, as it is stored; who of the staff did it is not the customer's."""
    rows: list[dict[str, Any]] = []
    mine = {"quote__submission__in": submissions}
    for one in Inspection.objects.filter(**mine).select_related("release").order_by("pk"):
        released = getattr(one, "release", None)
        rows.append({
            "inspection": one.number, "typed": one.typed, "verdict": one.verdict, "at": one.at,
            "released": released.why if released else "",
        })  # fmt: skip
    for word in DeskWord.objects.filter(**mine).order_by("pk"):
        rows.append({"desk_word": word.words, "at": word.at})
    for move in ShopMove.objects.filter(order__quote__submission__in=submissions).order_by("pk"):
        rows.append({"stage": move.now, "why": move.why, "at": move.at})
    for sent in Shipment.objects.filter(**mine).order_by("pk"):
        rows.append({
            "sent_on": sent.day, "carrier": sent.carrier, "tracking": sent.tracking,
            "weight_lb": sent.weight_lb,
        })  # fmt: skip
    told = HoursReading.objects.filter(passport__quote__submission__in=submissions).order_by("pk")
    rows += [{"hours": one.hours, "renewed": one.renewed, "day": one.day} for one in told]
    return rows
