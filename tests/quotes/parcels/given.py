"""Orders of parts alone, for tests."""

from __future__ import annotations

from typing import Any

from quotes.models import Quote
from tests.quotes.given import an_accepted

PARTS = {"wants": ["coupling", "bearing"]}


def an_accepted_parcel(*, days_ago: int = 0, **changes: Any) -> Quote:
    """A coupling and a bearing, accepted; nothing is to be made."""
    top = {**PARTS, **changes.pop("top", {})}
    return an_accepted(days_ago=days_ago, top=top, **changes)
