"""What is kept here of some requests, and which of them are orders that are not finished."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Any

from django.utils import timezone

from quotes.bundles.selectors import bundle_papers
from quotes.cases.privacy.selectors import cases_handed_out
from quotes.choosing.selectors import choices_handed_out
from quotes.domain.lifecycle import QuoteStatus
from quotes.insight.audit.selectors import audit_calls_handed_out
from quotes.invoices.selectors import invoice_papers, invoices_handed_out
from quotes.links.models import Mail, NoReminders, OldLink
from quotes.models import CutSheet, Quote, QuoteDocument
from quotes.payments.selectors import payments_handed_out
from quotes.shop.privacy.selectors import shafts_handed_out
from quotes.terms.selectors import terms_handed_out

# An accepted order is finished when it is told how it fitted; after so long nobody will tell.
_TOLD_WITHIN = timedelta(days=365)
_OF_A_QUOTE = (
    *("number", "version", "status", "lines", "goods", "freight", "freight_words", "tax", "total"),
    *("currency", "issued_at", "valid_until", "accepted_by", "accepted_at", "confirmed"),
    *("accepted_from", "opened_at", "declined_reason", "declined_at", "ended_at", "ended_why"),
    *("terms_note", "inputs"),
)
_OF_AN_OUTCOME = ("after_days", "fitted", "gap_typed", "different", "told_by", "at")


def orders_not_finished(submissions: Sequence[int]) -> list[str]:
    """References of accepted orders of which nobody has told how they fitted."""
    accepted = Quote.objects.filter(
        submission__in=submissions,
        status=QuoteStatus.ACCEPTED,
        accepted_at__gt=timezone.now() - _TOLD_WITHIN,
        outcomes=None,
    )
    return list(accepted.order_by().values_list("submission__reference", flat=True).distinct())


def kept_of(submissions: Sequence[int]) -> tuple[list[dict[str, Any]], dict[str, bytes]]:
    """Quotes, answers, outcomes and mails of these requests; the papers as files."""
    quotes = Quote.objects.filter(submission__in=submissions).select_related("submission")
    cases = cases_handed_out(list(quotes.order_by().values_list("pk", flat=True)))
    rows = [
        _quote(quote) | cases.get(quote.pk, {})
        for quote in quotes.prefetch_related("outcomes").order_by("pk")
    ]
    mails = Mail.objects.filter(submission__in=submissions).order_by("pk")
    rows += [
        {"mail": mail.kind, "made_at": mail.made_at, "sent_at": mail.sent_at} for mail in mails
    ]
    links = OldLink.objects.filter(submission__in=submissions).order_by("pk")
    rows += [{"link_until": link.at} for link in links]
    quiet = NoReminders.objects.filter(submission__in=submissions).order_by("pk")
    rows += [{"no_reminders_since": one.at} for one in quiet]
    rows += terms_handed_out(submissions)
    rows += choices_handed_out(submissions)
    rows += [*invoices_handed_out(submissions), *payments_handed_out(submissions)]
    rows += shafts_handed_out(submissions)
    rows += audit_calls_handed_out(submissions)
    papers = QuoteDocument.objects.filter(quote__submission__in=submissions).select_related("quote")
    files = {
        f"papers/{paper.quote.number}-v{paper.quote.version}.pdf": bytes(paper.content)
        for paper in papers
    }
    files |= bundle_papers(submissions)
    files |= invoice_papers(submissions)
    cut = CutSheet.objects.filter(quote__submission__in=submissions).select_related("quote")
    files |= {
        f"papers/{page.quote.number}-v{page.quote.version}-cut-sheet.pdf": bytes(page.content)
        for page in cut
    }
    return rows, files


def _quote(quote: Quote) -> dict[str, Any]:
    told = {name: getattr(quote, name) for name in _OF_A_QUOTE}
    outcomes = [
        {name: getattr(one, name) for name in _OF_AN_OUTCOME} for one in quote.outcomes.all()
    ]
    return {"request": quote.submission.reference, **told, "outcomes": outcomes}
