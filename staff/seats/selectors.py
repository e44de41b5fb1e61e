"""Reading who sits where."""

from __future__ import annotations

from datetime import timedelta

from django.conf import settings
from django.contrib.auth.models import User
from django.db import connection
from django.db.models import QuerySet
from django.utils import timezone

from staff.fetching import built, columns, width
from staff.models import Seat
from staff.seats.state import Found, Terms

SHOWN = 50


def terms() -> Terms:
    """DESK_LOCK_MINUTES and SESSION_HOURS."""
    return Terms(
        idle=timedelta(minutes=settings.DESK_LOCK_MINUTES),
        longest=timedelta(hours=settings.SESSION_HOURS),
    )


def seat_of(pk: int, person: int) -> Found | None:
    """A seat with its person and what is asked of them: one query."""
    with connection.cursor() as cursor:
        cursor.execute(_SEAT, [pk, person])
        row = cursor.fetchone()
    if row is None:
        return None
    own, theirs, last = width(Seat), width(User), row[-3:]
    seat, user = built(Seat, row[:own]), built(User, row[own : own + theirs])
    seat.user = user
    return Found(seat, *map(bool, last))


_SEAT = f"""
SELECT {columns(Seat, "s")}, {columns(User, "u")},
  COALESCE(a.must_change, FALSE), COALESCE(f.salt, '') <> '',
  EXISTS(
    SELECT 1 FROM staff_secondrule r
    LEFT JOIN staff_secondrule_groups rg ON rg.secondrule_id = r.id
    LEFT JOIN auth_user_groups ug ON ug.group_id = rg.group_id
    WHERE r.number = (SELECT MAX(number) FROM staff_secondrule)
      AND (r.everyone OR ug.user_id = s.user_id))
FROM staff_seat s
JOIN auth_user u ON u.id = s.user_id
LEFT JOIN staff_account a ON a.user_id = s.user_id
LEFT JOIN staff_secondfactor f ON f.user_id = s.user_id
WHERE s.id = %s AND s.user_id = %s
"""  # noqa: S608  (nothing in it comes from outside)


def open_seats(person: User) -> QuerySet[Seat]:
    """Where somebody is logged in, the busiest first. Logins past their longest are over."""
    since = timezone.now() - terms().longest
    mine = Seat.objects.filter(user=person, ended_at=None, since__gt=since)
    return mine.order_by("-active_at")[:SHOWN]
