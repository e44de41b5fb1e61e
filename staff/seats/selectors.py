"""Reading who sits where."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import timedelta
from functools import cache
from typing import Any, TypeVar

from django.conf import settings
from django.contrib.auth.models import User
from django.db import connection
from django.db.models import Model, QuerySet
from django.utils import timezone

from staff.models import Seat
from staff.seats.state import Found, Terms

SHOWN = 50
_M = TypeVar("_M", bound=Model)


def terms() -> Terms:
    """DESK_LOCK_MINUTES and SESSION_HOURS."""
    return Terms(
        idle=timedelta(minutes=settings.DESK_LOCK_MINUTES),
        longest=timedelta(hours=settings.SESSION_HOURS),
    )


def seat_of(pk: int, person: int) -> Found | None:
    """A seat with its person and what is asked of them: one query.

    Asked on every request of the staff, so neither the query nor its rows are built anew by the
    mapper on each: that costs ten times the answer.
    """
    with connection.cursor() as cursor:
        cursor.execute(_SEAT, [pk, person])
        row = cursor.fetchone()
    if row is None:
        return None
    own, theirs, last = len(_names(Seat)), len(_names(User)), row[-3:]
    seat, user = _built(Seat, row[:own]), _built(User, row[own : own + theirs])
    seat.user = user
    return Found(seat, *map(bool, last))


def _names(model: type[Model]) -> list[str]:
    return [field.attname for field in model._meta.concrete_fields]


def _columns(model: type[Model], table: str) -> str:
    return ", ".join(f"{table}.{field.column}" for field in model._meta.concrete_fields)


def _built(model: type[_M], row: Sequence[Any]) -> _M:
    """A row as its model, each value as the database's own converters give it."""
    values = list(row)
    for at, convert in _converters(model, connection.vendor):
        values[at] = convert(values[at], None, connection)
    return model.from_db(connection.alias, _names(model), values)


@cache
def _converters(model: type[Model], vendor: str) -> list[tuple[int, Callable[..., Any]]]:
    """Place and converter of each column that needs one (SQLite keeps moments as text)."""
    return [
        (at, convert)
        for at, field in enumerate(model._meta.concrete_fields)
        for convert in connection.ops.get_db_converters(field.cached_col)
    ]


_SEAT = f"""
SELECT {_columns(Seat, "s")}, {_columns(User, "u")},
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
