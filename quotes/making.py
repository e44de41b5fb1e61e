"""Making a quote, first half: prices and paper, worked out before anything is written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from django.conf import settings
from django.utils import timezone, translation
from django.utils.formats import date_format

from catalog.selectors import stock
from intake.models import SheetVersion, Submission
from intake.said import drawing_words, said
from quotes import selectors
from quotes.choosing.selectors import choice_of
from quotes.domain.order import read_order
from quotes.domain.paper_facts import QuoteRow, quote_facts
from quotes.domain.pricing import Priced, price
from quotes.domain.rates import Rates
from quotes.said_facts import said_facts
from quotes.terms.selectors import terms_of


@dataclass(frozen=True, slots=True)
class Made:
    """A quote ready to be stored. ``pdf`` is empty for a draft: it is not sent to anybody."""

    submission: Submission
    sheet: SheetVersion
    number: str
    version: int
    priced: Priced
    today: date
    valid_until: date
    currency: str
    pdf: bytes


def price_sheet(sheet: SheetVersion, by_hand: Mapping[str, Decimal]) -> Priced:
    """The price of one stored sheet at today's catalogue and rates."""
    order = read_order(sheet.body, sheet.outcome, choice_of(sheet.submission_id))
    return price(order, stock(), selectors.rates(), by_hand, terms_of(sheet.submission))


def make(
    submission: Submission, sheet: SheetVersion, priced: Priced, number: str, version: int
) -> Made:
    """Dates and paper for a price. Slow (some milliseconds), so outside any transaction."""
    rates, today = selectors.rates(), timezone.localdate()
    valid_until = today + timedelta(days=rates.validity_days)
    made = Made(submission, sheet, number, version, priced, today, valid_until, rates.currency, b"")
    if not priced.complete:
        return made
    return _with_paper(made, rates)


def _with_paper(made: Made, rates: Rates) -> Made:
    from quotes.paper.quote import quote_pdf  # here: a process that makes no paper starts sooner

    language = made.submission.language or settings.LANGUAGE_CODE
    with translation.override(language):
        facts = quote_facts(_row(made), made.sheet.body, made.sheet.outcome, rates, drawing_words())
        pdf = quote_pdf(said_facts(facts), say=said, language=language)
    return Made(
        made.submission, made.sheet, made.number, made.version, made.priced, made.today,
        made.valid_until, made.currency, pdf,
    )  # fmt: skip


def _row(made: Made) -> QuoteRow:
    priced = made.priced
    return QuoteRow(
        number=made.number,
        version=made.version,
        issued=_day(made.today),
        valid_until=_day(made.valid_until),
        lines=[line.as_json() for line in priced.lines],
        goods=priced.goods,
        freight=priced.freight,
        freight_words=priced.freight_words,
        tax=priced.tax,
        total=priced.total,
        reference=made.submission.reference,
    )


def _day(day: date) -> str:
    return date_format(day, "DATE_FORMAT")
