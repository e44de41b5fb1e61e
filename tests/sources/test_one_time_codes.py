"""Codes from a phone against the vectors of the standards.

RFC 4226 (HOTP), appendix D, table 2; RFC 6238 (TOTP), appendix B, the rows of SHA1. The latter
are eight digits long; six digits are the last six of them, because both are taken by remainder.
"""

from __future__ import annotations

from base64 import b32encode
from datetime import UTC, datetime

import pytest

from staff.second.totp import STEP_SECONDS, code_at, step_of, step_that_fits

SECRET = b32encode(b"12345678901234567890").decode()

RFC_4226 = (
    *("755224", "287082", "359152", "969429", "338314"),
    *("254676", "287922", "162583", "399871", "520489"),
)
RFC_6238 = [
    (59, "94287082"),
    (1111111109, "07081804"),
    (1111111111, "14050471"),
    (1234567890, "89005924"),
    (2000000000, "69279037"),
    (20000000000, "65353130"),
]


@pytest.mark.parametrize(("count", "code"), list(enumerate(RFC_4226)))
def test_codes_by_count_are_those_of_rfc_4226(count: int, code: str) -> None:
    assert code_at(SECRET, count) == code


@pytest.mark.parametrize(("seconds", "code"), RFC_6238)
def test_codes_by_time_are_those_of_rfc_6238(seconds: int, code: str) -> None:
    at = datetime.fromtimestamp(seconds, UTC)
    assert code_at(SECRET, step_of(at)) == code[-6:]
    assert step_that_fits(SECRET, code[-6:], now=step_of(at), after=0) == seconds // STEP_SECONDS
