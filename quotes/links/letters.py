"""What a mail says, as plain text and as a page, written as it leaves from what is true then."""

from __future__ import annotations

import smtplib
from typing import Any

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import override

from intake.domain.lifecycle import Status
from intake.models import Submission
from quotes.links import selectors
from quotes.links.digests import quiet_token, token_digest
from quotes.links.models import Mail
from quotes.status_asks import can_answer

_REMINDERS = ("question", "quote")
_OF_A_QUOTE = ("quote", "offer")


def not_wanted(mail: Mail) -> str:
    """Why this mail need not leave any more; "" where it should."""
    submission = mail.submission
    if not submission.contact_email:
        return "no address"
    if mail.kind in _REMINDERS and selectors.wants_no_reminders(submission):
        return "no reminders wanted"
    if mail.kind == "question" and not _has_question(submission):
        return "nothing the customer can answer"
    if mail.kind in _OF_A_QUOTE and selectors.issued_quote(submission) is None:
        return "the quote waits no more"
    return ""


def _has_question(submission: Submission) -> bool:
    return submission.status == Status.NEEDS_CALL and can_answer(submission)


def write(mail: Mail) -> EmailMultiAlternatives:
    """The whole mail. Its Message-ID is its own for ever: a copy of it shows as the same one."""
    submission = mail.submission
    with override(submission.language or settings.LANGUAGE_CODE):
        context = _context(mail)
        stem = f"quotes/mail/{mail.kind}"
        subject = " ".join(render_to_string(f"{stem}_subject.txt", context).split())
        letter = EmailMultiAlternatives(
            subject,
            render_to_string(f"{stem}.txt", context).strip() + "\n",
            to=[submission.contact_email],
            headers=_headers(mail, context),
        )
        letter.attach_alternative(render_to_string(f"{stem}.html", context), "text/html")
    return letter


def _context(mail: Mail) -> dict[str, Any]:
    submission = mail.submission
    quote = selectors.issued_quote(submission) if mail.kind in _OF_A_QUOTE else None
    return {
        "submission": submission,
        "boat": submission.boat_name or submission.reference,
        "quote": quote,
        "days": settings.LINK_DAYS,
        "link": address("status", submission.token),
        "quiet": address("quiet", quiet_token(submission)) if mail.kind in _REMINDERS else "",
    }


def address(name: str, *args: object) -> str:
    """One of our pages as it is typed into a browser."""
    return str(settings.SITE_URL).rstrip("/") + reverse(name, args=args)


def _headers(mail: Mail, context: dict[str, Any]) -> dict[str, str]:
    host = settings.SITE_URL.rpartition("/")[2].partition(":")[0] or "localhost"
    headers = {"Message-ID": f"<{token_digest(mail.key)[:32]}@{host}>"}
    if context["quiet"]:
        headers["List-Unsubscribe"] = f"<{context['quiet']}>"
        headers["List-Unsubscribe-Post"] = "List-Unsubscribe=One-Click"
    return headers


def is_refused_for_good(error: OSError) -> bool:
    """Whether the mail server will never take a mail to this address."""
    if not isinstance(error, smtplib.SMTPRecipientsRefused):
        return False
    return all(code >= 500 for code, _said in error.recipients.values())
