"""Working days: an open day is reached after so many, whatever is closed."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.domain.calendar import USUAL, Calendar, CalendarError, span

DAYS = st.sampled_from([date(2026, 1, 1) + timedelta(days=n) for n in range(700)])
CALENDARS = st.builds(
    Calendar,
    st.frozensets(st.integers(0, 6), min_size=1),
    st.frozensets(DAYS, max_size=40),
)


@given(CALENDARS, DAYS, st.integers(0, 40))
def test_the_day_after_so_many_is_an_open_one(calendar: Calendar, day: date, count: int) -> None:
    assert calendar.is_open(calendar.after(day, count))


@given(CALENDARS, DAYS, st.integers(1, 40))
def test_so_many_open_days_lie_between(calendar: Calendar, day: date, count: int) -> None:
    assert calendar.between(day, calendar.after(day, count)) == count


@given(CALENDARS, DAYS, st.integers(0, 30), st.integers(0, 30))
def test_later_and_more_never_come_earlier(
    calendar: Calendar, day: date, count: int, later: int
) -> None:
    assert calendar.after(day, count) <= calendar.after(day, count + later)
    assert calendar.after(day, count) <= calendar.after(day + timedelta(days=later), count)
    if count:
        assert calendar.after(day, count + 1) > calendar.after(day, count)


@given(CALENDARS, DAYS, st.integers(0, 15), st.integers(1, 15))
def test_days_are_counted_on_from_where_one_stopped(
    calendar: Calendar, day: date, first: int, then: int
) -> None:
    assert calendar.after(calendar.after(day, first), then) >= calendar.after(day, then)
    if first:
        assert calendar.after(calendar.after(day, first), then) == calendar.after(day, first + then)


def test_a_shop_that_never_opens_is_refused_in_words() -> None:
    with pytest.raises(CalendarError, match="all seven days"):
        Calendar(frozenset())
    year = frozenset(span(date(2026, 1, 1), date(2026, 12, 31)))
    shut = Calendar(closed=year | frozenset(span(date(2027, 1, 1), date(2027, 12, 31))))
    with pytest.raises(CalendarError, match="Open one of them"):
        shut.after(date(2026, 1, 1), 1)


def test_christmas_is_stepped_over() -> None:
    shut = Calendar(closed=frozenset(span(date(2026, 12, 24), date(2027, 1, 1))))
    assert shut.after(date(2026, 12, 22), 3) == date(2027, 1, 5)  # Wed 23, Mon 4, Tue 5
    assert USUAL.after(date(2026, 12, 22), 3) == date(2026, 12, 25)


@pytest.mark.parametrize(
    ("first", "last", "words"),
    [
        (date(2026, 5, 2), date(2026, 5, 1), "before the first"),
        (date(2026, 1, 1), date(2027, 1, 2), "more than a year"),
    ],
)
def test_a_closure_that_makes_no_sense_is_refused(first: date, last: date, words: str) -> None:
    with pytest.raises(CalendarError, match=words):
        span(first, last)
