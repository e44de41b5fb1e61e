"""Writing down what a call brought, and judging again where it changed or settled something."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from intake import rows
from intake.calling.blind import Pair, pair_of
from intake.calling.claims.services import Claimed as Claimed
from intake.calling.claims.services import claim as claim
from intake.calling.claims.services import give_back, require_mine
from intake.calling.claims.services import take_over as take_over
from intake.calling.models import BlindReading
from intake.calling.reading import Call, read_call
from intake.calling.selectors import blind_readings
from intake.domain.lifecycle import Status, require_move
from intake.models import CallRecord, SheetVersion, Submission
from intake.services import hold, judge_again, move


def record_call(
    *,
    submission: Submission,
    sheet_number: int,
    by: User,
    check_id: str,
    outcome: str,
    said_by: str,
    cause: str = "",
    contributing: Sequence[str] = (),
    note: str = "",
    answers: Mapping[str, Any] | None = None,
    contact: Mapping[str, str] | None = None,
    answer: str = "",
    again_at: datetime | None = None,
) -> Submission:
    """Store what a call-back brought, and judge again where it changed or settled something.

    ``answer`` tells findings of one check apart. ``answers`` are new answers in the API's shape, by
    slug; None takes one back. ``contact``: how the customer is reached, by part (phone, email).
    ``again_at``: nobody was reached, and the call waits until then. Raises CallErrors (an entry is
    missing or not allowed), SheetErrors (a new answer cannot be read), Overtaken (``sheet_number``
    is no longer the current version), Claimed (somebody else has the call), MoveError (it is over).
    """
    with transaction.atomic():
        sheet = hold(submission, sheet_number)
        require_move(Status(submission.status), Status.NEEDS_CALL)
        is_mine = require_mine(submission, by)
        call = read_call(
            sheet=sheet,
            may_override=by.has_perm("intake.override_stop"),
            check_id=check_id,
            outcome=outcome,
            said_by=said_by,
            cause=cause,
            contributing=contributing,
            note=note,
            answers=answers,
            contact=contact,
            answer=answer,
            again_at=again_at,
            now=timezone.now(),
        )
        _write_call(submission, sheet, call, by)
        _follow_call(submission, sheet, call, by)
        if is_mine and _is_done(submission, call):
            give_back(submission=submission, by=by)
    return submission


def _follow_call(submission: Submission, sheet: SheetVersion, call: Call, by: User) -> None:
    """What comes of it."""
    if call.outcome == "not_reached":
        _put_off(submission, call.again_at)
    elif call.outcome == "withdrawn":
        move(submission, Status.WITHDRAWN, reason="withdrawn on the phone", by=by)
    else:
        judge_again(submission, sheet, call, by)


def _is_done(submission: Submission, call: Call) -> bool:
    """A claim ends with the call, unless there is more to ask."""
    return call.outcome == "not_reached" or submission.status != Status.NEEDS_CALL


def _put_off(submission: Submission, until: datetime | None) -> None:
    """Out of the queue until then; None: it is tried again as it comes."""
    mine = Submission.objects.filter(pk=submission.pk)
    mine.update(not_before=until, to_index=True)
    submission.not_before = until


def _write_call(submission: Submission, sheet: SheetVersion, call: Call, by: User) -> None:
    CallRecord.objects.create(
        submission=submission,
        sheet=sheet,
        check_id=call.check_id,
        answer=call.answer,
        question_as_asked=call.question,
        outcome=call.outcome,
        said_by=call.said_by,
        cause=call.cause,
        contributing=list(call.contributing),
        note=call.note,
        again_at=call.again_at,
        fingerprint=call.fingerprint,
        month=rows.month_of(timezone.now()),
        channel=submission.channel,
        by=by,
    )


def read_blind(
    *, submission: Submission, sheet_number: int, by: User, answer: str, now: Any, known: int
) -> list[BlindReading]:
    """Keep a number that was read without seeing the first, and give back every such reading.

    ``now`` is the answer in the API's shape; ``known`` how many readings the page has shown: the
    same number sent twice is one reading, the same number read once more is another. Raises
    SheetErrors (it cannot be read), Overtaken (the sheet has changed).
    """
    with transaction.atomic():
        sheet = hold(submission, sheet_number)
        pair = pair_of(sheet, answer, now)
        kept = blind_readings(sheet, answer)
        is_repeat = len(kept) > known and kept[-1].second == pair.second
        if not is_repeat:
            kept.append(_keep(submission, sheet, answer, pair, by))
    return kept


def _keep(
    submission: Submission, sheet: SheetVersion, answer: str, pair: Pair, by: User
) -> BlindReading:
    return BlindReading.objects.create(
        submission=submission,
        sheet=sheet,
        answer=answer,
        first=pair.first,
        second=pair.second,
        difference_nm=pair.difference_nm,
        by=by,
    )
