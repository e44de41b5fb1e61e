"""Holding pieces for a quote, taking them, giving them back."""

from __future__ import annotations

from quotes.models import Quote


def hold_for(quote: Quote) -> None:
    """Hold what this accepted quote needs, in the caller's transaction."""
    del quote


def give_back(quote: Quote) -> None:
    """What was held for this quote and not taken is free again, in the caller's transaction."""
    del quote
