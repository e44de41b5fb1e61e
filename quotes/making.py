"""Making a quote, first half: prices and paper, worked out before anything is written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from django.conf import settings
from django.utils import timezone, translation
from django.utils.formats import date_format

from catalog.selectors import stock
from intake.models import SheetVersion, Submission
from intake.said import drawing_words, said
from quotes import selectors
from quotes.choosing.selectors import choice_of
from quotes.domain.kept_choice import choice_as_json
from quotes.domain.kept_price import kept
from quotes.domain.order import Order, read_order
from quotes.domain.paper_facts import QuoteRow, quote_facts
from quotes.domain.pricing import Priced, price
from quotes.domain.quoted_order import quoted_order
from quotes.domain.rates import Rates
from quotes.domain.remake_price import REMAKE, Remake, remade, shaft_alone
from quotes.domain.tax import place_of
from quotes.domain.terms import NO_TERMS
from quotes.models import Quote
from quotes.paper_besides import besides_of
from quotes.said_facts import said_facts
from quotes.stock.selectors import left_over_as_quoted
from quotes.terms.selectors import terms_of


@dataclass(frozen=True, slots=True)
class PricedSheet:
    """A price, and everything it was made from, as it is kept with the quote."""

    sheet: SheetVersion
    priced: Priced
    inputs: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Made:
    """A quote ready to be stored. ``pdf`` is empty for a draft: it is not sent to anybody."""

    submission: Submission
    sheet: SheetVersion
    number: str
    version: int
    priced: Priced
    inputs: dict[str, Any]
    today: date
    valid_until: date
    currency: str
    pdf: bytes
    draft: Quote | None = None

    def completing(self, draft: Quote) -> Made:
        """The same, to be written over the draft that waited for a price."""
        return replace(self, draft=draft)


def order_of(quote: Quote) -> Order:
    """The order as this quote was priced: its own sheet, and the choice that was kept with it."""
    return quoted_order(quote.sheet.body, quote.sheet.outcome, quote.inputs)


def price_sheet(sheet: SheetVersion, by_hand: Mapping[str, Decimal]) -> Priced:
    """The price of one stored sheet at today's catalogue and rates."""
    return worked_out(sheet, by_hand).priced


def worked_out(
    sheet: SheetVersion,
    by_hand: Mapping[str, Decimal],
    remake: Remake | None = None,
    standing: Mapping[str, Any] | None = None,
) -> PricedSheet:
    """The same, with what it was made from. ``remake``: the shaft alone, priced by the terms.

    ``standing``: what the quote that stands was made from, so that the rack alone changes no price.
    """
    choice = choice_of(sheet.submission_id)
    order = read_order(sheet.body, sheet.outcome, choice)
    order = shaft_alone(order) if remake else order
    shelf, rates, place = stock(), selectors.rates(), place_of(sheet.body)
    terms = NO_TERMS if remake else terms_of(sheet.submission)
    left = left_over_as_quoted(order, {} if remake else standing or {})  # a remake: another piece
    inputs = {
        **kept(order, shelf, rates, terms, by_hand, place, left),
        "choice": choice_as_json(choice),
        "prices_by_hand": {code: str(amount) for code, amount in by_hand.items()},
    }
    found = price(order, shelf, rates, by_hand, terms, place, left)
    if remake:
        inputs[REMAKE] = remake.as_json()
        found = remade(found, remake, rates, place)
    return PricedSheet(sheet, found, inputs)


def make(
    submission: Submission, sheet: SheetVersion, found: PricedSheet, number: str, version: int
) -> Made:
    """Dates and paper for a price. Slow (some milliseconds), so outside any transaction."""
    rates, today = selectors.rates(), timezone.localdate()
    made = Made(
        submission, sheet, number, version, found.priced, found.inputs, today,
        today + timedelta(days=rates.validity_days), rates.currency, b"",
    )  # fmt: skip
    return _with_paper(made, rates) if found.priced.complete else made


def _with_paper(made: Made, rates: Rates) -> Made:
    from quotes.paper.quote import quote_pdf  # here: a process that makes no paper starts sooner

    language = made.submission.language or settings.LANGUAGE_CODE
    with translation.override(language):
        besides = besides_of(made.sheet, made.inputs, made.today, made.valid_until)
        body, record = made.sheet.body, made.sheet.outcome
        order = quoted_order(body, record, made.inputs)
        facts = quote_facts(_row(made), body, record, rates, drawing_words(), besides, order)
        pdf = quote_pdf(said_facts(facts), say=said, language=language)
    return replace(made, pdf=pdf)


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
        taxes=priced.taxes,
    )


def _day(day: date) -> str:
    return date_format(day, "DATE_FORMAT")
