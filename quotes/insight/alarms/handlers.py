"""Looking for causes that come back, and the mail about one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from intake.jobs import chore, handler
from quotes.insight.alarms import services


@handler(services.KIND)
def cause_alarm(payload: Mapping[str, Any]) -> Callable[[], object] | None:
    """One mail leaves, outside any transaction; that it left is written in the closure."""
    return services.prepare(pk=payload["pk"], go=payload["go"])


@chore
def raise_cause_alarms() -> None:
    """Causes that were seen too often."""
    services.raise_alarms()
