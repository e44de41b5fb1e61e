"""What is read of invoices: one question answered each, in a constant number of queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.db.models import Q, QuerySet

from quotes.bundles.models import Bundle
from quotes.domain.invoice import CREDIT, INVOICE
from quotes.domain.payments import from_pool
from quotes.invoices.making import bill_again, credited
from quotes.invoices.models import Invoice, InvoiceDocument, InvoicedQuote
from quotes.models import Quote
from quotes.payments.selectors import paid_for_bundles, paid_of
from quotes.sending.selectors import shipped_days

PAGE = 25
_ZERO = Decimal(0)


def invoice_by_number(number: str) -> Invoice | None:
    """One invoice or credit note, with the invoice it is of."""
    return Invoice.objects.filter(number=number).select_related("of", "by").first()


def document_of(invoice: Invoice) -> InvoiceDocument:
    """Its paper."""
    return InvoiceDocument.objects.get(invoice=invoice)


def quotes_of(invoice: Invoice) -> list[Quote]:
    """The quotes an invoice is of."""
    found = Quote.objects.filter(invoiced__invoice=invoice)
    return list(found.select_related("submission").order_by("pk"))


def invoices_of(submission_id: int) -> list[Invoice]:
    """Invoices of any version of a request's quote, with their credit notes, oldest first."""
    return list(_of_requests([submission_id]).select_related("of").order_by("pk"))


def invoiced_already(quotes: Sequence[Quote]) -> dict[int, str]:
    """Quotes that stand on an invoice, and its number."""
    found = InvoicedQuote.objects.filter(quote__in=quotes, stands=True)
    return dict(found.values_list("quote_id", "invoice__number"))


def credits_of(invoice: Invoice) -> list[dict[int, Decimal]]:
    """What was credited of an invoice so far, note by note."""
    notes = Invoice.objects.filter(of=invoice, kind=CREDIT).order_by("pk")
    return [credited(note) for note in notes]


def credit_notes_of(invoice: Invoice) -> list[Invoice]:
    """Its credit notes, oldest first."""
    return list(Invoice.objects.filter(of=invoice, kind=CREDIT).order_by("pk"))


def have_left(quotes: Sequence[Quote]) -> set[int]:
    """Quotes of which the shaft, or the parcel of parts, has left us."""
    return set(shipped_days([quote.pk for quote in quotes]))


# --- Bundles -----------------------------------------------------------------------------


def members_of(bundle: Bundle) -> list[Quote]:
    """The quotes of a bundle, in their order on its paper."""
    found = Quote.objects.filter(in_bundles__bundle=bundle)
    return list(found.select_related("submission", "sheet").order_by("in_bundles__place"))


def freight_is_invoiced(bundle: Bundle) -> bool:
    """Whether an invoice that stands has the bundle's freight on it."""
    return any(
        line.of == bundle.number
        for invoice in _standing(bundle)
        for line in bill_again(invoice).lines
    )


def taken_from_pool(bundle: Bundle) -> Decimal:
    """What invoices of this bundle have taken of the money that was paid for all of it."""
    pool, invoices = paid_for_bundles([bundle.number])[bundle.number], _standing(bundle)
    return min(pool, sum((_need(one, own) for one, own in _own_paid(invoices)), _ZERO))


def _standing(bundle: Bundle) -> list[Invoice]:
    found = Invoice.objects.filter(bundle__number=bundle.number, kind=INVOICE)
    return list(found.filter(invoiced__stands=True).distinct().order_by("pk"))


def _own_paid(invoices: Sequence[Invoice]) -> Iterator[tuple[Invoice, Decimal]]:
    """Each with what was paid for its own quotes."""
    rows = InvoicedQuote.objects.filter(invoice__in=invoices).select_related("quote")
    of: defaultdict[int, list[Quote]] = defaultdict(list)
    for row in rows:
        of[row.invoice_id].append(row.quote)
    came = paid_of([row.quote for row in rows])
    for invoice in invoices:
        yield invoice, sum((came[quote.pk] for quote in of[invoice.pk]), _ZERO)


def _need(invoice: Invoice, own: Decimal) -> Decimal:
    return max(_ZERO, invoice.total - own)


# --- The list ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Standing:
    """An invoice, or a credit note, with where its money stands today.

    ``open`` is what is still to be paid, below nothing what is to be paid back; nothing for a
    credit note and for an invoice that was credited wholly.
    """

    invoice: Invoice
    paid: Decimal
    credited: Decimal
    open: Decimal


def standing_of(invoices: Sequence[Invoice]) -> list[Standing]:
    """The same invoices with their money, in a constant number of queries."""
    asked = [one for one in invoices if one.kind == INVOICE]
    bundles = {one.bundle_id: one.bundle.number for one in asked if one.bundle}
    of_bundles = list(_of_bundles(set(bundles.values())))
    own = {one.pk: came for one, came in _own_paid([*asked, *of_bundles])}
    off = _credited([*asked, *of_bundles])
    shares = _shares(of_bundles, own, off)
    return [_standing_of(one, own, off, shares) for one in invoices]


def _of_bundles(numbers: set[str]) -> list[Invoice]:
    if not numbers:
        return []
    found = Invoice.objects.filter(bundle__number__in=numbers, kind=INVOICE, invoiced__stands=True)
    return list(found.select_related("bundle").distinct().order_by("pk"))


def _credited(invoices: Sequence[Invoice]) -> defaultdict[int, Decimal]:
    sums: defaultdict[int, Decimal] = defaultdict(Decimal)
    notes = Invoice.objects.filter(of__in=invoices, kind=CREDIT).order_by()
    for of, total in notes.values_list("of_id", "total"):
        sums[of] += total
    return sums


def _shares(
    invoices: Sequence[Invoice], own: dict[int, Decimal], off: defaultdict[int, Decimal]
) -> dict[int, Decimal]:
    """What each invoice of a bundle has of the money that was paid for all of it."""
    by_bundle: defaultdict[str, list[Invoice]] = defaultdict(list)
    for one in invoices:
        by_bundle[one.bundle.number if one.bundle else ""].append(one)
    pools = paid_for_bundles(by_bundle) if by_bundle else {}
    found: dict[int, Decimal] = {}
    for number, of_one in by_bundle.items():
        needs = [(one.pk, one.total - off[one.pk] - own[one.pk]) for one in of_one]
        found |= from_pool(pools[number], needs)
    return found


def _standing_of(
    one: Invoice,
    own: dict[int, Decimal],
    off: defaultdict[int, Decimal],
    shares: dict[int, Decimal],
) -> Standing:
    if one.kind == CREDIT:
        return Standing(one, _ZERO, _ZERO, _ZERO)
    if off[one.pk] == one.total:  # its quotes are invoiced anew, and so is what was paid for them
        return Standing(one, _ZERO, off[one.pk], _ZERO)
    paid = own[one.pk] + shares.get(one.pk, _ZERO)
    return Standing(one, paid, off[one.pk], one.total - off[one.pk] - paid)


@dataclass(frozen=True, slots=True)
class InvoicePage:
    """Some invoices, the newest first; ``after``: the key the next page begins behind."""

    rows: Sequence[Standing]
    after: int | None


def invoices_page(after: int | None = None, size: int = PAGE) -> InvoicePage:
    """Invoices and credit notes, the newest first."""
    found = Invoice.objects.select_related("of", "bundle").order_by("-pk")
    if after is not None:
        found = found.filter(pk__lt=after)
    rows = list(found[: size + 1])
    return InvoicePage(standing_of(rows[:size]), rows[size - 1].pk if len(rows) > size else None)


def every_invoice(at_once: int = 500) -> Iterator[list[Standing]]:
    """All of them, chunk by chunk, the newest first."""
    page = invoices_page(size=at_once)
    yield list(page.rows)
    while page.after is not None:
        page = invoices_page(page.after, size=at_once)
        yield list(page.rows)


# --- Handed out --------------------------------------------------------------------------

_OF_AN_INVOICE = (
    *("number", "kind", "issued_on", "due_on", "seller", "buyer", "about", "lines", "taxes"),
    *("net", "tax", "total", "paid", "to_pay", "currency", "reason"),
)


def invoices_handed_out(submissions: Sequence[int]) -> list[dict[str, Any]]:
    """Every invoice and credit note of these requests, as the customer may read it."""
    found = _of_requests(submissions).order_by("pk")
    return [{name: getattr(one, name) for name in _OF_AN_INVOICE} for one in found]


def invoice_papers(submissions: Sequence[int]) -> dict[str, bytes]:
    """Their papers, by name."""
    papers = InvoiceDocument.objects.filter(invoice__in=_of_requests(submissions).values("pk"))
    rows = papers.select_related("invoice").order_by("pk")
    return {f"papers/{row.invoice.number}.pdf": bytes(row.content) for row in rows}


def _of_requests(submissions: Sequence[int]) -> QuerySet[Invoice]:
    own = Invoice.objects.filter(invoiced__quote__submission__in=submissions).values("pk")
    return Invoice.objects.filter(Q(pk__in=own) | Q(of__in=own))
