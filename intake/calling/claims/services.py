"""Taking a call-back, keeping it, giving it back. Of two at once, the database lets one have it.

A claim is one row a request. It is taken by a conditional UPDATE where its lease is over or it is
mine, else by an INSERT that its unique key may refuse: the same on both databases.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Protocol

from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from intake.calling.claims.selectors import claim_of
from intake.calling.models import CallClaim
from intake.domain.lifecycle import Status, require_move
from intake.inserts import insert
from intake.models import Event, Submission

_TRIES = 5


class Claimed(Exception):
    """Somebody else has this call. ``held`` says who, and until when."""

    def __init__(self, held: CallClaim) -> None:
        self.held = held
        until = timezone.localtime(held.until)
        self.in_short = f"{held.by} has this call until {until:%H:%M}."
        super().__init__(
            f"{self.in_short} Nothing was written down; what you typed is still here. "
            "Take the call over, or ask them first."
        )


class Take(Protocol):
    """A way of taking a call."""

    def __call__(self, *, submission: Submission, by: User) -> CallClaim: ...


def claim(*, submission: Submission, by: User) -> CallClaim:
    """This call is mine for CLAIM_MINUTES from now; claiming again makes the lease longer.

    Raises Claimed while somebody else has it, MoveError where there is nothing left to call about.
    """
    require_move(Status(submission.status), Status.NEEDS_CALL)
    for _again in range(_TRIES):
        with transaction.atomic():
            if _take(submission, by):
                break
            held = claim_of(submission)
        if held and held.by_id != by.pk:
            raise Claimed(held)
    return CallClaim.objects.select_related("by").get(submission=submission, by=by)


def _take(submission: Submission, by: User) -> bool:
    now, until = timezone.now(), _until()
    rows = CallClaim.objects.filter(submission=submission)
    if rows.filter(by=by, until__gt=now).update(until=until):
        return True
    if rows.filter(until__lte=now).update(by=by, since=now, until=until):
        return True
    new = CallClaim(submission=submission, by=by, since=now, until=until)
    return insert(new, unless_there=True)


def renew(*, submission: Submission, by: User) -> bool:
    """Somebody works on the card: their lease is whole again. False where it is not theirs."""
    mine = CallClaim.objects.filter(submission=submission, by=by)
    return bool(mine.update(until=_until()))


def give_back(*, submission: Submission, by: User) -> bool:
    """I do not call after all; giving back what is not mine changes nothing."""
    gone, _each = CallClaim.objects.filter(submission=submission, by=by).delete()
    return bool(gone)


@transaction.atomic
def take_over(*, submission: Submission, by: User) -> CallClaim:
    """Call instead of whoever has it, and write down from whom it was taken.

    Raises Claimed where a third person was quicker.
    """
    held = claim_of(submission)
    if held is None or held.by_id == by.pk:
        return claim(submission=submission, by=by)
    now = timezone.now()
    theirs = CallClaim.objects.filter(pk=held.pk, by=held.by_id)
    if not theirs.update(by=by, since=now, until=_until()):
        return claim(submission=submission, by=by)  # it is free now, or a third person has it
    _note(submission, f"call taken over from {held.by}", by)
    return CallClaim.objects.select_related("by").get(pk=held.pk)


def _note(submission: Submission, reason: str, by: User) -> None:
    """A line of the history; the status stays what it is."""
    status = Submission.objects.values_list("status", flat=True).get(pk=submission.pk)
    Event.objects.create(
        submission=submission, by=by, old_status=status, new_status=status, reason=reason
    )


def require_mine(submission: Submission, by: User) -> bool:
    """Whether it is mine, whose lease is then whole again. Raises Claimed where it is another's.

    For the transaction that writes a call down; nobody's call may be written down by anybody.
    """
    if renew(submission=submission, by=by):
        return True
    if held := claim_of(submission):
        raise Claimed(held)
    return False


def _until() -> datetime:
    return timezone.now() + timedelta(minutes=settings.CLAIM_MINUTES)
