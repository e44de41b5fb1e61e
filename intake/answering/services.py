"""Storing what customers measured or answered alone, once, and judging the sheet again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db import transaction

from intake import selectors
from intake.domain.lifecycle import Status, require_move
from intake.domain.sheet import SheetErrors
from intake.models import Submission
from intake.own_answers import are_there, with_answers
from intake.second_reading import asked_again, is_there, with_second
from intake.services import Overtaken, hold, judge_again


def take_second_reading(
    *, submission: Submission, sheet_number: int, again: Mapping[str, str]
) -> Submission:
    """Store a second reading that the customer took alone, and judge the sheet again.

    ``again``: text, start_mark and method as typed. Sent twice it is stored once. Raises
    SheetErrors (it cannot be read, or nobody asked), Overtaken (the sheet is another one now),
    MoveError (it is over).
    """
    with transaction.atomic():
        try:
            sheet = hold(submission, sheet_number)
        except Overtaken:
            if is_there(selectors.current_sheet(submission), again):
                return submission
            raise
        require_move(Status(submission.status), Status.NEEDS_CALL)
        slug = asked_again(sheet)
        if not slug:
            raise SheetErrors({"": ["Thank you, but this is not asked any more."]})
        judge_again(submission, sheet, with_second(sheet, slug, again), None)
    return submission


def take_answers(
    *, submission: Submission, sheet_number: int, answers: Mapping[str, Any]
) -> Submission:
    """Store what customers answered alone on their own page, and judge the sheet again.

    ``answers`` in the API's shape, by slug. Sent twice it is stored once. Raises SheetErrors (it
    cannot be read, or nobody asked), Overtaken (the sheet is another one now), MoveError (it is
    over).
    """
    with transaction.atomic():
        try:
            sheet = hold(submission, sheet_number)
        except Overtaken:
            if are_there(selectors.fresh_sheet(submission), answers):
                return submission
            raise
        require_move(Status(submission.status), Status.NEEDS_CALL)
        again = selectors.measured_afresh(submission)
        judge_again(submission, sheet, with_answers(sheet, answers, again), None)
    return submission
