"""A shaft's tag: made once as its bar is sawn; readings are only added."""

from __future__ import annotations

import secrets

from django.utils import timezone

from intake.inserts import insert
from quotes.models import Quote
from quotes.passport.models import HoursReading, Passport

MOST_HOURS = 200_000


class NotHours(ValueError):
    """The hours cannot be read; the words say what is wanted."""


def make_passport(quote: Quote) -> None:
    """The shaft's public name, once, inside the caller's transaction."""
    insert(Passport(quote=quote, token=secrets.token_urlsafe(16)), unless_there=True)


def add_reading(*, passport: Passport, typed: str, renewed: bool) -> bool:
    """Engine hours as read today; told twice they are kept once. Raises NotHours."""
    text = typed.strip().replace(",", "").replace(" ", "")
    if not text.isascii() or not text.isdecimal() or int(text[:9]) > MOST_HOURS:
        raise NotHours
    row = HoursReading(
        passport=passport, hours=int(text), renewed=renewed, day=timezone.localdate()
    )
    return insert(row, unless_there=True)
