"""Quotes on which something can be chosen."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import User

from quotes.choosing.services import choose
from quotes.models import Quote
from tests.quotes.given import a_quote

# Plates with which plain stainless on 1 in has 5.45 in S20910 and 1.56 in S31600.
SLOW: dict[str, Any] = {
    "engine_power": {"text": "60 hp"},
    "engine_max_rpm": "1500",
    "gear_ratio": "1:1",
}


def an_open_quote(**changes: Any) -> Quote:
    """An issued quote without a coupling, so that fitting one can be chosen."""
    return a_quote(top={"wants": ["shaft", "bearing"]}, **changes)


def chosen(quote: Quote, alloy: str = "", *options: str, by: User | None = None) -> Quote | None:
    """What stands after a choice on this quote."""
    return choose(
        submission=quote.submission,
        alloy=alloy,
        options=options,
        version=quote.version,
        by=by,
        name="" if by else "Wilmot Tarpley",
        told_from="" if by else "status page, 203.0.113.7",
    )
