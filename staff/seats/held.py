"""A form that was sent to a locked desk: held in the session, and sent again after the lock.

It is held where only the site reads it, so a passer-by finds nothing in the locked page. What may
be a password or a code is not held: its form asks for it again.
"""

from __future__ import annotations

import re
from typing import Any

from django.http import HttpRequest

MOST = 200_000  # characters; a full sheet is under 20 000
_HELD = "held"
_SECRET = re.compile(r"password|proof$|^csrf", re.IGNORECASE)
_OWN_PAGES = "/staff/me/"  # passwords and codes of one's own


def hold(request: HttpRequest) -> bool:
    """Hold what was sent; False where it has files, is all secret, or is larger than our forms."""
    pairs = [
        [name, value]
        for name, values in request.POST.lists()
        for value in values
        if not _SECRET.search(name)
    ]
    if request.FILES or request.path_info.startswith(_OWN_PAGES):
        return False
    if sum(len(str(value)) for _, value in pairs) > MOST:
        return False
    request.session[_HELD] = {"to": request.get_full_path(), "pairs": pairs}
    return True


def held(request: HttpRequest) -> dict[str, Any] | None:
    """Where it was going (``to``) and its boxes (``pairs``); None where nothing is held."""
    found: dict[str, Any] | None = request.session.get(_HELD)
    return found


def drop(request: HttpRequest) -> None:
    """It was sent on, or is wanted no more."""
    request.session.pop(_HELD, None)
