"""What left us, and when."""

from __future__ import annotations

from datetime import date

from quotes.models import Quote


def shipped_on(quote: Quote) -> date | None:
    """The day the shaft left us; None while it is here."""
    del quote
    return None
