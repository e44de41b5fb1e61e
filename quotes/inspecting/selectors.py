"""What was made, as measured."""

from __future__ import annotations

from collections.abc import Collection

from catalog.domain.lengths import Length
from quotes.domain.as_made_verdict import Verdict
from quotes.inspecting.models import Inspection
from quotes.making import order_of
from quotes.models import Quote


def inspections_of(quote: Quote) -> list[Inspection]:
    """Every inspection with who made, signed and released it, the newest first."""
    people = ("by", "signature__by", "release__by")
    mine = Inspection.objects.filter(quote=quote).select_related(*people)
    return list(mine.order_by("-number"))


def newest(quote: Quote) -> Inspection | None:
    """The inspection that counts."""
    return next(iter(inspections_of(quote)), None)


def made_length(quote: Quote) -> Length | None:
    """Coupling end to thread end as it was made and inspected; None before that."""
    nm = _newest_value(quote, "length_nm")
    return Length(nm) if nm is not None else None


def finished_length(quote: Quote) -> Length | None:
    """Coupling face to thread end as it is in the boat; None before it was inspected.

    As it was made, less what was left on for the yard to face off.
    """
    made, shaft = made_length(quote), order_of(quote).shaft
    return made - shaft.left_long if made is not None and shaft is not None else made


def predicted_gap(quote: Quote) -> tuple[Length, Length] | None:
    """The gap it will make as it was made, and its standard uncertainty; None before that."""
    last = Inspection.objects.filter(quote=quote).order_by("-number").first()
    if last is None or last.gap_nm is None:
        return None
    return Length(last.gap_nm), Length(last.u_nm)


def _newest_value(quote: Quote, field: str) -> int | None:
    mine = Inspection.objects.filter(quote=quote).order_by("-number")
    return mine.values_list(field, flat=True).first()


def may_not_leave(quote: Quote) -> tuple[str, ...]:
    """Why a finished shaft may not go on to packing; empty where it may."""
    return why_not_leave(newest(quote))


def why_not_leave(last: Inspection | None) -> tuple[str, ...]:
    """The same, from its newest inspection."""
    if last is None:
        return ("It is not inspected yet.",)
    said = []
    if last.verdict != Verdict.PASS and not is_released(last):
        said.append(f"Inspection {last.number} says: {last.get_verdict_display()}.")
    if not is_signed(last):
        said.append(f"Inspection {last.number} waits for a second person's signature.")
    return tuple(said)


def is_signed(inspection: Inspection) -> bool:
    """Whether a second person stands by it."""
    return getattr(inspection, "signature", None) is not None


def is_released(inspection: Inspection) -> bool:
    """Whether the desk has let it go."""
    return getattr(inspection, "release", None) is not None


def waiting_for_the_desk(size: int = 20) -> list[Inspection]:
    """Newest inspections that did not pass and that nobody has released, the oldest first."""
    newer = Inspection.objects.exclude(verdict=Verdict.PASS).filter(release=None)
    open_ones = newer.exclude(quote__shop_order__stage__in=("shipped", "cancelled"))
    found = open_ones.select_related("quote__submission").order_by("at")[: 5 * size]
    last = _last_numbers({one.quote_id for one in found})
    return [one for one in found if last.get(one.quote_id) == one.number][:size]


def _last_numbers(quotes: Collection[int]) -> dict[int, int]:
    rows = Inspection.objects.filter(quote__in=quotes).order_by("number")
    return dict(rows.values_list("quote_id", "number"))
