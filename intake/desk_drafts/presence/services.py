"""Saying that somebody looks at a page. It is no history: rows are written over and thrown away."""

from __future__ import annotations

from datetime import timedelta

from django.contrib.auth.models import User
from django.utils import timezone

from intake.desk_drafts.presence.selectors import HERE_SECONDS, seen_at
from intake.models import PageOpen

LOOK_SECONDS = 15
_FORGOTTEN_AFTER = timedelta(days=1)


def look(*, place: str, by: User) -> list[str]:
    """Say that ``by`` looks at a place; the others who do. Written at most every 15 seconds."""
    here, now = seen_at(place, HERE_SECONDS), timezone.now()
    own = here.pop(by.get_username(), None)
    if own is None or own < now - timedelta(seconds=LOOK_SECONDS):
        PageOpen.objects.bulk_create(
            [PageOpen(place=place, by=by, since=now, seen_at=now)],
            update_conflicts=True,
            unique_fields=["place", "by"],
            # Who was away for longer than that comes anew.
            update_fields=["seen_at"] if own else ["since", "seen_at"],
        )
    return list(here)


def forget_who_left() -> None:
    """Throw away what says who looked at what yesterday."""
    PageOpen.objects.filter(seen_at__lt=timezone.now() - _FORGOTTEN_AFTER).delete()
