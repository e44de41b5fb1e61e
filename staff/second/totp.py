"""Codes from a phone (RFC 6238): PyOTP's home.

A secret is 32 letters of base32 (160 bits), a code six digits, a step half a minute.
"""

from __future__ import annotations

import hmac
from datetime import datetime

STEP_SECONDS = 30
DIGITS = 6
DRIFT = 1  # steps a phone's clock may be off, either way


def step_of(at: datetime) -> int:
    """The half minute a moment lies in, counted from 1970."""
    return int(at.timestamp()) // STEP_SECONDS


def code_at(secret: str, step: int) -> str:
    """The six digits that belong to one step."""
    import pyotp  # here: only who logs in with a code needs it, not every start

    return str(pyotp.HOTP(secret, digits=DIGITS).at(step))


def step_that_fits(secret: str, code: str, *, now: int, after: int) -> int | None:
    """The step whose code this is, near ``now`` and later than ``after``; None when none is.

    Every step is compared, and each in constant time: how long it takes tells nothing.
    """
    fits = None
    for step in range(now - DRIFT, now + DRIFT + 1):
        same = hmac.compare_digest(code_at(secret, step), code)
        if same and step > after and fits is None:
            fits = step
    return fits


def address_for(secret: str, *, person: str, desk: str) -> str:
    """What the square code says to the phone: an otpauth address with person and desk."""
    import pyotp

    return str(pyotp.TOTP(secret).provisioning_uri(name=person, issuer_name=desk))
