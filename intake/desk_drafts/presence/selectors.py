"""What is read of who has which page open."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db import connection
from django.utils import timezone

from intake.models import PageOpen
from staff.fetching import built, columns

HERE_SECONDS = 60


def draft_place(ident: str) -> str:
    """Where somebody is who has this draft open."""
    return f"draft {ident}"


def request_place(reference: str) -> str:
    """Where somebody is who has this request open, its page or its card."""
    return f"request {reference}"


def others_here(place: str, me: User | None, within: int = HERE_SECONDS) -> list[str]:
    """Who else looked at a place in the last ``within`` seconds."""
    own = me.get_username() if me else ""
    return [name for name in seen_at(place, within) if name != own]


def all_here(places: Iterable[str], within: int = HERE_SECONDS) -> Mapping[str, list[str]]:
    """Who looked at each of these places in the last ``within`` seconds; one query."""
    rows = PageOpen.objects.filter(place__in=list(places), seen_at__gte=_since(within))
    found: dict[str, list[str]] = defaultdict(list)
    for place, name in rows.order_by("since", "pk").values_list("place", "by__username"):
        found[place].append(name)
    return found


def seen_at(place: str, within: int = HERE_SECONDS) -> dict[str, datetime]:
    """Everybody who looked at a place in the last ``within`` seconds, and when."""
    since = connection.ops.adapt_datetimefield_value(_since(within))
    with connection.cursor() as cursor:
        cursor.execute(_HERE, [place, since])
        rows = cursor.fetchall()
    return {row[-1]: built(PageOpen, row[:-1]).seen_at for row in rows}


_HERE = f"""
SELECT {columns(PageOpen, "p")}, u.username
FROM {PageOpen._meta.db_table} p JOIN {User._meta.db_table} u ON u.id = p.by_id
WHERE p.place = %s AND p.seen_at >= %s ORDER BY p.since, p.id
"""  # noqa: S608  (nothing in it comes from outside)


def _since(seconds: int) -> datetime:
    return timezone.now() - timedelta(seconds=seconds)
