"""Writing down whether it fitted, once for each time it was asked; a misfit opens its case."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from catalog.domain.lengths import Length
from intake.inserts import insert
from intake.services import record_fit
from quotes.cases.services import case_of_outcome
from quotes.inspecting.selectors import finished_length
from quotes.making import order_of
from quotes.models import Quote
from quotes.outcomes import selectors
from quotes.outcomes.models import NotYetFitted, Outcome
from quotes.outcomes.reading import NotTold, Told, read_told
from quotes.sending.models import Shipment
from quotes.sending.selectors import shipped_on

__all__ = ["NotTold", "ask_by_mail", "tell", "tell_outcome"]


def tell(
    *, quote: Quote, after_days: int, typed: Mapping[str, str], by: User | None = None
) -> bool:
    """Store an answer as it was typed; ``by``: who took it down on the phone.

    False where it is stored already. Raises NotTold.
    """
    told = read_told(typed, quote, timezone.localdate(), by_phone=by is not None)
    if told.ask_on is not None:
        return _put_off(quote, told, told.ask_on, by)
    return _store(quote, after_days, told, by, None)


def tell_outcome(
    *,
    quote: Quote,
    after_days: int,
    fitted: str,
    gap: str = "",
    different: str = "",
    sent: date | None = None,
) -> bool:
    """Store what the customer told, and the shaft with the gap it was fitted with.

    ``gap`` in the tape's language; empty where nobody measured it, and then it proves nothing.
    Told twice it is stored once: False the second time. ``sent`` None: the day it left us.
    Raises NotTold.
    """
    typed = {"fitted": fitted, "gap": gap, "sure": gap.strip(), "different": different}
    told = read_told(typed, quote, timezone.localdate())
    return _store(quote, after_days, told, None, sent)


@transaction.atomic
def _store(quote: Quote, after_days: int, told: Told, by: User | None, sent: date | None) -> bool:
    """The answer, the shaft as the desk will know it, and a case where one is due."""
    foreseen = selectors.expected_of(quote)
    row = Outcome(
        quote=quote,
        after_days=after_days,
        fitted=told.fitted,
        gap_typed=told.gap_typed,
        gap_nm=told.gap.nm if told.gap is not None else None,
        different=told.different,
        told_by=told.told_by,
        by=by,
        predicted_nm=foreseen.gap.nm if foreseen else None,
        u_nm=foreseen.u.nm if foreseen else None,
    )
    if not insert(row, unless_there=True):
        return False
    Shipment.objects.filter(quote=quote).update(heard=True)
    _record(quote, told.fitted, told.gap, sent)
    case_of_outcome(quote=quote, outcome=row, foreseen=foreseen, by=by)
    return True


@transaction.atomic
def _put_off(quote: Quote, told: Told, ask_on: date, by: User | None) -> bool:
    """Not in the boat yet: asked again that day. No answer, and no silence either."""
    row = NotYetFitted(quote=quote, ask_on=ask_on, told_by=told.told_by, by=by)
    return insert(row, unless_there=True)


def _record(quote: Quote, fitted: str, gap: Length | None, sent: date | None) -> None:
    """As intake must know it, with the length as made; only where a shaft was made."""
    shaft = order_of(quote).shaft
    if shaft is None:
        return
    record_fit(
        submission=quote.submission,
        length=finished_length(quote) or shaft.length,
        diameter=shaft.diameter,
        alloy=shaft.alloy,
        gap=gap,
        misfit=True if fitted == "no" else None,
        sent=sent or shipped_on(quote),
    )


# --- Asking ---------------------------------------------------------------------------


def ask_by_mail() -> int:
    """Ask by mail wherever it is time, each time once; say how many were new."""
    from quotes.links.services import ask_for_mail  # its letters ask this room what is due

    new = 0
    for due in selectors.due_to_ask():
        with transaction.atomic():
            new += ask_for_mail(
                submission=due.quote.submission, kind=due.kind, key=due.key, quote=due.quote
            )
    return new
