"""Holding pieces for a quote, taking them, giving them back: each once, however often asked.

Whoever changes the shelf takes the turn first (``catalog.services.next_version``): after sheet,
quote and submission, before holds, pieces and parts. So two acceptances at once stand in line,
and the conditional updates behind them let nobody have more than there is.
"""

from __future__ import annotations

from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from catalog.pieces import services as rack
from catalog.pieces.selectors import is_kept_by_piece
from catalog.pieces.services import Sawn
from catalog.services import next_version
from quotes.models import Quote
from quotes.stock import selectors
from quotes.stock.models import GIVEN_BACK, HELD, SHAFT, TAKEN, TO_ORDER, WAITS, Hold
from quotes.stock.planning import BarPlan, bar_plan
from quotes.stock.wants import wants_of
from staff.errors import Overtaken


@transaction.atomic
def hold_for(quote: Quote) -> None:
    """Hold what this accepted quote needs, in the caller's transaction.

    What is not there is to be ordered; that is never an error. Asked twice, it holds once.
    """
    wanted = wants_of(quote)
    if not wanted:
        return
    next_version()
    if Hold.objects.filter(quote=quote).exists():
        return
    for hold in wanted:
        hold.state = HELD if _find(hold) else TO_ORDER
    Hold.objects.bulk_create(wanted)


def _find(hold: Hold) -> bool:
    """Claim what this hold needs, if it is there; a shaft's piece is written into it."""
    if hold.line != SHAFT:
        return rack.hold_counted(hold.part_code, hold.quantity)
    metal = selectors.metal_of(hold)
    hold.piece = selectors.best_piece(metal, hold.needed, selectors.sister_heat(hold))
    if hold.piece is not None:
        return rack.hold_some(hold.piece.pk, hold.needed)
    by_count = hold.part_code != "" and not is_kept_by_piece(hold.part_code)
    return by_count and rack.hold_counted(hold.part_code, 1)


@transaction.atomic
def give_back(quote: Quote) -> None:
    """What was held for this quote and not taken is free again, in the caller's transaction.

    What was sawn stays sawn. Asked twice, it gives back once.
    """
    if not selectors.has_waiting(quote):
        return
    next_version()
    for hold in _waiting(quote):
        if hold.state == HELD:
            _free(hold)
        _say(hold, GIVEN_BACK)


def _waiting(quote: Quote) -> list[Hold]:
    """Its holds that wait, in the order in which pieces are locked."""
    holds = Hold.objects.filter(WAITS, quote=quote)
    return list(holds.select_related("quote__submission", "piece").order_by("piece_id", "pk"))


def _free(hold: Hold) -> None:
    if hold.piece_id is not None:
        rack.let_go(hold.piece_id, hold.needed)
    else:
        rack.let_go_counted(hold.part_code, hold.quantity)


def _say(hold: Hold, state: str, by: User | None = None) -> None:
    hold.state, hold.at, hold.by = state, timezone.now(), by
    hold.save(update_fields=["state", "at", "by", "piece", "remnant"])


# --- Taking ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Taken:
    """``sawn``: the piece and what is left of it; None where no piece was sawn now.

    ``not_there``: what the quote needs and nobody has: it stays on the reorder list.
    """

    sawn: Sawn | None = None
    not_there: tuple[str, ...] = ()


@transaction.atomic
def take(quote: Quote, by: User | None = None) -> Taken:
    """The shaft is sawn and its parts leave the shelf, once however often it is clicked.

    What could not be held when it was accepted is looked for again.
    """
    if not selectors.has_waiting(quote):
        return Taken()
    next_version()
    sawn, missing = None, []
    for hold in _waiting(quote):
        if _is_unsettled(hold) and not _find_again(hold):
            missing.append(hold.what)
        elif hold.piece_id is not None:
            sawn = _saw(hold, by)
        else:
            rack.take_counted(hold.part_code, hold.quantity)
            _say(hold, TAKEN, by)
    return Taken(sawn, tuple(missing))


@transaction.atomic
def still_missing(quote: Quote) -> tuple[str, ...]:
    """What this order needs and nobody has, in words; what has come meanwhile is held for it."""
    if not selectors.has_waiting(quote):
        return ()
    next_version()
    open_ones = [hold for hold in _waiting(quote) if _is_unsettled(hold)]
    return tuple(hold.what for hold in open_ones if not _find_again(hold))


def _is_unsettled(hold: Hold) -> bool:
    """To be ordered, or a bar held by count whose pieces have been listed since."""
    by_count = hold.line == SHAFT and hold.piece_id is None
    return hold.state == TO_ORDER or (by_count and is_kept_by_piece(hold.part_code))


def _find_again(hold: Hold) -> bool:
    """What was to be ordered is held now, if it has come."""
    if not _find(hold):
        hold.piece = None
        if hold.state != TO_ORDER:
            _say(hold, TO_ORDER)
        return False
    _say(hold, HELD)
    return True


def _saw(hold: Hold, by: User | None) -> Sawn | None:
    """Others who hold some of the same piece hold it of what is left."""
    if hold.piece_id is None:
        raise ValueError("nothing to saw")
    why = f"sawn for {hold.quote.number}"
    sawn = rack.saw(hold.piece_id, hold.needed, why=why, by=by)
    hold.remnant = sawn.remnant if sawn else None
    _say(hold, TAKEN, by)
    if hold.remnant:
        others = Hold.objects.filter(piece=hold.piece_id, state=HELD)
        others.update(piece=hold.remnant)
    return sawn


# --- What comes later -----------------------------------------------------------------


@transaction.atomic
def hold_what_waits() -> int:
    """Hold what has come for those who wait, the longest accepted first; how many it was."""
    next_version()
    found = 0
    for hold in selectors.to_be_found():
        if _is_unsettled(hold) and _find_again(hold):
            found += 1
    return found


@transaction.atomic
def lay_out() -> int:
    """List the bars that were only counted so far as pieces, and hold them for who waits.

    How many pieces that made. May be called again: a part that has pieces is left alone.
    """
    return rack.lay_out_pieces()


@transaction.atomic
def hold_as_planned(*, seen: str, by: User) -> BarPlan:
    """Hold every waiting shaft on the piece the plan gives it, all at once.

    ``seen``: the plan's own mark. Raises Overtaken where a hold or a piece changed since.
    """
    next_version()
    made = bar_plan()
    if made.seen != seen:
        raise Overtaken
    moved = [(hold, piece) for hold, piece in made.moves if hold.piece_id != piece]
    for hold, _piece in sorted(moved, key=lambda one: one[0].piece_id or 0):
        if hold.state == HELD:
            _free(hold)
    for hold, piece in sorted(moved, key=lambda one: one[1]):
        if not rack.hold_some(piece, hold.needed):
            raise Overtaken
        hold.piece_id = piece
        _say(hold, HELD, by)
    return made
