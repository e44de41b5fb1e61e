"""Invoices at the desk: made from a draft that is no invoice, listed, credited by a manager."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from quotes.domain.money import money_text
from quotes.invoices.models import Invoice
from quotes.models import Quote
from tests.intake.customers.given import someone
from tests.quotes.given import an_accepted, stock_the_shelf
from tests.quotes.invoices.given import BUYER, a_shipped, an_invoice, pay
from tests.quotes.payments.test_payments import a_bundle
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def by() -> User:
    stock_the_shelf()
    return someone("percival")


@pytest.fixture
def quote(by: User) -> Quote:
    return a_shipped(by, ship_to={"country": "Otterland", "postcode": "O1 2TT", "kind": "yard"})


@pytest.fixture
def counter(by: User) -> Client:
    return logged_in(a_member("iolo", "counter"))


@pytest.fixture
def manager(by: User) -> Client:
    return logged_in(a_member("maud", "manager"))


def text_of(answer: Any) -> str:
    return str(answer.content.decode()).replace("&nbsp;", "\N{NO-BREAK SPACE}")


def test_a_draft_is_shown_and_stores_nothing(quote: Quote, by: User, counter: Client) -> None:
    pay(quote, by, "200", "deposit")
    page = text_of(counter.get(f"/desk/{quote.submission.reference}/invoice/"))
    assert "Wilmot Tarpley\nO1 2TT Otterland" in page
    assert money_text(quote.total - 200, quote.currency) in page
    assert Invoice.objects.count() == 0


def test_the_draft_is_issued_once_and_leads_to_the_invoice(quote: Quote, counter: Client) -> None:
    address = f"/desk/{quote.submission.reference}/invoice/"
    sent = {"nonce": "n", "quote": quote.pk, "buyer": BUYER}
    for _click in range(2):
        answer = counter.post(address, sent, follow=True)
    assert Invoice.objects.count() == 1
    page = text_of(answer)
    assert "Invoice I-" in page
    assert "3 Withy Bed" in page
    assert money_text(quote.total, quote.currency) in page
    assert "invoiced with I-" in text_of(counter.get(address))


def test_what_was_typed_is_shown_again(quote: Quote, counter: Client) -> None:
    address = f"/desk/{quote.submission.reference}/invoice/"
    answer = counter.post(address, {"nonce": "n", "quote": quote.pk, "buyer": "x\n" * 20})
    assert answer.status_code == 400
    assert "Please keep the buyer to 8 lines" in text_of(answer)
    assert "x\nx\nx" in text_of(answer)


def test_what_has_not_left_says_so_instead_of_a_button(by: User, counter: Client) -> None:
    here = an_accepted(days_ago=1)
    page = text_of(counter.get(f"/desk/{here.submission.reference}/invoice/"))
    assert "it is still with us" in page
    assert "Issue the invoice" not in page


def test_boats_of_a_bundle_are_ticked_as_far_as_they_have_left(
    quote: Quote, by: User, counter: Client
) -> None:
    other = an_accepted(days_ago=1, boat_name_and_station={"name": "Fedora", "station": "port"})
    a_bundle(by, quote, other)
    page = text_of(counter.get(f"/desk/{quote.submission.reference}/invoice/"))
    assert f'value="{quote.pk}" checked' in page
    assert f'value="{other.pk}" disabled' in page


# --- Papers and tables -------------------------------------------------------------------


def test_the_paper_is_the_one_that_was_kept(quote: Quote, by: User, counter: Client) -> None:
    invoice = an_invoice(quote, by)
    answer = counter.get(f"/desk/invoices/{invoice.number}/paper.pdf")
    assert answer.content == bytes(invoice.document.content)
    assert answer["Content-Type"] == "application/pdf"
    assert "no-store" in answer["Cache-Control"]


def test_the_lines_of_the_table_come_to_its_total(quote: Quote, by: User, counter: Client) -> None:
    pay(quote, by, "50")
    invoice = an_invoice(quote, by)
    rows = read_csv(counter.get(f"/desk/invoices/{invoice.number}/lines.csv").content)
    sums = {kind: Decimal(0) for kind in ("line", "tax", "total", "paid before", "to pay")}
    for row in rows:
        sums[row["row"]] += Decimal(row["amount"])
    assert sums["line"] + sums["tax"] == sums["total"] == quote.total
    assert sums["total"] + sums["paid before"] == sums["to pay"] == quote.total - 50


def test_no_cell_of_the_tables_is_a_formula(by: User, counter: Client) -> None:
    quote = a_shipped(by)
    lines = [{**quote.lines[0], "text": "=1+1"}, *quote.lines[1:]]
    Quote.objects.filter(pk=quote.pk).update(lines=lines)
    invoice = an_invoice(quote, by)
    Invoice.objects.filter(pk=invoice.pk).update(buyer=["@sum(1)"])
    one = read_csv(counter.get(f"/desk/invoices/{invoice.number}/lines.csv").content)
    assert one[0]["text"] == "'=1+1"
    every = b"".join(counter.get("/desk/invoices/all.csv").streaming_content)  # type: ignore[attr-defined]
    (row,) = read_csv(every)
    assert row["buyer"] == "'@sum(1)"
    assert Decimal(row["total"]) == quote.total


def read_csv(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(content.decode())))


def test_the_list_asks_as_much_for_ten_as_for_two(by: User, counter: Client) -> None:
    counts = []
    for count in (2, 5):
        while Invoice.objects.count() < count:
            an_invoice(a_shipped(by), by, f"n{Invoice.objects.count()}")
        with CaptureQueriesContext(connection) as asked:
            page = text_of(counter.get("/desk/invoices/"))
        counts.append(len(asked))
        assert page.count('scope="row"') == count
    assert counts[0] == counts[1]


def test_the_list_goes_on_behind_its_last_row(
    by: User, counter: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    from quotes.invoices import selectors

    for at in range(3):
        an_invoice(a_shipped(by), by, f"n{at}")
    first = selectors.invoices_page(size=2)
    rest = selectors.invoices_page(first.after, size=2)
    numbers = [row.invoice.number[-1] for row in (*first.rows, *rest.rows)]
    assert numbers == ["3", "2", "1"]
    assert rest.after is None


# --- Crediting ---------------------------------------------------------------------------


def test_a_manager_credits_some_lines_and_then_the_rest(
    quote: Quote, by: User, manager: Client
) -> None:
    invoice = an_invoice(quote, by)
    address = f"/desk/invoices/{invoice.number}/credit/"
    some = {"nonce": "c1", "reason": "wrong nut", "line.0": "10,00"}
    page = text_of(manager.post(address, some, follow=True))
    assert "Credit note CN-" in page
    assert "wrong nut" in page
    manager.post(address, {"nonce": "c2", "reason": "all back", "all": "yes"})
    notes = Invoice.objects.filter(kind="credit")
    assert sum(note.total for note in notes) == invoice.total
    assert "Credit this invoice" not in text_of(manager.get(f"/desk/invoices/{invoice.number}/"))


@pytest.mark.parametrize(
    ("sent", "words"),
    [
        ({"reason": "", "all": "yes"}, "Please give the reason"),
        ({"reason": "x", "line.0": "lots"}, "a price like"),
        ({"reason": "x", "line.0": "0.001"}, "whole cents"),
        ({"reason": "x", "line.0": "9999"}, "is left of it"),
        ({"reason": "x"}, "more than nothing"),
    ],
)
def test_a_credit_that_makes_no_sense_is_said(
    quote: Quote, by: User, manager: Client, sent: dict[str, str], words: str
) -> None:
    invoice = an_invoice(quote, by)
    answer = manager.post(f"/desk/invoices/{invoice.number}/credit/", {"nonce": "c", **sent})
    assert answer.status_code == 400
    assert words in text_of(answer)
    assert Invoice.objects.count() == 1


def test_the_counter_sees_who_credits_and_no_form(quote: Quote, by: User, counter: Client) -> None:
    invoice = an_invoice(quote, by)
    page = text_of(counter.get(f"/desk/invoices/{invoice.number}/"))
    assert "A manager credits an invoice" in page
    assert counter.post(f"/desk/invoices/{invoice.number}/credit/").status_code == 403
