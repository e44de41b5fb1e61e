"""Work for later of late calls: an id goes in, one service is called. It may run twice."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from intake.calling.alarms import services
from intake.jobs import chore, handler


@handler("call_alarm")
def call_alarm(payload: Mapping[str, Any]) -> Callable[[], object] | None:
    """One mail leaves, outside any transaction; that it left is written in the closure."""
    return services.prepare_alarm(alarm_id=payload["alarm_id"], go=payload["go"])


@chore
def raise_alarms() -> None:
    """Whoever should have been called by now is told of."""
    services.raise_alarms()
