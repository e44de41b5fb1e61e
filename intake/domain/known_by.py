"""What a boat, a contact and a hull family are known by, whatever way they are written."""

from __future__ import annotations

from intake.domain.sheet import Sheet

_TAIL = 8  # digits; no two subscribers of one neighbourhood share so many


def boat_key(name: str | None) -> str:
    """A boat's name without its case and spacing.

    >>> boat_key("  Biscuit   BARREL ")
    'biscuit barrel'
    """
    return " ".join((name or "").casefold().split())[:300]


def phone_key(phone: str | None) -> str:
    """The digits of a number.

    >>> phone_key("+1 202 555-0100")
    '12025550100'
    """
    return "".join(filter(str.isdecimal, phone or ""))


def phone_tail(key: str) -> str:
    """The end of a number's digits, which is the same with the country's code and without.

    >>> phone_tail("12025550100"), phone_tail("555010")
    ('25550100', '')
    """
    return key[-_TAIL:] if len(key) >= _TAIL else ""


def email_key(email: str | None) -> str:
    """An address without its case."""
    return (email or "").strip().casefold()


def contact_keys(phone: str | None, email: str | None) -> set[str]:
    """What one contact is known by: the digits of a number, an address without its case."""
    return {key for key in (phone_key(phone), email_key(email)) if key}


def family_key(sheet: Sheet) -> str:
    """Boats of one build: who built her and how long she is; empty where either is not told."""
    builder, length = (sheet.part("hull_built_by_year", name) for name in ("builder", "length"))
    return family_of(builder, length)


def family_of(builder: str | None, length: str | None) -> str:
    """The same from the two answers themselves.

    >>> family_of("Pilchard & Daughters", "24 ft"), family_of("", "24 ft")
    ('pilchard & daughters|24 ft', '')
    """
    if not builder or not length:
        return ""
    return f"{boat_key(builder)[:100]}|{boat_key(length)[:30]}"
