"""Which requests are called about at random: one in twenty, and nobody can foresee which."""

from __future__ import annotations

from hashlib import sha256
from hmac import digest

from quotes.domain.insight.flags import AUDIT_WEIGHT


def is_drawn(salt: str, key: int) -> bool:
    """Whether the request with this key is one of the twentieth part that is called about.

    A keyed hash (HMAC of RFC 2104 with SHA-256): the same for the same salt, and as good as chance
    for whoever does not know it.

    >>> is_drawn("salt", 7) == is_drawn("salt", 7)
    True
    """
    tag = digest(salt.encode(), str(key).encode(), sha256)
    return int.from_bytes(tag[:8], "big") % AUDIT_WEIGHT == 0
