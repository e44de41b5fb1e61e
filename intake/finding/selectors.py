"""What is read to write the lines by which requests are found."""

from __future__ import annotations

from collections.abc import Sequence

from django.db.models import QuerySet

from intake.models import Submission


def waiting_keys(most: int) -> list[int]:
    """Requests whose lines are behind, newest first; at most so many."""
    behind = Submission.objects.filter(to_index=True).order_by("-pk")
    return list(behind.values_list("pk", flat=True)[:most])


def keys_after(key: int, most: int) -> list[int]:
    """The next requests in the order they came."""
    rest = Submission.objects.filter(pk__gt=key).order_by("pk")
    return list(rest.values_list("pk", flat=True)[:most])


def to_be_indexed(keys: Sequence[int]) -> QuerySet[Submission]:
    """These requests with all that they are found by: four queries, however many."""
    wanted = Submission.objects.filter(pk__in=keys).select_related("customer", "boat")
    return wanted.prefetch_related("sheets", "calls", "events")
