"""A customer is erased: invoices stay whole, as books must be kept; of payments the words go.

How long invoices are kept, and that they are, is the law of the place: common practice, no source.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.contrib.auth.models import User
from django.urls import reverse

from intake.customers.privacy.selectors import everything_kept
from intake.customers.privacy.services import erase_customer
from quotes.invoices.models import Invoice
from quotes.invoices.services import credit_invoice
from quotes.models import Quote
from quotes.outcomes.services import tell_outcome
from quotes.payments.models import Payment
from quotes.payments.services import record_payment
from tests.flows.test_erased import telling
from tests.intake.customers.given import someone
from tests.quotes.given import stock_the_shelf
from tests.quotes.invoices.given import a_shipped, an_invoice
from tests.quotes.payments.test_payments import typed
from tests.staff.given import a_manager, logged_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def by() -> User:
    stock_the_shelf()
    return someone("percival")


@pytest.fixture
def invoice(by: User) -> Invoice:
    quote = a_shipped(by)
    words = {"how": "cheque of Wilmot", "note": "Tarpley sends more"}
    record_payment(quote=quote, typed=typed(**words), nonce="n", by=by)
    made = an_invoice(quote, by)
    credit_invoice(invoice=made, wanted={0: Decimal(5)}, reason="x", by=by, nonce="c")
    tell_outcome(quote=quote, after_days=7, fitted="yes")
    return made


def test_invoices_and_payments_are_handed_out(invoice: Invoice) -> None:
    quote = Quote.objects.select_related("submission__customer").get()
    assert quote.submission.customer is not None
    told, files = everything_kept(quote.submission.customer)
    numbers = {row.get("number") for row in told["quotes"]}
    assert set(Invoice.objects.values_list("number", flat=True)) <= numbers
    assert [row["how"] for row in told["quotes"] if "payment" in row] == ["cheque of Wilmot"]
    assert f"papers/{invoice.number}.pdf" in files


def test_invoices_stay_whole_and_nothing_else_tells_who_it_was(invoice: Invoice, by: User) -> None:
    quote = Quote.objects.select_related("submission__customer").get()
    assert quote.submission.customer is not None
    paper = bytes(invoice.document.content)
    page = logged_in(a_manager("maud")).get(
        reverse("erase-customer", args=[quote.submission.customer.pk])
    )
    assert "Invoices and credit notes stay whole" in page.content.decode()
    erase_customer(customer=quote.submission.customer, by=by, why="asked by letter")
    assert set(telling()) == {"quotes_invoice", "quotes_invoicedocument"}
    invoice.refresh_from_db()
    assert invoice.buyer[0] == "Wilmot Tarpley"
    assert bytes(invoice.document.content) == paper
    payment = Payment.objects.get()
    assert (payment.how, payment.note) == ("", "")
    assert payment.amount > 0
