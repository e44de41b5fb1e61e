"""Where one accepted job stands, step by step, with the page of each step: quote, deposit, shop,
what left us, invoice, fit, case."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.urls import reverse
from django.utils.formats import date_format

from intake.models import Submission
from quotes.cases.selectors import cases_of
from quotes.domain.packing import left_long_words
from quotes.domain.shop_stages import PARCEL_WORDS, WORDS
from quotes.domain.words import both
from quotes.invoices.selectors import invoices_of
from quotes.making import order_of
from quotes.models import Quote
from quotes.outcomes.selectors import last_told
from quotes.payments.selectors import deposit_asked
from quotes.sending.selectors import shipment_of
from quotes.shop.selectors import last_accepted, stage_of
from quotes.shop.waiting import deposit_not_in


@dataclass(frozen=True, slots=True)
class JobStep:
    """One step: whose words these are, what is so now, its page and the right to open that."""

    label: str
    words: str
    url: str = ""
    right: str = ""
    open: bool = False  # something here still waits for somebody


def steps_of(submission: Submission) -> list[JobStep]:
    """All steps of the newest accepted quote; empty where nothing was accepted."""
    quote = last_accepted(submission.pk)
    return list(_steps(quote, submission)) if quote else []


def _steps(quote: Quote, submission: Submission) -> Iterator[JobStep]:
    reference = submission.reference
    yield JobStep(
        "Quote",
        f"{quote.number}, version {quote.version}: {quote.get_status_display()}",
        reverse("desk-issue", args=[reference]),
        "quotes.add_quote",
    )
    yield _shop(quote, reference)
    yield _deposit(quote, reference)
    yield _left(quote, reference)
    yield _invoice(submission)
    yield _fit(quote, reference)
    yield from _cases(submission)


def _shop(quote: Quote, reference: str) -> JobStep:
    shaft, stage = order_of(quote).shaft, stage_of(quote)
    words = PARCEL_WORDS[stage]
    if shaft:
        words = f"{both(shaft.sent, shaft.system)}{left_long_words(shaft)}: {WORDS[stage]}"
    url = reverse("shop-shaft", args=[reference])
    return JobStep("Shop", words, url, "quotes.view_shoporder")


def _deposit(quote: Quote, reference: str) -> JobStep:
    due = deposit_not_in(quote)
    words = f"{due} still to come" if due else "is in" if deposit_asked(quote) else "none asked"
    url = reverse("payments", args=[reference])
    return JobStep("Deposit", words, url, "quotes.add_payment", open=bool(due))


def _left(quote: Quote, reference: str) -> JobStep:
    gone = shipment_of(quote)
    words = "still with us"
    if gone:
        by = " ".join(filter(None, (gone.carrier, gone.tracking)))
        words = ", ".join(filter(None, (date_format(gone.day, "j M Y"), by)))
    url = reverse("packing-list", args=[reference])
    return JobStep("Left us", words, url, "quotes.view_shoporder")


def _invoice(submission: Submission) -> JobStep:
    invoices = invoices_of(submission.pk)
    if not invoices:
        url = reverse("invoice-make", args=[submission.reference])
        return JobStep("Invoice", "none yet", url, "quotes.add_invoice")
    newest = invoices[-1].number
    url = reverse("invoice", args=[newest])
    more = f" and {len(invoices) - 1} before" if invoices[1:] else ""
    return JobStep("Invoice", f"{newest}{more}", url, "quotes.add_invoice")


def _fit(quote: Quote, reference: str) -> JobStep:
    told, words = last_told(quote), "nobody has told us"
    if told:
        gap = f", gap {told.gap_typed}" if told.gap_typed else ""
        words = f"{told.get_fitted_display()}{gap}"
    url = reverse("desk-fit", args=[reference])
    return JobStep("Did it fit?", words, url, "quotes.add_outcome")


def _cases(submission: Submission) -> Iterator[JobStep]:
    for case in cases_of(submission):
        url = reverse("case", args=[case.number])
        words = f"{case.number}: {case.get_state_display()}"
        yield JobStep("Case", words, url, "quotes.view_case", open=case.closed_at is None)
