"""What must be true of the shop's settings before a price is made, said at the start."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.core import checks

from quotes.domain.currency import USUAL_PLACES, is_currency, places_of


def currency_can_be_kept(app_configs: Any, **rest: Any) -> list[checks.CheckMessage]:
    """The currency is one of ISO 4217, and quotes have a place for its smallest unit."""
    currency = str(settings.SHOP.get("currency", ""))
    if not currency:
        return []
    if not is_currency(currency):
        words = (
            f"SHOP currency {currency!r} is no code of ISO 4217; write one such as EUR, or none."
        )
        return [checks.Error(words, id="quotes.E001")]
    if places_of(currency) > USUAL_PLACES:
        words = (
            f"Quotes keep two places; {currency} has {places_of(currency)}. Use another currency."
        )
        return [checks.Error(words, id="quotes.E002")]
    return []


checks.register(currency_can_be_kept)
