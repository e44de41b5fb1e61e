"""What a quote promises, in words: between which days it leaves us, what is to be paid first."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from intake.said import said
from quotes.calendar.selectors import leaves_between, leaves_if_accepted
from quotes.domain.lead import LeadRange, range_words
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.money import money_text
from quotes.making import order_of
from quotes.models import Quote
from quotes.payments.selectors import deposit_due
from quotes.sending.models import Shipment


def leaves(quote: Quote) -> LeadRange | None:
    """Between which days it leaves us; None once it waits for nobody and is not accepted."""
    if quote.status == QuoteStatus.ACCEPTED:
        return leaves_between(quote)
    if quote.status != QuoteStatus.ISSUED:
        return None
    today = timezone.localdate()
    return leaves_if_accepted(order_of(quote), quote.sheet.outcome, today, quote.valid_until)


def leaves_words(quote: Quote) -> str:
    """The same as a sentence in the language of the moment; "" where there is none."""
    found = leaves(quote)
    return said(range_words(found, _day)) if found else ""


def sent_words(quote: Quote, shipment: Shipment) -> str:
    """When it left us and with whom, in the language of the moment."""
    if order_of(quote).shaft:
        words = _("Made by us, left us on %(day)s.")
    else:
        words = _("It left us on %(day)s.")
    how = " · ".join(filter(None, (shipment.carrier, shipment.tracking)))
    return f"{words % {'day': _day(shipment.day)}} {how}"


def deposit_words(quote: Quote) -> str:
    """The deposit as an amount of money; "" where none is due."""
    due = deposit_due(quote)
    return money(due, quote.currency) if due > 0 else ""


def money(amount: Decimal, currency: str) -> str:
    """An amount as the language of the moment writes it."""
    return said(money_text(amount, currency, (get_language() or "en").partition("-")[0]))


def _day(day: date) -> str:
    return date_format(day, "DATE_FORMAT")
