"""What only the site can make: the secret behind a salt, and codes for paper."""

from __future__ import annotations

import re
import secrets
from base64 import b32encode
from collections.abc import Iterator

from django.conf import settings
from django.utils.crypto import salted_hmac

HOW_MANY = 10
# No 0 and O, no 1, I and L: read from paper, typed by hand.
LETTERS = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"
_RECOVERY = re.compile(rf"\s*(\d{{1,2}})[\s-]+((?:[{LETTERS}][\s-]*){{12}})")
_SECRET_BYTES = 20  # RFC 4226 recommends 160 bits


def new_salt() -> str:
    """A new start for a secret."""
    return secrets.token_hex(16)


def secrets_of(salt: str) -> Iterator[str]:
    """The secret by the site's key, then by its earlier keys, which may have made it."""
    for key in (settings.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS):
        mac = salted_hmac("staff.second", salt, secret=key, algorithm="sha256")
        yield b32encode(mac.digest()[:_SECRET_BYTES]).decode()


def recovery_codes() -> list[str]:
    """Ten codes for paper, each with its number in front: 3-KFWT-9HXP-QDRM."""
    return [f"{number}-{_groups(3)}" for number in range(1, HOW_MANY + 1)]


def read_recovery(typed: str) -> tuple[int, str] | None:
    """Number and letters of a code as people type it; None when it is no such code.

    Small letters, blanks for dashes and no dashes among the letters are all read.
    """
    match = _RECOVERY.fullmatch(typed[:60].upper())
    return (int(match[1]), re.sub(r"[\s-]", "", match[2])) if match else None


def one_time_password() -> str:
    """Sixteen letters in fours, to be read out over the phone: 79 bits."""
    return _groups(4).lower()


def _groups(count: int) -> str:
    return "-".join("".join(secrets.choice(LETTERS) for _ in range(4)) for _ in range(count))
