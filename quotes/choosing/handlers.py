"""Work for later: the price of a choice whose maker was interrupted."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from intake.domain.lifecycle import MoveError
from intake.jobs import handler
from quotes import selectors
from quotes.choosing.selectors import choice_row, newest
from quotes.choosing.services import price_anew
from quotes.domain.lifecycle import OPEN, QuoteError


@handler("price_choice")
def price_choice(payload: Mapping[str, Any]) -> Callable[[], object] | None:
    """Nothing to do where it was priced at once, or chosen anew since, or answered."""
    row = choice_row(payload["choice_id"])
    if row is None:
        return None
    last, quote = newest(row.submission_id), selectors.latest_quote(row.submission)
    if last is None or last.pk != row.pk or quote is None or quote.status not in OPEN:
        return None
    told = selectors.choice_kept(quote)
    if (told.alloy, sorted(told.options)) == (row.alloy, row.options):
        return None
    try:
        price_anew(row, row.by)
    except (QuoteError, MoveError):  # answered, or a question is open: the choice waits for it
        return None
    return None
