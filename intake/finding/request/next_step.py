"""What is to be done next about a request, in one sentence."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from intake.domain.lifecycle import Status
from intake.models import Submission


@dataclass(frozen=True, slots=True)
class Step:
    """One sentence, and which button goes with it: "call", "quote" or none."""

    sentence: str
    button: str = ""
    late: bool = False


def next_step(submission: Submission, now: datetime) -> Step:
    """What whoever opens this page should do."""
    status = Status(submission.status)
    if status == Status.NEEDS_CALL:
        return _call(submission, now)
    sentences = {
        Status.RECEIVED: Step(_("It is being judged. Look again in a moment.")),
        Status.READY: Step(_("Nothing is left to ask. Send the quote."), "quote"),
        Status.QUOTED: Step(_("The quote is out. Wait for the customer's answer."), "quote"),
        Status.ACCEPTED: Step(_("Accepted. The shop goes on from here.")),
        Status.DECLINED: Step(_("Declined. Quote again if they change their mind."), "quote"),
        Status.LAPSED: Step(_("The quote has lapsed. Ask whether they still need it."), "quote"),
        Status.WITHDRAWN: Step(_("Withdrawn. Nothing is left to do.")),
    }
    return sentences[status]


def _call(submission: Submission, now: datetime) -> Step:
    if submission.not_before and submission.not_before > now:
        return Step(_("Call again from %(when)s.") % {"when": _when(submission.not_before)}, "call")
    if not submission.call_by:
        return Step(_("Call and ask what is open."), "call")
    when = {"when": _when(submission.call_by)}
    if submission.call_by < now:
        return Step(
            _("Late: this call was to be made by %(when)s. Call now.") % when, "call", late=True
        )
    return Step(_("Call by %(when)s and ask what is open.") % when, "call")


def _when(moment: datetime) -> str:
    return date_format(localtime(moment), "D j M H:i")
