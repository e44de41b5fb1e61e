"""Writing down what a call brought, and judging again where it changed or settled something."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from intake import rows
from intake.calls import Call, read_call
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
) -> Submission:
    """Store what a call-back brought, and judge again where it changed or settled something.

    ``answers`` are new answers in the API's shape, by slug; None takes one back. Raises
    CallErrors (an entry is missing or not allowed), SheetErrors (a new answer cannot be read),
    Overtaken (``sheet_number`` is no longer the current version), MoveError (it is over).
    """
    with transaction.atomic():
        sheet = hold(submission, sheet_number)
        require_move(Status(submission.status), Status.NEEDS_CALL)
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
        )
        _write_call(submission, sheet, call, by)
        if call.outcome == "withdrawn":
            move(submission, Status.WITHDRAWN, reason="withdrawn on the phone", by=by)
        elif call.outcome != "not_reached":
            judge_again(submission, sheet, call, by)
    return submission


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
        fingerprint=call.fingerprint,
        month=rows.month_of(timezone.now()),
        channel=submission.channel,
        by=by,
    )
