"""What is held, for whom, and what waits: one question each, in a constant number of queries."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import Q

from catalog.domain.lengths import Length
from catalog.pieces import selectors as rack
from catalog.pieces.models import Piece
from quotes.domain.kept_price import NotKept, kept_left_over
from quotes.domain.metal import Metal
from quotes.domain.nesting import Demand, Rod, bar_needed, plan
from quotes.domain.order import Order
from quotes.models import Quote
from quotes.stock.models import HELD, SHAFT, TAKEN, TO_ORDER, WAITS, Hold


@dataclass(frozen=True, slots=True)
class Held:
    """What an accepted quote's shaft is, or was, sawn from.

    ``left``: what is over after this shaft's own cut, None where no piece is held. ``remnant``:
    the label of what was over, once it was sawn and kept. ``state``: held | taken | to_order |
    given_back.
    """

    state: str
    piece_words: str
    heat: str = ""
    place: str = ""
    certificate: str = ""
    left: Length | None = None
    remnant: str = ""
    needed: Length | None = None


def held_for(quote: Quote) -> Held | None:
    """What is held for this quote's shaft; None where none is or was."""
    holds = Hold.objects.filter(quote_id=quote.pk, line=SHAFT)
    hold = holds.select_related("piece__part", "remnant").first()
    return None if hold is None else _held(hold)


def _held(hold: Hold) -> Held:
    piece = hold.piece
    if piece is None:
        return Held(hold.state, _without_piece(hold), needed=hold.needed)
    return Held(
        state=hold.state,
        piece_words=f"{piece.label}, {piece.part.code}, {piece.length.both()} long",
        heat=piece.heat,
        place=piece.place,
        certificate=piece.certificate_number,
        left=hold.remnant.length if hold.remnant else piece.length - hold.needed,
        remnant=hold.remnant.label if hold.remnant else "",
        needed=hold.needed,
    )


def _without_piece(hold: Hold) -> str:
    if hold.state == TO_ORDER:
        return f"nothing in the rack fits: {hold.what} is to be ordered"
    return f"a whole bar of {hold.part_code}, by count"


def parts_held_for(quote: Quote) -> list[Hold]:
    """Couplings, bearings and hardware of this quote, by code."""
    return list(Hold.objects.filter(quote_id=quote.pk).exclude(line=SHAFT).order_by("line"))


def not_there(quote: Quote) -> tuple[str, ...]:
    """What this quote needs and nobody has, in words: it stands on the list of what to order."""
    missing = Hold.objects.filter(quote_id=quote.pk, state=TO_ORDER).order_by("line")
    return tuple(missing.values_list("what", flat=True))


def has_waiting(quote: Quote) -> bool:
    """Whether anything is held or to be ordered for it."""
    return Hold.objects.filter(WAITS, quote_id=quote.pk).exists()


# --- What a piece is to the plan ----------------------------------------------------------


def metal_of(hold: Hold) -> Metal:
    """What the shaft of a hold is made of."""
    return Metal(hold.system, hold.diameter, hold.alloy)


def piece_metal(piece: Piece) -> Metal:
    """What a piece is made of, as the catalogue says of its part."""
    part = piece.part
    return Metal(part.system, Length(part.diameter_nm or 0), part.alloy)


def as_rod(piece: Piece, length: Length | None = None) -> Rod:
    """A piece as the plan sees it; ``length``: so much of it, else what is free."""
    usable = piece.free if length is None else length
    untouched = piece.is_whole and usable == piece.length
    return Rod(str(piece.pk), usable, piece.heat, untouched, piece_metal(piece).key)


def best_piece(metal: Metal, needed: Length, heat: str = "") -> Piece | None:
    """The piece one shaft is best sawn from now; ``heat``: that of the other shaft of its pair."""
    pieces = rack.rack_of(metal.system, metal.diameter.nm, metal.alloys, least_nm=needed.nm)
    made = plan([Demand("it", needed, metal.key, heat=heat)], map(as_rod, pieces))
    return next((one for one in pieces if str(one.pk) == made.cuts.get("it")), None)


def left_over_of(order: Order) -> Length | None:
    """What would be left of the piece this shaft is best sawn from, saw cut counted.

    None where no shaft is wanted, or the rack has no piece that is long enough.
    """
    if order.shaft is None:
        return None
    needed = bar_needed(order.shaft.sent_overall)
    piece = best_piece(Metal.of(order.shaft), needed)
    return None if piece is None else piece.free - needed


def left_over_as_quoted(order: Order, inputs: Mapping[str, Any]) -> Length | None:
    """What the price of this order counts as left over, beside a quote that stands.

    ``inputs``: what that quote was made from; {} where none stands. The rack changes with every
    bar that is sawn for somebody else, and a price that was offered must not: as long as the shaft
    is the same, what was left over when it was quoted counts. Another shaft is looked up anew.
    """
    if order.shaft is None:
        return None
    try:
        return kept_left_over(inputs, order.shaft)
    except NotKept:
        return left_over_of(order)


# --- Pairs ----------------------------------------------------------------------------


def sister_heat(hold: Hold) -> str:
    """The heat of the other shaft of the pair; "" where there is none or it is not known."""
    submission = hold.quote.submission
    if submission.customer_id is None or not submission.boat_key:
        return ""
    twins = Hold.objects.filter(
        line=SHAFT,
        state__in=(HELD, TAKEN),
        diameter_nm=hold.diameter_nm,
        alloy__in=metal_of(hold).alloys,
        quote__submission__customer=submission.customer_id,
        quote__submission__boat_key=submission.boat_key,
        quote__submission__job=submission.job,
    ).exclude(quote__submission__station=submission.station)
    heats = twins.exclude(piece=None).order_by("-pk").values_list("piece__heat", flat=True)
    return heats.first() or ""


# --- What waits -----------------------------------------------------------------------


def waiting_shafts() -> list[Hold]:
    """Shafts that are accepted and not sawn, the longest accepted first."""
    holds = Hold.objects.filter(WAITS, line=SHAFT)
    rows = holds.select_related("quote__submission", "piece__part")
    return list(rows.order_by("quote__accepted_at", "pk"))


def taken_twins(holds: Iterable[Hold]) -> list[Hold]:
    """Sawn shafts of customers who have some waiting: one of a pair may be made already."""
    customers = {hold.quote.submission.customer_id for hold in holds} - {None}
    taken = Hold.objects.filter(
        line=SHAFT, state=TAKEN, piece__isnull=False, quote__submission__customer__in=customers
    )
    return list(taken.select_related("quote__submission", "piece").order_by("pk"))


def to_order() -> list[Hold]:
    """Everything accepted that is not there, the longest accepted first."""
    holds = Hold.objects.filter(state=TO_ORDER).select_related("quote__submission")
    return list(holds.order_by("quote__accepted_at", "pk"))


def to_be_found() -> list[Hold]:
    """What is to be ordered, and bars held by count alone, the longest accepted first."""
    by_count = Q(state=HELD, line=SHAFT, piece=None)
    holds = Hold.objects.filter(WAITS, Q(state=TO_ORDER) | by_count)
    return list(holds.select_related("quote__submission").order_by("quote__accepted_at", "pk"))
