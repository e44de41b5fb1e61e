"""A part that is kept piece by piece is counted by its pieces, never by hand."""

from __future__ import annotations

from collections.abc import Collection

from django.db.models import Count, F, Q

from catalog.models import Part
from catalog.pieces.models import REMNANT, Piece

_WHOLE = Q(pieces__gone_at__isnull=True) & ~Q(pieces__kind=REMNANT)
_PROMISED = _WHOLE & Q(pieces__free_nm__lt=F("pieces__length_nm"))


def recount(parts: Collection[int]) -> None:
    """Set how many whole bars are there, and how many of them somebody holds some of.

    Whoever calls it has the turn to change the shelf (``catalog.services.next_version``). Parts
    without a single piece, ever, are left as they are.
    """
    known = Part.objects.filter(pk__in=parts, pieces__isnull=False).order_by("pk")
    counted = known.annotate(
        whole=Count("pieces", filter=_WHOLE), promised=Count("pieces", filter=_PROMISED)
    )
    for part in counted:
        if (part.on_hand, part.held) != (part.whole, part.promised):
            Part.objects.filter(pk=part.pk).update(on_hand=part.whole, held=part.promised)


def kept_by_piece(part: Part) -> bool:
    """Whether its pieces are listed one by one."""
    return Piece.objects.filter(part_id=part.pk).exists()
