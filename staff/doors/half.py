"""Half a login: the password was right, the code is still to come. Nobody has rights by it."""

from __future__ import annotations

import time

from django.contrib.auth.models import User
from django.http import HttpRequest
from django.utils.crypto import constant_time_compare

from staff.doors.selectors import open_person

_HALF = "half"
HOLDS_SECONDS = 300


def begin(request: HttpRequest, person: User, backend: str, then: str) -> None:
    """Remember who gave the right password. ``then`` is where they were going."""
    request.session[_HALF] = {
        "person": person.pk,
        "backend": backend,
        "hash": person.get_session_auth_hash(),
        "at": int(time.time()),
        "next": then,
    }
    request.session.cycle_key()


def read(request: HttpRequest) -> tuple[User, str, str] | None:
    """Person, backend and where to go on; None where nobody is half in, or not any more."""
    kept = request.session.get(_HALF)
    if not kept or time.time() - kept["at"] > HOLDS_SECONDS:
        return None
    person = open_person(kept["person"])
    if person is None or not constant_time_compare(kept["hash"], person.get_session_auth_hash()):
        return None
    return person, kept["backend"], kept["next"]


def forget(request: HttpRequest) -> None:
    """Whole now, or given up."""
    request.session.pop(_HALF, None)
