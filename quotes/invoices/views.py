"""Invoices at the desk: the list, one of them, its paper and table, making one, crediting one."""

from __future__ import annotations

import csv
import secrets
from collections.abc import Iterator
from decimal import Decimal
from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from intake.access import needs
from intake.insights import plain
from intake.models import Submission
from intake.selectors import by_reference
from quotes.domain.invoice import INVOICE, InvoiceError
from quotes.domain.money import PriceError, read_price
from quotes.invoices import making, selectors, services
from quotes.invoices.models import Invoice
from quotes.invoices.page import DraftPage, InvoicePage
from quotes.models import Quote
from quotes.payments.selectors import bundle_of
from quotes.shop.selectors import last_accepted
from staff.security import address_of, tell

may_invoice = needs("intake.view_submission", "quotes.add_invoice")
may_credit = needs("intake.view_submission", "quotes.credit_invoice")
HEADINGS = (
    *("number", "kind", "of invoice", "issued", "due", "buyer", "quotes", "before tax", "tax"),
    *("total", "paid", "credited", "open", "currency"),
)


@may_invoice
@require_safe
def invoices(request: HttpRequest) -> HttpResponse:
    """Invoices and credit notes, the newest first."""
    after = request.GET.get("after", "")
    page = selectors.invoices_page(int(after) if after.isdecimal() and len(after) < 19 else None)
    context = {"rows": page.rows, "after": page.after, "is_first": not after}
    return render(request, "quotes/invoices.html", context)


@may_invoice
@require_safe
def invoice(request: HttpRequest, number: str) -> HttpResponse:
    """One invoice or credit note as it was issued, and what became of it."""
    return _page(request, InvoicePage(_find(number), secrets.token_urlsafe(18)))


@may_invoice
@require_safe
def invoice_pdf(request: HttpRequest, number: str) -> HttpResponse:
    """The paper, byte for byte as it was issued."""
    found = _find(number)
    response = HttpResponse(
        bytes(selectors.document_of(found).content), content_type="application/pdf"
    )
    response["Content-Disposition"] = f'inline; filename="{found.number}.pdf"'
    response["X-Content-Type-Options"] = "nosniff"
    response["Cache-Control"] = "no-store, private"
    return response


@may_invoice
@require_safe
def invoice_csv(request: HttpRequest, number: str) -> HttpResponse:
    """Its lines as a table for a spreadsheet or a bookkeeper's program."""
    found = _find(number)
    response = HttpResponse(content_type="text/csv; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="{found.number}.csv"'
    sheet = csv.writer(response)
    sheet.writerows([_cell(text) for text in row] for row in making.csv_rows(found))
    return response


@may_invoice  # type: ignore[arg-type]  # it is streamed
@require_safe
def invoices_csv(request: HttpRequest) -> HttpResponseBase:
    """Every invoice and credit note, written while they are read."""
    # Names and amounts of many at once: the log knows who took them.
    tell("invoices-taken", person=request.user.pk, address=address_of(request))
    name = f'attachment; filename="invoices-{timezone.localdate()}.csv"'
    return StreamingHttpResponse(
        _all_lines(),
        content_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": name},
    )


class _Echo:
    """A file that hands back what is written to it."""

    def write(self, text: str) -> str:
        return text


def _all_lines() -> Iterator[str]:
    sheet = csv.writer(_Echo())
    yield sheet.writerow(HEADINGS)
    for rows in selectors.every_invoice():
        yield "".join(sheet.writerow(map(_cell, _cells(row))) for row in rows)


def _cell(text: str) -> str:
    """No formula; a sum below nothing is a number and stays one."""
    try:
        return text if Decimal(text).is_finite() else plain(text)
    except ArithmeticError:
        return plain(text)


def _cells(row: selectors.Standing) -> tuple[str, ...]:
    one = row.invoice
    return (
        *(one.number, one.kind, one.of.number if one.of else "", str(one.issued_on)),
        *(str(one.due_on or ""), ", ".join(one.buyer)),
        " ".join(f"{each['number']} v{each['version']}" for each in one.about),
        *(str(one.net), str(one.tax), str(one.total)),
        *(str(row.paid), str(row.credited), str(row.open), one.currency),
    )


# --- Making one ----------------------------------------------------------------------------


@may_invoice
@require_http_methods(["GET", "HEAD", "POST"])
def make(request: HttpRequest, reference: str) -> HttpResponse:
    """The invoice as it would be issued now, and the button that issues it."""
    submission, quote = _accepted(reference)
    if request.method != "POST":
        return _draft(request, DraftPage(submission, quote, secrets.token_urlsafe(18)))
    nonce = str(request.POST.get("nonce", ""))[:40] or secrets.token_urlsafe(18)
    ticked = [int(key) for key in request.POST.getlist("quote") if key.isdecimal()]
    buyer = str(request.POST.get("buyer", ""))
    bundle = bundle_of(quote)
    there = selectors.members_of(bundle) if bundle else [quote]
    try:
        made = services.issue_invoice(
            quotes=[one for one in there if one.pk in ticked],
            buyer=buyer,
            by=cast("User", request.user),
            nonce=nonce,
            bundle=bundle,
        )
    except InvoiceError as error:
        page = DraftPage(submission, quote, nonce, buyer, ticked, str(error))
        return _draft(request, page, status=400)
    messages.success(request, f"Invoice {made.number} is issued.")
    return redirect("invoice", number=made.number)


def _accepted(reference: str) -> tuple[Submission, Quote]:
    try:
        submission = by_reference(reference)
    except Submission.DoesNotExist:
        raise Http404 from None
    quote = last_accepted(submission.pk)
    if quote is None:
        raise Http404("No quote of this request is accepted, so there is nothing to invoice.")
    return submission, quote


def _draft(request: HttpRequest, page: DraftPage, status: int = 200) -> HttpResponse:
    return render(request, "quotes/invoice_make.html", {"page": page}, status=status)


# --- Crediting one -------------------------------------------------------------------------


@may_credit
@require_POST
def credit(request: HttpRequest, number: str) -> HttpResponse:
    """Credit an invoice, all that is left of it or line by line."""
    found = _find(number)
    if found.kind != INVOICE:
        raise Http404
    nonce = str(request.POST.get("nonce", ""))[:40] or secrets.token_urlsafe(18)
    wanted, errors = (None, {}) if request.POST.get("all") else _wanted(request, found)
    if not errors:
        try:
            note = services.credit_invoice(
                invoice=found,
                wanted=wanted,
                reason=str(request.POST.get("reason", "")),
                by=cast("User", request.user),
                nonce=nonce,
            )
        except InvoiceError as error:
            errors = {"reason" if "reason" in str(error) else "": str(error)}
        else:
            messages.success(request, f"Credit note {note.number} is issued.")
            return redirect("invoice", number=note.number)
    typed = {box: str(text)[:400] for box, text in request.POST.items()}
    return _page(request, InvoicePage(found, nonce, typed, errors), status=400)


def _wanted(request: HttpRequest, found: Invoice) -> tuple[dict[int, Decimal], dict[str, str]]:
    """Amounts by line, and a sentence for each box that cannot be read; a discount's is typed
    without its sign."""
    wanted, errors = {}, {}
    for place, line in enumerate(making.bill_again(found).lines):
        text = str(request.POST.get(f"line.{place}", "")).strip()
        if not text:
            continue
        try:
            amount = read_price(text.lstrip("−-"))
        except PriceError as error:
            errors[f"line.{place}"] = str(error)
            continue
        wanted[place] = -amount if line.amount < 0 else amount
        if amount != amount.quantize(Decimal("0.01")):
            errors[f"line.{place}"] = "Please give whole cents."
    return wanted, errors


def _find(number: str) -> Invoice:
    found = selectors.invoice_by_number(number)
    if found is None:
        raise Http404
    return found


def _page(request: HttpRequest, page: InvoicePage, status: int = 200) -> HttpResponse:
    may = request.user.has_perm("quotes.credit_invoice")
    return render(request, "quotes/invoice.html", {"page": page, "may_credit": may}, status=status)
