"""What a customer has typed and not yet sent: kept in the session, one draft a boat."""

from __future__ import annotations

import uuid
from typing import TypedDict

from django.http import HttpRequest, QueryDict

_KEPT = 8  # drafts a session; the oldest goes first


class Draft(TypedDict):
    """Boxes as typed, and the key under which exactly these boxes are sent, once."""

    typed: str
    key: str


def keep(request: HttpRequest, name: str) -> str:
    """Keep the posted boxes under ``name`` or a new name. Changed boxes get a new key."""
    boxes = request.POST.copy()
    for own in ("csrfmiddlewaretoken", "draft"):
        boxes.pop(own, None)
    return begin(request, boxes, name)


def begin(request: HttpRequest, boxes: QueryDict, name: str = "") -> str:
    """Keep boxes that were filled in for the customer, under ``name`` or a new name."""
    typed = boxes.urlencode()
    drafts: dict[str, Draft] = request.session.get("drafts", {})
    old = drafts.pop(name, None)
    name = name if old else uuid.uuid4().hex
    key = old["key"] if old and old["typed"] == typed else str(uuid.uuid4())
    drafts[name] = {"typed": typed, "key": key}
    request.session["drafts"] = dict(list(drafts.items())[-_KEPT:])
    return name


def find(request: HttpRequest, name: str) -> tuple[QueryDict, str] | None:
    """The boxes and the key of one draft of this session, or None."""
    draft: Draft | None = request.session.get("drafts", {}).get(name)
    return (QueryDict(draft["typed"]), draft["key"]) if draft else None
