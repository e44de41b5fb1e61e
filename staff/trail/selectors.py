"""Reading the trail."""

from __future__ import annotations

from django.db.models import QuerySet

from staff.models import Change


def changes_of(record: str, key: object) -> QuerySet[Change]:
    """What was changed of one record, newest first; one query with who did it."""
    return Change.objects.filter(record=record, key=str(key)).select_related("by")
