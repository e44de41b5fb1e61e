"""Which shaft a tag belongs to."""

from __future__ import annotations

from quotes.models import Quote
from quotes.passport.models import HoursReading, Passport

MOST_READINGS = 50


def by_token(token: str) -> Passport | None:
    """A passport with its quote, its request and its readings; None for a stranger's guess."""
    rows = Passport.objects.select_related("quote__submission", "quote__sheet")
    return rows.filter(token=token).first()


def passport_of(quote: Quote) -> Passport | None:
    """The passport of a quote's shaft; None before its bar is sawn."""
    return Passport.objects.filter(quote=quote).first()


def readings_of(passport: Passport) -> list[HoursReading]:
    """What the owner told of the hours, the newest first."""
    return list(passport.readings.all()[:MOST_READINGS])
