"""Invoices: numbers without gaps, sums of the quote, credits never beyond what is left."""

from __future__ import annotations

import hashlib
import threading
from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.db.models import ProtectedError

from quotes.domain.invoice import InvoiceError
from quotes.invoices import selectors, services
from quotes.invoices.making import bill_again
from quotes.invoices.models import Invoice, InvoiceDocument, InvoicedQuote, InvoiceSeries
from quotes.models import Quote
from quotes.payments.services import record_payment
from tests.intake.customers.given import someone
from tests.quotes.given import an_accepted, stock_the_shelf
from tests.quotes.invoices.given import BUYER, a_shipped, an_invoice, pay, send
from tests.quotes.payments.test_payments import a_bundle, typed

pytestmark = pytest.mark.django_db


@pytest.fixture
def by() -> User:
    stock_the_shelf()
    return someone("percival")


@pytest.fixture
def quote(by: User) -> Quote:
    return a_shipped(by)


def credit(invoice: Invoice, by: User, nonce: str = "c-1", **wanted: Any) -> Invoice:
    lines = wanted.get("lines")
    return services.credit_invoice(
        invoice=invoice, wanted=lines, reason="wrong bearing", by=by, nonce=nonce
    )


def test_an_invoice_is_the_quote_to_the_cent_less_what_was_paid(quote: Quote, by: User) -> None:
    pay(quote, by, "300", "deposit")
    invoice = an_invoice(quote, by)
    assert (invoice.total, invoice.tax) == (quote.total, quote.tax)
    assert invoice.net == quote.goods + quote.freight
    assert (invoice.paid, invoice.to_pay) == (Decimal(300), quote.total - 300)
    assert [line.text for line in bill_again(invoice).lines[:-1]] == [
        line["text"] for line in quote.lines
    ]
    assert invoice.about[0]["number"] == quote.number
    assert invoice.buyer == BUYER.splitlines()
    assert invoice.due_on is not None
    assert (invoice.due_on - invoice.issued_on).days == 14  # invented


def test_the_paper_is_kept_with_its_hash_and_is_the_same_again(quote: Quote, by: User) -> None:
    from quotes.invoices.making import paper

    invoice = an_invoice(quote, by)
    kept = InvoiceDocument.objects.get(invoice=invoice)
    assert hashlib.sha256(bytes(kept.content)).hexdigest() == kept.sha256
    assert paper(Invoice.objects.get(pk=invoice.pk), "en") == bytes(kept.content)


def test_the_same_form_twice_is_one_invoice(quote: Quote, by: User) -> None:
    assert an_invoice(quote, by) == an_invoice(quote, by)
    with pytest.raises(InvoiceError, match="invoiced already, with I-"):
        an_invoice(quote, by, nonce="another form")
    assert InvoiceSeries.objects.get().last == Invoice.objects.count() == 1


def test_numbers_follow_one_another_and_a_refused_one_takes_none(by: User) -> None:
    numbers = [an_invoice(a_shipped(by), by, f"n{at}").number for at in range(2)]
    with pytest.raises(InvoiceError):
        an_invoice(an_accepted(days_ago=1), by, "not shipped")
    numbers.append(an_invoice(a_shipped(by), by, "n3").number)
    assert [number[-6:] for number in numbers] == ["000001", "000002", "000003"]


def test_what_has_not_left_or_is_not_accepted_is_not_invoiced(by: User) -> None:
    quote = an_accepted(days_ago=1)
    with pytest.raises(InvoiceError, match="not left us yet"):
        an_invoice(quote, by)
    send(quote, by)
    Quote.objects.filter(pk=quote.pk).update(status="replaced")
    with pytest.raises(InvoiceError, match="not accepted"):
        an_invoice(quote, by)
    with pytest.raises(InvoiceError, match="at least one boat"):
        services.issue_invoice(quotes=[], buyer=BUYER, by=by, nonce="n")


def test_parts_alone_are_invoiced_as_they_go(by: User) -> None:
    bearing = an_accepted(days_ago=1, top={"wants": ["bearing"]})
    with pytest.raises(InvoiceError, match="not left us yet"):
        an_invoice(bearing, by)
    send(bearing, by)
    assert an_invoice(bearing, by).total == bearing.total


def test_somebody_must_be_asked_to_pay(quote: Quote, by: User) -> None:
    for buyer in ("", " \n ", "x\n" * 9, "n" * 121):
        with pytest.raises(InvoiceError):
            services.issue_invoice(quotes=[quote], buyer=buyer, by=by, nonce="n")
    assert Invoice.objects.count() == 0


def test_it_is_never_deleted(quote: Quote, by: User) -> None:
    invoice = an_invoice(quote, by)
    for gone in (invoice, quote):
        with pytest.raises(ProtectedError):
            gone.delete()


# --- Credit notes ------------------------------------------------------------------------


def test_a_whole_credit_frees_the_quote_to_be_invoiced_anew(quote: Quote, by: User) -> None:
    invoice = an_invoice(quote, by)
    note = credit(invoice, by)
    assert note.number.startswith("CN-")
    assert (note.total, note.of) == (invoice.total, invoice)
    assert InvoicedQuote.objects.get().stands is False
    assert an_invoice(quote, by, "anew").total == quote.total
    assert [row.open for row in selectors.standing_of([invoice])] == [0]


def test_credits_by_line_stop_at_what_is_left(quote: Quote, by: User) -> None:
    invoice = an_invoice(quote, by)
    first = bill_again(invoice).lines[0].amount
    note = credit(invoice, by, lines={0: first - 1})
    assert note.net == first - 1
    assert note.tax > 0
    with pytest.raises(InvoiceError, match=r"only 1\.00 is left"):
        credit(invoice, by, "c-2", lines={0: Decimal("1.01")})
    rest = credit(invoice, by, "c-3")
    assert note.total + rest.total == invoice.total
    with pytest.raises(InvoiceError, match="more than nothing"):
        credit(invoice, by, "c-4")


def test_a_credit_note_needs_a_reason_and_is_given_once(quote: Quote, by: User) -> None:
    invoice = an_invoice(quote, by)
    for reason in (" ", "card 4000 0000 0000 0002"):
        with pytest.raises(InvoiceError):
            services.credit_invoice(invoice=invoice, wanted=None, reason=reason, by=by, nonce="c")
    assert credit(invoice, by) == credit(invoice, by)
    with pytest.raises(Invoice.DoesNotExist):  # of a credit note there is none
        credit(Invoice.objects.get(kind="credit"), by, "c-9")


# --- Money afterwards --------------------------------------------------------------------


def test_what_is_open_follows_payments_and_credits(quote: Quote, by: User) -> None:
    invoice = an_invoice(quote, by)
    pay(quote, by, "100")
    credit(invoice, by, lines={0: Decimal(10)})
    (row,) = selectors.standing_of([invoice])
    note = Invoice.objects.get(kind="credit")
    assert (row.paid, row.credited) == (Decimal(100), note.total)
    assert row.open == invoice.total - 100 - note.total


def test_boats_of_a_bundle_are_invoiced_as_they_leave(quote: Quote, by: User) -> None:
    other = an_accepted(days_ago=1, boat_name_and_station={"name": "Fedora", "station": "port"})
    both = a_bundle(by, quote, other)
    record_payment(quote=quote, typed=typed(amount="900"), nonce="a", by=by, bundle=both)

    def invoice_of(one: Quote, nonce: str) -> Invoice:
        return services.issue_invoice(quotes=[one], buyer=BUYER, by=by, nonce=nonce, bundle=both)

    first = invoice_of(quote, "n1")
    assert first.total == quote.goods + quote.tax + both.freight
    assert first.to_pay == 0  # of the 900 as much as it takes
    send(other, by)
    second = invoice_of(other, "n2")
    assert first.total + second.total == both.total
    assert second.paid == 900 - first.total
    rows = selectors.standing_of([second, first])
    assert sum(row.open for row in rows) == both.total - 900
    assert [row.paid for row in rows] == [second.paid, first.total]


def test_several_boats_stand_on_one_invoice(quote: Quote, by: User) -> None:
    other = a_shipped(by, boat_name_and_station={"name": "Fedora", "station": "port"})
    both = a_bundle(by, quote, other)
    invoice = services.issue_invoice(
        quotes=[other, quote], buyer=BUYER, by=by, nonce="n", bundle=both
    )
    assert (invoice.total, invoice.tax) == (both.total, both.tax)
    assert len(invoice.about) == 2


# --- Two at once -------------------------------------------------------------------------


def at_once(*deeds: Any) -> list[Any]:
    """Each in a thread of its own, begun together; what came of them."""
    ready, came = threading.Barrier(len(deeds)), []

    def run(deed: Any) -> None:
        ready.wait()
        try:
            came.append(deed())
        except InvoiceError as error:
            came.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(deed,)) for deed in deeds]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return came


@pytest.mark.django_db(transaction=True)
def test_of_several_credits_at_once_no_cent_goes_twice() -> None:
    stock_the_shelf()
    by = someone("percival")
    invoice = an_invoice(a_shipped(by), by)
    whole = [lambda n=n: credit(invoice, by, f"c-{n}") for n in range(3)]
    came = at_once(*whole)
    assert sum(isinstance(one, InvoiceError) for one in came) == 2
    notes = Invoice.objects.filter(kind="credit")
    assert [note.total for note in notes] == [invoice.total]
    assert InvoiceSeries.objects.get(kind="credit").last == 1


@pytest.mark.django_db(transaction=True)
def test_invoices_made_at_once_are_numbered_without_a_gap() -> None:
    stock_the_shelf()
    by = someone("percival")
    quotes = [a_shipped(by) for _each in range(3)]
    same = [quotes[0], *quotes]
    came = at_once(*(lambda q=q, n=n: an_invoice(q, by, f"n{n}") for n, q in enumerate(same)))
    assert sum(isinstance(one, InvoiceError) for one in came) == 1
    numbers = sorted(Invoice.objects.values_list("number", flat=True))
    assert [number[-6:] for number in numbers] == ["000001", "000002", "000003"]
