"""The form below the price, for the customer and at the desk."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from catalog.models import Part
from catalog.services import next_version
from quotes.choosing.models import Choice as ChoiceRow
from quotes.models import Quote
from quotes.services import accept_quote
from tests.quotes.choosing.given import SLOW, an_open_quote, chosen
from tests.quotes.given import a_quote, a_quoter, correct, stock_the_shelf, ticked

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def page_of(quote: Quote) -> str:
    address = reverse("status", args=[quote.submission.token])
    return Client().get(address).content.decode()


def send(quote: Quote, client: Client | None = None, **typed: Any) -> Any:
    """The customer's form, sent with what is typed; or the desk's, by somebody logged in."""
    name, handle = ("desk-choose", "reference") if client else ("choose", "token")
    address = reverse(name, args=[getattr(quote.submission, handle)])
    sent = {"choose": "1", "version": str(quote.version), **typed}
    return (client or Client()).post(address, sent)


def box(page: str, name: str, value: str) -> str:
    """The tag of one box of the form."""
    found = re.search(rf'<input type="\w+" name="{name}" value="{re.escape(value)}"[^>]*>', page)
    assert found, (name, value)
    return found[0]


def test_nothing_is_ticked_but_the_metal_of_the_quote() -> None:
    page = page_of(an_open_quote())
    assert " checked" in box(page, "alloy", "S20910")
    for name, value in (("alloy", "S31600"), ("option", "fit"), ("option", "rush")):
        assert " checked" not in box(page, name, value)
    assert "−53.50" in page
    assert "pits where salt water stands still" in page
    assert "not engineered by us" in page


def test_what_cannot_be_priced_has_no_box() -> None:
    Part.objects.filter(code="SV-CERT").delete()
    next_version()
    page = page_of(a_quote())
    assert "Certificate of the bar" in page
    assert 'value="certificate"' not in page


def test_a_metal_that_would_stop_has_a_closed_box_and_the_reason() -> None:
    page = page_of(a_quote(**SLOW))
    assert " disabled" in box(page, "alloy", "S31600")
    assert "safety factor against torque is 1.56" in page


def test_a_choice_comes_back_as_a_new_version_with_its_boxes_ticked() -> None:
    quote = an_open_quote()
    answer = send(quote, alloy="S31600", option=["fit"])
    assert answer.status_code == 302
    page = page_of(quote)
    assert "version 2" in page
    assert " checked" in box(page, "alloy", "S31600")
    assert " checked" in box(page, "option", "fit")
    old = Client().get(reverse("quote-pdf", args=[quote.submission.token, 1]))
    assert old.content.startswith(b"%PDF")
    assert ChoiceRow.objects.get().told_from == "status page, 127.0.0.1"


def test_what_is_not_on_offer_is_said_and_what_was_ticked_stays() -> None:
    quote = an_open_quote()
    answer = send(quote, alloy="S31600", option=["rush", "part:1:BH-1000"])
    assert answer.status_code == 400
    page = answer.content.decode()
    assert "This is not on offer for this boat: round bar 1 in" in page
    assert " checked" in box(page, "option", "rush")
    assert " checked" in box(page, "alloy", "S31600")


def test_a_form_of_an_older_version_is_overtaken() -> None:
    quote = an_open_quote()
    chosen(quote, "", "fit")
    answer = send(quote, option=["rush"])
    assert answer.status_code == 409
    assert " checked" in box(answer.content.decode(), "option", "rush")


def test_a_form_without_its_version_is_no_form_of_ours() -> None:
    assert send(an_open_quote(), version="two").status_code == 400


def test_nothing_is_to_be_chosen_once_it_is_accepted() -> None:
    quote = a_quote()
    accept_quote(quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote))
    assert 'name="alloy"' not in page_of(quote)
    assert send(quote, alloy="S31600").status_code == 409


def test_what_was_left_out_is_said_to_customer_and_staff() -> None:
    quote = an_open_quote(gland_type="packed", log_id="1 3/8")
    chosen(quote, "", "part:1:PK-3_16")
    correct(quote.submission, gland_type="face")
    maud = Client()
    maud.force_login(a_quoter("maud"))
    desk = reverse("desk-issue", args=[quote.submission.reference])
    words = "left out now since it no longer fits this sheet: gland packing 3/16 in"
    assert words in maud.get(desk).content.decode()
    maud.post(desk)
    assert words in page_of(quote)


def test_staff_choose_on_the_quotes_own_page() -> None:
    quote, maud = an_open_quote(), Client()
    maud.force_login(a_quoter("maud"))
    page = maud.get(reverse("desk-issue", args=[quote.submission.reference])).content.decode()
    assert " checked" not in box(page, "option", "fit")
    answer = send(quote, maud, alloy="S20910", option=["fit"])
    assert answer.status_code == 302
    assert ChoiceRow.objects.get(by__username="maud").options == ["fit"]
    refused = send(quote, maud, option=["rush"])
    assert refused.status_code == 409, "the page was of version 1"


def test_who_may_not_quote_may_not_choose_either() -> None:
    quote, maud = an_open_quote(), Client()
    maud.force_login(a_quoter("maud", rights=()))
    assert send(quote, maud, option=["fit"]).status_code == 403
    assert not ChoiceRow.objects.exists()
