"""A rack and accepted shafts for the tests of holding and sawing."""

from __future__ import annotations

from typing import Any

from catalog.domain.lengths import Length, inches
from catalog.models import Part
from catalog.pieces.models import Piece
from catalog.pieces.services import Delivered, receive_goods
from quotes import services
from quotes.models import Quote
from quotes.stock.models import SHAFT, Hold
from tests.quotes.given import a_quote, ticked

BAR = "BH-1000"  # what the clean sheet's shaft is cut from
NEEDED = inches("49 9/16")  # its 49 in, the nose of 5/16, faced at both ends, and the saw cut


def a_rack(*lengths: str | int, heat: str = "H 4471", code: str = BAR, paper: str = "") -> None:
    """Only these bars of that part: what the catalogue counted is forgotten."""
    part = Part.objects.get(code=code)
    if not part.pieces.exists():
        Part.objects.filter(pk=part.pk).update(on_hand=0)
        part.refresh_from_db()
    goods = Delivered(paper or f"DN {code} {lengths}", tuple(map(inches, lengths)), heat=heat)
    receive_goods(part=part, goods=goods)


def a_remnant(length: str | int, heat: str = "H 4471", code: str = BAR) -> Piece:
    """An end of a bar that was sawn some day."""
    nm = inches(length).nm
    part = Part.objects.get(code=code)
    return Piece.objects.create(part=part, kind="remnant", length_nm=nm, free_nm=nm, heat=heat)


def accepted(**changes: Any) -> Quote:
    """A quote that its customer has accepted."""
    return accept(a_quote(**changes))


def accept(quote: Quote) -> Quote:
    return services.accept_quote(quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote))


def shaft_of(quote: Quote) -> Hold:
    return Hold.objects.select_related("piece", "remnant").get(quote=quote, line=SHAFT)


def free_lengths(code: str = BAR) -> list[Length]:
    """What is free of each piece in the rack, by number."""
    rows = Piece.objects.filter(part__code=code, gone_at=None).order_by("pk")
    return [piece.free for piece in rows]


def counts(code: str) -> tuple[int | None, int]:
    part = Part.objects.get(code=code)
    return part.on_hand, part.held
