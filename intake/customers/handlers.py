"""Work for later: what has been kept for long enough is forgotten, a little at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import timedelta
from typing import Any

from django.db import transaction
from django.utils import timezone

from intake.customers.privacy.services import forget_what_is_due
from intake.jobs import chore, enqueue, handler
from staff.seats.services import forget_old_sessions

# Others write in between.
_PAUSE = timedelta(seconds=5)


@chore
def look_what_is_due() -> None:
    """Once a day."""
    with transaction.atomic():
        _ask(f"{timezone.localdate()}", 1)


@handler("forget_what_is_due")
def forget(payload: Mapping[str, Any]) -> Callable[[], object] | None:
    """A few of each kind, each in its own short transaction; the rest of the day's in a while.

    Done twice it finds less to do.
    """
    if payload["go"] == 1:
        forget_old_sessions()
    gone = forget_what_is_due()
    if not gone:
        return None
    return lambda: _ask(payload["day"], payload["go"] + 1)


def _ask(day: str, go: int) -> None:
    enqueue(
        kind="forget_what_is_due",
        payload={"day": day, "go": go},
        key=f"forget:{day}:{go}",
        due=timezone.now() + (_PAUSE if go > 1 else timedelta(0)),
    )
