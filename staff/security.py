"""The log of what matters for safety: who came in, who was refused, what was changed for whom.

People are told by number, never by what was typed: a password typed into the name's box would
otherwise stand in the log.
"""

from __future__ import annotations

import logging

from django.http import HttpRequest

log = logging.getLogger("staff.security")


def tell(event: str, *, person: int | None = None, address: str = "", **more: object) -> None:
    """One line: the event's name, whom it concerns, from where, and what else is no secret."""
    rest = "".join(f" {name}={value}" for name, value in more.items())
    log.info("%s person=%s address=%s%s", event, person, address or "-", rest)


def address_of(request: HttpRequest | None) -> str:
    """Where a request came from, as the front door found it; "" when nobody knows."""
    return str(request.META.get("REMOTE_ADDR", ""))[:64] if request is not None else ""
