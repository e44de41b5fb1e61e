"""Writing down whether it fitted, once for each time it was asked."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import cast

from django.db import transaction
from django.utils.translation import gettext as _

from catalog.domain.lengths import Length
from catalog.domain.tape import LengthError, Unit, read_length
from intake.domain.questions import QUESTIONS
from intake.inserts import insert
from intake.services import record_fit
from quotes.domain.order import read_order
from quotes.models import Quote
from quotes.outcomes.models import FITTED, Outcome

LONGEST_WORDS = 1000


class NotTold(Exception):
    """Something is missing or cannot be read. ``errors``: box -> sentence."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(" ".join(errors.values()))
        self.errors = errors


@transaction.atomic
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
    Told twice it is stored once: False the second time. Raises NotTold.
    """
    errors: dict[str, str] = {}
    if fitted not in dict(FITTED):
        errors["fitted"] = _("Please choose whether it fitted.")
    length = _gap(gap, quote, errors)
    if fitted in ("no", "changed") and not different.strip():
        errors["different"] = _("Please write in a few words what was different.")
    if errors:
        raise NotTold(errors)
    row = Outcome(
        quote=quote,
        after_days=after_days,
        fitted=fitted,
        gap_typed=gap.strip()[:40],
        gap_nm=length.nm if length else None,
        different=different.strip()[:LONGEST_WORDS],
    )
    if not insert(row, unless_there=True):
        return False
    _record(quote, fitted, length, sent)
    return True


def _gap(text: str, quote: Quote, errors: dict[str, str]) -> Length | None:
    if not text.strip():
        return None
    unit = quote.sheet.body.get("tape_unit")
    tape = cast("Unit | None", unit if unit in ("in", "mm") else None)
    try:
        return read_length(text, tape, QUESTIONS["gap_now"].widest).length
    except LengthError as error:
        errors["gap"] = error.message
        return None


def _record(quote: Quote, fitted: str, gap: Length | None, sent: date | None) -> None:
    """As intake must know it; only where a shaft was made."""
    shaft = read_order(quote.sheet.body, quote.sheet.outcome).shaft
    if shaft is None:
        return
    record_fit(
        submission=quote.submission,
        length=shaft.length,
        diameter=shaft.diameter,
        alloy=shaft.alloy,
        gap=gap,
        misfit=True if fitted == "no" else None,
        sent=sent,
    )
