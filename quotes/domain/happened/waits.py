"""Whom a request waited for, from the moment it came to its first quote."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

MACHINE, DESK, CUSTOMER = "machine", "desk", "customer"


@dataclass(frozen=True, slots=True)
class Moment:
    """From here on it waited for that one."""

    at: datetime
    who: str


def waits(came: datetime, quoted: datetime, moments: Iterable[Moment]) -> tuple[int, int, int]:
    """Whole seconds waited for the machine, the desk and the customer; together the whole time.

    Until the first moment it waits for the machine. What comes after the quote does not count.
    """
    seconds = dict.fromkeys((MACHINE, DESK, CUSTOMER), 0)
    now, who = came, MACHINE
    for moment in sorted(moments, key=lambda one: one.at):
        until = min(max(moment.at, now), quoted)
        seconds[who] += _whole(came, until) - _whole(came, now)
        now, who = until, moment.who
    seconds[who] += _whole(came, max(quoted, now)) - _whole(came, now)
    return seconds[MACHINE], seconds[DESK], seconds[CUSTOMER]


def _whole(start: datetime, end: datetime) -> int:
    """Whole seconds from the start, so that parts add up to the whole."""
    return int((end - start).total_seconds())
