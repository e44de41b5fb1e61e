"""Reading who sits where."""

from __future__ import annotations

from datetime import timedelta

from django.conf import settings
from django.contrib.auth.models import User
from django.db.models import QuerySet
from django.utils import timezone

from staff.models import Seat
from staff.seats.state import Terms
from staff.second.selectors import must_have

SHOWN = 50


def terms() -> Terms:
    """DESK_LOCK_MINUTES and SESSION_HOURS."""
    return Terms(
        idle=timedelta(minutes=settings.DESK_LOCK_MINUTES),
        longest=timedelta(hours=settings.SESSION_HOURS),
    )


def seat_of(pk: int, person: int) -> Seat | None:
    """A seat with its person, account, second factor and the rule about it: one query."""
    found = Seat.objects.filter(pk=pk, user_id=person)
    found = found.select_related("user", "user__desk_account", "user__second")
    return found.annotate(must_have_second=must_have("user_id")).first()


def open_seats(person: User) -> QuerySet[Seat]:
    """Where somebody is logged in, the busiest first. Logins past their longest are over."""
    since = timezone.now() - terms().longest
    mine = Seat.objects.filter(user=person, ended_at=None, since__gt=since)
    return mine.order_by("-active_at")[:SHOWN]
