"""Nobody was reached: when to try again, from a word or from a day and a time."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

HOUR, AFTERNOON, TOMORROW, AT = "hour", "afternoon", "tomorrow", "at"
MORNING_TIME, AFTERNOON_TIME = time(9, 0), time(15, 0)


def again_choices(now: datetime) -> list[tuple[str, str]]:
    """What can be promised at this moment of the desk's day."""
    afternoon = [(AFTERNOON, f"this afternoon, {AFTERNOON_TIME:%H:%M}")]
    return [
        ("", "as it comes"),
        (HOUR, "in 1 hour"),
        *(afternoon if now.time() < AFTERNOON_TIME else []),
        (TOMORROW, f"tomorrow, {MORNING_TIME:%H:%M}"),
        (AT, "on a day, at a time"),
    ]


def again_at(
    choice: str, now: datetime, day: date | None = None, clock: time | None = None
) -> datetime | None:
    """The moment that is meant, on the desk's clock; None: whenever its turn comes.

    A time without a day is today, a day without a time its morning.
    """
    if choice == HOUR:
        return now + timedelta(hours=1)
    if choice == AFTERNOON:
        return _on(now.date(), AFTERNOON_TIME, now)
    if choice == TOMORROW:
        return _on(now.date() + timedelta(days=1), MORNING_TIME, now)
    if day is None and clock is None:
        return None
    return _on(day or now.date(), clock or MORNING_TIME, now)


def _on(day: date, clock: time, now: datetime) -> datetime:
    return datetime.combine(day, clock, tzinfo=now.tzinfo)
