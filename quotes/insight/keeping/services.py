"""The chore that keeps facts and counts up with what the desk does."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from quotes.insight.counting.services import count_months
from quotes.insight.gathering.services import gather, gather_all, mark_repeats
from quotes.insight.keeping.selectors import MOST, OVERLAP, RECORDS, counted_up_to, happened, newest
from quotes.insight.models import CountedUpTo

EVERY_SECONDS = 60.0
_MONTHS_A_TIME = 3


def keep_up() -> int:
    """Make anew the facts of whatever something happened to; how many requests.

    Bounded: what is left over is next time's. Two processes at once do the same work twice and
    come to the same facts; one that is killed has moved no mark.
    """
    marks = counted_up_to()
    upto = {kind: min(newest(kind), marks.get(kind, 0) + MOST) for kind in RECORDS}
    if upto == {kind: marks.get(kind, 0) for kind in RECORDS}:
        count_months(_MONTHS_A_TIME)
        return 0
    changed: set[int] = set()
    for kind, to in upto.items():
        if to > marks.get(kind, 0):
            changed |= happened(kind, marks.get(kind, 0) - OVERLAP, to)
    done = gather(changed)
    _move_marks(upto)
    count_months(_MONTHS_A_TIME)
    return done


def count_everything() -> int:
    """All facts and all counts anew, whatever was counted before; how many requests."""
    upto = {kind: newest(kind) for kind in RECORDS}
    done = max(gather_all(), default=0)
    mark_repeats()
    count_months()
    _move_marks(upto)
    return done


def _move_marks(upto: dict[str, int]) -> None:
    rows = [CountedUpTo(record=kind, key=key, at=timezone.now()) for kind, key in upto.items()]
    with transaction.atomic():
        CountedUpTo.objects.bulk_create(
            rows, update_conflicts=True, unique_fields=["record"], update_fields=["key", "at"]
        )
