"""What this room does when intake says something happened. Inside intake's transaction."""

from __future__ import annotations

from typing import Any

from django.dispatch import receiver

from intake.jobs import enqueue
from intake.models import Submission
from intake.selectors import current_sheet
from intake.signals import sheet_replaced, submission_ready
from quotes import services


@receiver(submission_ready, dispatch_uid="quotes.ask_for_a_quote")
def ask_for_a_quote(submission: Submission, *, is_new: bool = False, **_rest: Any) -> None:
    """A submission may be quoted: leave the work as a row, one for each sheet version.

    Where its quote is accepted already and stands, there is nothing to quote.
    """
    if not is_new and services.stand_by(submission=submission):
        return
    enqueue(
        kind="issue_quote",
        payload={"submission_id": submission.pk},
        key=f"issue_quote:{current_sheet(submission).pk}",
    )


@receiver(sheet_replaced, dispatch_uid="quotes.put_aside")
def put_older_quotes_aside(submission: Submission, **_rest: Any) -> None:
    """A new sheet version: what was offered on an older one no longer holds."""
    services.put_aside(submission=submission)
