"""Writing the lines by which requests are found. What is lost here is made again from the rest."""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator, Sequence

from django.db import transaction
from django.db.models.signals import post_save

from intake import jobs
from intake.finding import selectors, words
from intake.finding.models import NO_BOAT, RequestLine
from intake.models import CallRecord, Submission

AT_ONCE = 50  # requests of one transaction: whoever receives one meanwhile waits that long
PAUSE = 0.005  # seconds between two of them
EVERY = 1.5  # seconds: so long a request may be received and not be found yet
_COLUMNS = [f.name for f in RequestLine._meta.concrete_fields if not f.primary_key]


def index_waiting(*, seconds: float = 5.0) -> int:
    """Write the lines of requests that are new or have changed; say how many.

    Newest first, for about so many seconds at most; the rest waits for the next time.
    """
    stop, done = time.monotonic() + seconds, 0
    while keys := selectors.waiting_keys(AT_ONCE):
        done += index_requests(keys)
        if time.monotonic() > stop:
            break
        time.sleep(PAUSE)
    return done


@transaction.atomic
def index_requests(keys: Sequence[int]) -> int:
    """Write the lines of these requests anew, in one transaction; say how many.

    They are marked before they are read: the mark is the lock, so a change that comes meanwhile
    waits, and marks them again.
    """
    Submission.objects.filter(pk__in=keys).update(to_index=False)
    found = list(selectors.to_be_indexed(keys))
    more = words.more_texts([submission.pk for submission in found])
    RequestLine.objects.bulk_create(
        [words.line_of(submission, more[submission.pk]) for submission in found],
        update_conflicts=True,
        unique_fields=["submission"],
        update_fields=_COLUMNS,
    )
    return len(found)


def index_all() -> Iterator[int]:
    """Write every line anew, chunk by chunk, oldest first; yields how many are done."""
    done, after = 0, 0
    while keys := selectors.keys_after(after, AT_ONCE):
        done, after = done + index_requests(keys), keys[-1]
        yield done
        time.sleep(PAUSE)


def look_again(submissions: Iterable[int]) -> None:
    """What these requests (their keys) are found by has changed: their lines follow in a moment."""
    Submission.objects.filter(pk__in=list(submissions)).update(to_index=True)


def look_again_at(customers: Iterable[int]) -> None:
    """The records of these customers (their keys) have changed: each request is found anew."""
    Submission.objects.filter(customer__in=list(customers)).update(to_index=True)


@transaction.atomic
def forget(submissions: Iterable[int]) -> None:
    """Nobody finds these requests by what was typed any more, from this commit on.

    Call it in the transaction that erases them; a line without names follows in a moment.
    """
    keys = list(submissions)
    look_again(keys)  # first: whoever writes these lines just now is waited for
    RequestLine.objects.filter(pk__in=keys).update(words="", boat=NO_BOAT)


def _call_written(instance: CallRecord, **_rest: object) -> None:
    look_again([instance.submission_id])


jobs.chore(index_waiting, seconds=EVERY)
post_save.connect(_call_written, sender=CallRecord, dispatch_uid="finding.call_written")
