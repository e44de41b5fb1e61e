"""Issuing invoices and credit notes. Each function is one whole step, in one transaction.

The paper is drawn inside it, since its number is on it and none may be lost: some hundredths of a
second in which the next invoice waits.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from datetime import timedelta
from decimal import Decimal

from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import F
from django.utils import timezone

from quotes.bundles.models import Bundle
from quotes.domain.invoice import CREDIT, DUE_DAYS, INVOICE, Bill, InvoiceError, credit_of, whole
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.payments import looks_like_a_card
from quotes.invoices import making, selectors
from quotes.invoices.billing import bill_and_paid
from quotes.invoices.models import Invoice, InvoiceDocument, InvoicedQuote, InvoiceSeries
from quotes.models import Quote

LONGEST_REASON, MOST_BUYER_LINES, LONGEST_LINE = 400, 8, 120
_LETTERS = {INVOICE: "I", CREDIT: "CN"}  # "C" alone numbers cases


@transaction.atomic
def issue_invoice(
    *, quotes: Sequence[Quote], buyer: str, by: User, nonce: str, bundle: Bundle | None = None
) -> Invoice:
    """Invoice shipped quotes, one or several of a bundle. The same form twice is one invoice.

    Raises InvoiceError where a quote is not accepted, has not left us, or is invoiced already.
    """
    locked = list(
        Quote.objects.select_for_update(of=("self",))
        .filter(pk__in=[quote.pk for quote in quotes])
        .select_related("submission", "sheet")
        .order_by("pk")
    )
    if there := Invoice.objects.filter(nonce=nonce).first():
        return there
    _ready(locked)
    bill, paid = bill_and_paid(locked, bundle)
    today = timezone.localdate()
    invoice = Invoice(
        kind=INVOICE,
        bundle=bundle,
        issued_on=today,
        due_on=today + timedelta(days=DUE_DAYS),
        buyer=_block(buyer),
        about=[making.about(quote) for quote in locked],
        paid=paid,
        to_pay=bill.total - paid,
    )
    _store(invoice, bill, locked[0], by, nonce)
    InvoicedQuote.objects.bulk_create(InvoicedQuote(invoice=invoice, quote=one) for one in locked)
    return invoice


def _ready(quotes: Sequence[Quote]) -> None:
    if not quotes:
        raise InvoiceError("Tick at least one boat to be invoiced.")
    if len({quote.currency for quote in quotes}) > 1:
        raise InvoiceError("These quotes are in different currencies. Invoice each by itself.")
    done, left = selectors.invoiced_already(quotes), selectors.have_left(quotes)
    for quote in quotes:
        if quote.pk in done:
            raise InvoiceError(f"Quote {quote.number} is invoiced already, with {done[quote.pk]}.")
        if quote.status != QuoteStatus.ACCEPTED:
            raise InvoiceError(f"Quote {quote.number} is not accepted, so there is nothing to pay.")
        if quote.pk not in left:
            raise InvoiceError(f"Quote {quote.number} has not left us yet. Invoice it once it has.")


def _block(text: str) -> list[str]:
    """Who is asked to pay, line by line as typed."""
    lines = [" ".join(line.replace("\x00", "").split()) for line in text.splitlines()]
    lines = [line for line in lines if line]
    if not lines:
        raise InvoiceError("Please say who is to pay: a name, and an address below it.")
    if len(lines) > MOST_BUYER_LINES or any(len(line) > LONGEST_LINE for line in lines):
        raise InvoiceError(f"Please keep the buyer to {MOST_BUYER_LINES} lines of an address.")
    return lines


@transaction.atomic
def credit_invoice(
    *, invoice: Invoice, wanted: Mapping[int, Decimal] | None, reason: str, by: User, nonce: str
) -> Invoice:
    """Credit an invoice: of each line (by its place) so much before tax, or all that is left.

    Never more than is left, whoever else credits it at the same moment. What is credited wholly
    may be invoiced anew. Raises InvoiceError.
    """
    invoice = Invoice.objects.select_for_update(of=("self",)).get(pk=invoice.pk, kind=INVOICE)
    if there := Invoice.objects.filter(nonce=nonce).first():
        return there
    reason = _reason(reason)
    bill, earlier = making.bill_again(invoice), selectors.credits_of(invoice)
    amounts = whole(bill, earlier) if wanted is None else dict(wanted)
    credit = credit_of(bill, earlier, amounts)
    note = Invoice(
        kind=CREDIT,
        of=invoice,
        bundle=invoice.bundle,
        issued_on=timezone.localdate(),
        buyer=invoice.buyer,
        about=invoice.about,
        credited={str(place): str(amount) for place, amount in amounts.items() if amount},
        to_pay=Decimal(0),
        reason=reason,
    )
    quote = selectors.quotes_of(invoice)[0]
    _store(note, credit, quote, by, nonce)
    if not whole(bill, [*earlier, amounts]):
        InvoicedQuote.objects.filter(invoice=invoice).update(stands=False)
    return note


def _reason(text: str) -> str:
    reason = " ".join(text.replace("\x00", "").split())[:LONGEST_REASON]
    if not reason:
        raise InvoiceError("Please give the reason; it stands on the credit note.")
    if looks_like_a_card(reason):
        raise InvoiceError("This looks like the number of a payment card. Please leave it out.")
    return reason


def _store(invoice: Invoice, bill: Bill, quote: Quote, by: User, nonce: str) -> None:
    """Number, row and paper together, or none of them."""
    for name, value in making.bill_kept(bill).items():
        setattr(invoice, name, value)
    invoice.currency, invoice.seller = quote.currency, making.seller()
    invoice.by, invoice.nonce = by, nonce
    invoice.number = _next_number(invoice.kind, invoice.issued_on.year)
    invoice.save(force_insert=True)
    pdf = making.paper(invoice, quote.submission.language or settings.LANGUAGE_CODE)
    digest = hashlib.sha256(pdf).hexdigest()
    InvoiceDocument.objects.create(invoice=invoice, content=pdf, sha256=digest)


def _next_number(kind: str, year: int) -> str:
    """The year's next number. Its row is held until the invoice is stored, or given back."""
    InvoiceSeries.objects.get_or_create(kind=kind, year=year)
    series = InvoiceSeries.objects.filter(kind=kind, year=year)
    series.update(last=F("last") + 1)
    return f"{_LETTERS[kind]}-{year}-{series.get().last:06d}"
