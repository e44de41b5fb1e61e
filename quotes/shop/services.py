"""Drawing a cut sheet: once for each accepted quote, however often it is asked for."""

from __future__ import annotations

import hashlib
from collections.abc import Callable

from django.conf import settings
from django.db import transaction
from django.urls import reverse
from django.utils import timezone, translation
from django.utils.formats import date_format

from intake.models import SheetVersion
from intake.selectors import current_sheet
from intake.services import Overtaken
from quotes.domain.cut_facts import CutFacts
from quotes.domain.cut_words import CutRow, cut_facts
from quotes.domain.lifecycle import QuoteStatus
from quotes.models import Quote
from quotes.selectors import latest_quote, rates
from quotes.shop import selectors
from quotes.shop.models import CutSheet
from quotes.shop.standing import why_not

Finish = Callable[[], CutSheet]


def facts_of(quote: Quote) -> CutFacts:
    """What the cut sheet of an accepted quote says."""
    address = reverse("cut-sheet", args=[quote.submission.reference])
    row = CutRow(
        shop=rates().name,
        number=quote.number,
        version=quote.version,
        sheet_number=quote.sheet.number,
        reference=quote.submission.reference,
        accepted=_day(quote),
        address=f"{str(settings.SITE_URL).rstrip('/')}{address}",
    )
    return cut_facts(row, quote.sheet.body, quote.sheet.outcome)


def _day(quote: Quote) -> str:
    if quote.accepted_at is None:
        return "on a day not kept"
    with translation.override("en"):
        return date_format(timezone.localdate(quote.accepted_at), "DATE_FORMAT")


def paper(facts: CutFacts) -> bytes:
    """The page itself."""
    from quotes.paper.cut_sheet import cut_sheet_pdf  # here: a start needs no printer

    return cut_sheet_pdf(facts)


def prepare_cut_sheet(*, quote_id: int) -> Finish | None:
    """Draw in two steps for a job: the page now, the row in the closure.

    None where there is nothing to keep: it is kept already, the accepted sheet no longer holds,
    or something on it is not known, so that it is no sheet to cut from.
    """
    quote = selectors.accepted_quote(quote_id)
    if quote is None or selectors.is_drawn(quote):
        return None
    submission = quote.submission
    if why_not(submission, current_sheet(submission), latest_quote(submission), quote):
        return None
    facts = facts_of(quote)
    if not facts.cuttable:
        return None
    pdf = paper(facts)
    return lambda: _keep(quote, pdf)


def draw_cut_sheet(*, quote_id: int) -> CutSheet | None:
    """Draw and keep at once, where the job has not. Raises Overtaken where the sheet changed."""
    finish = prepare_cut_sheet(quote_id=quote_id)
    return finish() if finish else None


@transaction.atomic
def _keep(quote: Quote, pdf: bytes) -> CutSheet:
    """Locks as everywhere: sheet, then quote. Two at once: the first one's page is the page."""
    if not SheetVersion.objects.filter(pk=quote.sheet_id, is_current=True).update(is_current=True):
        raise Overtaken
    accepted = Quote.objects.filter(pk=quote.pk, status=QuoteStatus.ACCEPTED)
    if not accepted.update(status=QuoteStatus.ACCEPTED):
        raise Overtaken
    kept, _new = CutSheet.objects.get_or_create(
        quote=quote, defaults={"content": pdf, "sha256": hashlib.sha256(pdf).hexdigest()}
    )
    return kept
