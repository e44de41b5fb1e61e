"""When a cause is told of: seen often in a short time, or again after it was answered."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

UNKNOWN = "X"  # has a target of its own: it is no cause that could come back


@dataclass(frozen=True, slots=True)
class Seen:
    """One mistake: its day, its cause, and whether it repeats one of the ninety days before for
    the same customer, hull family or question.
    """

    on: date
    cause: str
    again: bool


@dataclass(frozen=True, slots=True)
class Due:
    """A cause that is to be told of. ``came_back``: after a manager had answered it."""

    cause: str
    seen: int
    first_on: date
    last_on: date
    came_back: bool


def due(
    mistakes: Iterable[Seen], answered: dict[str, date], *, today: date, after: int, days: int
) -> list[Due]:
    """Causes seen at least ``after`` times in the last ``days`` days, most frequent first.

    ``answered``: the last day a manager answered each cause. What came to light up to that day is
    answered with it. Later, one that repeats an earlier one for the same customer, hull family or
    question is enough.
    """
    since, by_cause = today - timedelta(days=days), dict[str, list[Seen]]()
    for one in mistakes:
        fresh = one.cause not in answered or one.on > answered[one.cause]
        if one.cause != UNKNOWN and since < one.on <= today and fresh:
            by_cause.setdefault(one.cause, []).append(one)
    found = [_due(cause, rows, answered) for cause, rows in by_cause.items()]
    told = [one for one in found if one.came_back or one.seen >= after]
    return sorted(told, key=lambda one: (-one.seen, one.cause))


def _due(cause: str, rows: list[Seen], answered: dict[str, date]) -> Due:
    came_back = cause in answered and any(one.again for one in rows)
    on = [one.on for one in rows]
    return Due(cause, len(rows), min(on), max(on), came_back)
