"""Submissions and quotes for tests of this room."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from django.contrib.auth.models import Permission, User
from django.utils import timezone

from intake.calling.services import record_call
from intake.models import Submission
from intake.services import receive_submission
from quotes import services
from quotes.models import Quote
from tests.given import a_body
from tests.intake.desk_given import stock_the_shelf

__all__ = ["a_quote", "a_quoter", "a_submission", "correct", "stock_the_shelf", "ticked"]

# A released sheet whose keys no table gives, so no catalogue row prices them.
FORTY_MM: dict[str, Any] = {
    "dia_clean": {"text": "40", "method": "caliper"},
    "face_to_strut_aft": {"text": "1400", "method": "rod"},
    "gap_now": {"text": "19", "method": "drill_shank"},
    "hub_length": {"text": "100", "method": "caliper"},
    "tail_to_thread": {"text": "159", "method": "tape_short"},
    "old_length_face_to_thread": {"text": "1560", "method": "tape"},
    "flange_od": {"text": "127", "method": "tape_short"},
    "thread": {"text": "M24x2"},
}


def a_submission(**changes: Any) -> Submission:
    """A clean sheet, received; needs the shelf stocked."""
    return receive_submission(body=a_body(**changes))


def a_metric_submission() -> Submission:
    """A shaft of 40 mm that adds up, with a key nobody has priced."""
    top = {"tape_unit": "mm", "wants": ["shaft", "coupling"]}
    return a_submission(top=top, without=("shell_od", "bearing_length"), **FORTY_MM)


def a_quote(**changes: Any) -> Quote:
    """The issued quote of a clean sheet."""
    return services.issue_quote(submission_id=a_submission(**changes).pk)


def an_accepted(*, days_ago: int, **changes: Any) -> Quote:
    """A quote that was accepted so many days ago."""
    quote = a_quote(**changes)
    services.accept_quote(quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote))
    long_ago = timezone.now() - timedelta(days=days_ago)
    Quote.objects.filter(pk=quote.pk).update(accepted_at=long_ago)
    return Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)


def ticked(quote: Quote) -> list[str]:
    """Every statement the customer must confirm."""
    return list(services.statements(quote.sheet))


def a_quoter(name: str = "maud", *, rights: tuple[str, ...] = ("add_quote",)) -> User:
    """Somebody at the counter who may quote."""
    user = User.objects.create_user(name, password="a-long-password-here")
    counter = ("view_submission", "add_callrecord", *rights)
    user.user_permissions.set(Permission.objects.filter(codename__in=counter))
    return user


def correct(submission: Submission, **answers: Any) -> Submission:
    """The customer rings and corrects an answer: a new sheet version."""
    return record_call(
        submission=submission,
        sheet_number=submission.current.number,
        by=a_quoter("iolo"),
        check_id="",
        outcome="corrected",
        said_by="Wilmot Tarpley",
        cause="R-WHOLE",
        answers=answers,
    )
