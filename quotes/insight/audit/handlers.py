"""The draw, and counting a request anew after its call."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from intake.jobs import chore, handler
from quotes.insight.audit import services
from quotes.insight.gathering.services import gather


@handler("audit_counted")
def audit_counted(payload: Mapping[str, Any]) -> Callable[[], object] | None:
    """Facts are made anew from the records, as often as asked for."""
    gather([payload["submission"]])
    return None


@chore
def draw_audit_calls() -> None:
    """Who is called about at random."""
    services.draw()
