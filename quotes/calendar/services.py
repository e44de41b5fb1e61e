"""Closing and opening days. Each function is one step with its line in the trail."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from uuid import uuid4

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from quotes.calendar.models import ClosedDay, ShopWeek
from quotes.calendar.selectors import forget_what_was_asked
from quotes.domain.calendar import MONDAY_TO_FRIDAY, Calendar, CalendarError, span, week_words
from staff.trail.services import note_change

TRAIL = "calendar"
LONGEST_WHY = 120


@transaction.atomic
def close_days(*, first: date, last: date | None, why: str, by: User) -> int:
    """Close every day from the first to the last; a day that is closed already keeps its reason.

    How many days were closed by this. Raises CalendarError.
    """
    week = _locked()
    why = " ".join(why.replace("\x00", "").split())[:LONGEST_WHY]
    if not why:
        raise CalendarError("Please say why, in a word or two: holiday, stock taking.")
    there = set(ClosedDay.objects.values_list("day", flat=True))
    new = [day for day in span(first, last or first) if day not in there]
    _still_opens(week, there | set(new))
    ClosedDay.objects.bulk_create([ClosedDay(day=day, why=why, by=by) for day in new])
    for day in new:
        note_change(record=TRAIL, key=day, by=by, why=why, before={}, after={"closed": why})
    _moved(week)
    return len(new)


@transaction.atomic
def open_days(*, days: Collection[date], by: User) -> int:
    """Take closed days away again; how many there were. A second click finds none."""
    week = _locked()
    for one in (gone := list(ClosedDay.objects.filter(day__in=days))):
        note_change(
            record=TRAIL, key=one.day, by=by, why="open again", before={"closed": one.why}, after={}
        )
    ClosedDay.objects.filter(pk__in=[one.pk for one in gone]).delete()
    _moved(week)
    return len(gone)


@transaction.atomic
def change_week(*, days: Collection[int], by: User) -> None:
    """Work on these weekdays from now on, Monday is 0. Raises CalendarError for none at all."""
    week = _locked()
    before, after = set(map(int, week.open_days)), set(days) & set(range(7))
    week.open_days = "".join(map(str, sorted(after)))
    _still_opens(week, set(ClosedDay.objects.values_list("day", flat=True)))
    told = {"open": week_words(before)}, {"open": week_words(after)}
    note_change(record=TRAIL, key="week", by=by, why="", before=told[0], after=told[1])
    _moved(week)


def _locked() -> ShopWeek:
    """The one row, which whoever changes the calendar waits for."""
    usual = "".join(map(str, sorted(MONDAY_TO_FRIDAY)))
    ShopWeek.objects.get_or_create(pk=1, defaults={"open_days": usual})
    return ShopWeek.objects.select_for_update().get(pk=1)


def _still_opens(week: ShopWeek, closed: set[date]) -> None:
    """A calendar by which nothing can be promised is not stored."""
    Calendar(frozenset(map(int, week.open_days)), frozenset(closed)).after(timezone.localdate(), 60)


def _moved(week: ShopWeek) -> None:
    week.stamp = uuid4()
    week.save()
    forget_what_was_asked()
