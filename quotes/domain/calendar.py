"""The days the shop works: what every date the desk says is counted by."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONDAY_TO_FRIDAY = frozenset(range(5))
# So many closed days on end are no closure but a mistake: nothing is promised across them.
LONGEST_CLOSURE = 366
_ONE = timedelta(days=1)


class CalendarError(ValueError):
    """No day can be given by this calendar; the words say why and what to do."""


@dataclass(frozen=True, slots=True)
class Calendar:
    """``week``: the weekdays worked, Monday is 0. ``closed``: days that are not worked though
    their weekday is. Raises CalendarError where no weekday is worked: no date could be given.
    """

    week: frozenset[int] = MONDAY_TO_FRIDAY
    closed: frozenset[date] = frozenset()

    def __post_init__(self) -> None:
        if not self.week & set(range(7)):
            raise CalendarError(
                "Closed on all seven days of the week, so no day could be promised. "
                "Leave at least one of them open."
            )

    def is_open(self, day: date) -> bool:
        """Whether the shop works on this day."""
        return day.weekday() in self.week and day not in self.closed

    def after(self, day: date, working_days: int) -> date:
        """The open day so many working days later; with 0 this day, or the next open one.

        Raises CalendarError where the shop stays closed for a year on end, and ValueError for
        days back.

        >>> Calendar().after(date(2026, 11, 27), 3)  # a Friday
        datetime.date(2026, 12, 2)
        >>> Calendar(closed=frozenset({date(2026, 12, 1)})).after(date(2026, 11, 27), 3)
        datetime.date(2026, 12, 3)
        """
        if working_days < 0:
            raise ValueError("working days are counted forward")
        if working_days == 0:
            return self._open_from(day)
        for _each in range(working_days):
            day = self._open_from(day + _ONE)
        return day

    def between(self, first: date, last: date) -> int:
        """Open days after ``first``, up to and with ``last``; 0 where that is no later.

        >>> Calendar().between(date(2026, 11, 27), date(2026, 12, 2))
        3
        """
        days = max(0, (last - first).days)
        return sum(self.is_open(first + timedelta(days=n)) for n in range(1, days + 1))

    def _open_from(self, day: date) -> date:
        for _each in range(LONGEST_CLOSURE):
            if self.is_open(day):
                return day
            day += _ONE
        raise CalendarError(
            f"The shop is closed on every day of the year before {day.isoformat()}, so no day can "
            "be promised. Open one of them in the calendar."
        )


USUAL = Calendar()  # Monday to Friday, where nobody has said otherwise


def span(first: date, last: date) -> tuple[date, ...]:
    """Every day from the first to the last, both with them.

    Raises CalendarError where the last comes first, or the closure is longer than a year.
    """
    days = (last - first).days + 1
    if days < 1:
        raise CalendarError("The last day comes before the first. Swap them, or leave it empty.")
    if days > LONGEST_CLOSURE:
        raise CalendarError("That is more than a year. Close the shop for a shorter time.")
    return tuple(first + timedelta(days=n) for n in range(days))


def week_words(week: Iterable[int]) -> str:
    """The weekdays in words, in their order.

    >>> week_words({4, 0})
    'Monday, Friday'
    """
    return ", ".join(WEEKDAYS[number] for number in sorted(week))
