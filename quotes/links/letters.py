"""What a mail says, as plain text and as a page, written as it leaves from what is true then."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import override

from intake.domain.lifecycle import Status
from intake.models import Submission
from intake.said import said
from quotes.bundles.models import Bundle
from quotes.domain.lifecycle import QuoteStatus
from quotes.links import selectors
from quotes.links.digests import quiet_token, token_digest
from quotes.links.models import Mail
from quotes.models import Quote
from quotes.outcomes.selectors import KINDS as FITTED
from quotes.outcomes.selectors import has_gap, is_asked
from quotes.status_asks import can_answer
from quotes.told import deposit_words, leaves_words, money

_REMINDERS = ("question", "quote", *FITTED)
_OF_A_QUOTE = ("quote", "offer")  # that waits for an answer


def not_wanted(mail: Mail) -> str:
    """Why this mail need not leave any more; "" where it should."""
    submission = mail.submission
    if not submission.contact_email:
        return "no address"
    if mail.kind in _REMINDERS and selectors.wants_no_reminders(submission):
        return "no reminders wanted"
    if mail.kind == "question" and not _has_question(submission):
        return "nothing the customer can answer"
    if mail.kind in FITTED and not is_asked(mail):
        return "told already, or asked another day"
    return _of_a_version(mail)


def _of_a_version(mail: Mail) -> str:
    """The same for a mail that speaks of one version: only while that is so."""
    quote = _quote_of(mail)
    if mail.kind in _OF_A_QUOTE:
        if quote is None or not _waits(quote):
            return "the quote waits no more"
        seen = mail.unless_opened and quote.opened_at
        return "it was opened on the customer's own page" if seen else ""
    if mail.kind == "accepted" and (quote is None or quote.status != QuoteStatus.ACCEPTED):
        return "it is accepted no more"
    if mail.kind == "bundle" and (mail.bundle is None or not mail.bundle.current):
        return "a newer version has taken its place"
    return ""


def _quote_of(mail: Mail) -> Quote | None:
    """The version a mail speaks of; of a reminder, the one that waits now."""
    if mail.kind in _OF_A_QUOTE and mail.quote_id is None:
        return selectors.issued_quote(mail.submission)
    return mail.quote


def _waits(quote: Quote) -> bool:
    in_time = quote.valid_until is not None and quote.valid_until >= timezone.localdate()
    return quote.status == QuoteStatus.ISSUED and in_time


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
        for paper in _papers(mail):
            letter.attach(*paper)
    return letter


def _papers(mail: Mail) -> list[tuple[str, bytes, str]]:
    """What goes along: the very paper of the version the mail offers."""
    if mail.kind == "bundle" and mail.bundle is not None:
        return [paper_of_bundle(mail.bundle)]
    if mail.kind == "offer" and (quote := _quote_of(mail)) is not None:
        paper = selectors.paper_of(quote)
        name = f"quote-{quote.number}-v{quote.version}.pdf"
        return [(name, bytes(paper.content), "application/pdf")] if paper else []
    return []


def paper_of_bundle(bundle: Bundle) -> tuple[str, bytes, str]:
    """A bundle's paper as it is sent: name, bytes, kind."""
    name = f"quote-{bundle.number}-v{bundle.version}.pdf"
    return name, bytes(bundle.content or b""), "application/pdf"


def _context(mail: Mail) -> dict[str, Any]:
    submission, quote, bundle = mail.submission, _quote_of(mail), mail.bundle
    return {
        "submission": submission,
        "boat": submission.boat_name or submission.reference,
        "quote": quote,
        "by_phone": submission.channel == "phone",
        **(_of_an_order(quote) if quote else {}),
        "bundle": bundle,
        "bundle_link": address("bundle", bundle.token) if bundle else "",
        "days": settings.LINK_DAYS,
        "link": address("status", submission.token),
        "quiet": address("quiet", quiet_token(submission)) if mail.kind in _REMINDERS else "",
    }


def _of_an_order(quote: Quote) -> dict[str, Any]:
    """What is promised, and what is said of one that holds no more."""
    return {
        "total": money(quote.total, quote.currency),
        "of_parts": not has_gap(quote),
        "leaves": leaves_words(quote),
        "deposit": deposit_words(quote) if quote.status == QuoteStatus.ACCEPTED else "",
        "why": said(quote.ended_why),
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
