"""Work for later of this room: an id goes in, one service is called. It may run twice."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from intake.jobs import handler
from quotes import services


@handler("issue_quote")
def issue_quote(payload: Mapping[str, Any]) -> Callable[[], object] | None:
    """Prices and paper now, outside any transaction; the rows in the closure."""
    return services.prepare_quote(submission_id=payload["submission_id"])


@handler("lapse_quote")
def lapse_quote(payload: Mapping[str, Any]) -> Callable[[], object]:
    """A quote's time has run out."""
    return lambda: services.lapse_quote(quote_id=payload["quote_id"])
