"""Drawing who is called about, and writing down what the call brought, once."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from datetime import timedelta

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from intake.domain.causes import CAUSES
from intake.inserts import insert
from intake.jobs import enqueue
from quotes.domain.insight.draw import is_drawn
from quotes.insight.audit import selectors
from quotes.insight.audit.models import OUTCOMES
from quotes.models import AuditCall, AuditSalt

LOOKS_BACK = timedelta(days=14)  # later nobody remembers how they measured (our own choice)
_OPEN = ("", "not_reached")


class AuditRefused(Exception):
    """What was typed cannot be written down; the sentences, by field."""

    def __init__(self, errors: dict[str, str]) -> None:
        super().__init__(" ".join(errors.values()))
        self.errors = errors


def draw() -> int:
    """Draw a twentieth of what nothing has held lately; how many are new. Safe to repeat."""
    salt = selectors.salt() or _make_salt()
    new = 0
    for pk in selectors.may_be_drawn(timezone.now() - LOOKS_BACK):
        if is_drawn(salt, pk):
            with transaction.atomic():
                new += insert(AuditCall(submission_id=pk), unless_there=True)
                _count_again(pk, "drawn")
    return new


def _make_salt() -> str:
    with transaction.atomic():
        insert(AuditSalt(salt=secrets.token_hex(32)), unless_there=True)
    return selectors.salt()


def record(
    *,
    call: AuditCall,
    by: User,
    outcome: str,
    cause: str = "",
    answer: str = "",
    note: str = "",
) -> bool:
    """Write down what an audit call brought; False where somebody has done so already.

    The conditional update is the lock. Who was not reached may be tried again. Raises AuditRefused
    where the outcome is missing, or a mistake has no known cause.
    """
    _require(outcome, cause)
    wrong = outcome == "wrong"
    with transaction.atomic():
        free = AuditCall.objects.filter(pk=call.pk, outcome__in=_OPEN)
        written = free.update(
            outcome=outcome,
            cause=cause if wrong else "",
            answer=answer[:40] if wrong else "",
            note=note.strip(),
            by=by,
            at=timezone.now(),
        )
        if written:
            _count_again(call.submission_id, outcome)
    return bool(written)


def _require(outcome: str, cause: str) -> None:
    if outcome not in dict(OUTCOMES):
        raise AuditRefused({"outcome": "Say what came of the call."})
    if outcome == "wrong" and cause not in CAUSES:
        raise AuditRefused({"cause": "Say why it was wrong; choose “not known” if nobody knows."})


def _count_again(submission: int, why: str) -> None:
    """The request's facts are made anew: nothing else tells them of this call."""
    key = f"audit_counted:{submission}:{why}"
    enqueue(kind="audit_counted", payload={"submission": submission}, key=key)


def forget_audit_calls(submissions: Sequence[int]) -> None:
    """Free words are blanked; what was found stays. In the caller's transaction."""
    AuditCall.objects.filter(submission__in=submissions).update(note="")
