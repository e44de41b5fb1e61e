"""Quotes, papers, mails and links of a customer: handed out with the rest, and erased with it."""

from __future__ import annotations

from typing import Any

import pytest
from django.apps import apps
from django.core import serializers
from django.test import Client
from django.urls import reverse

from intake.customers.privacy.selectors import everything_kept
from intake.customers.privacy.services import EraseRefused, erase_customer
from intake.models import Job, Submission
from quotes import services
from quotes.links.models import Mail, OldLink
from quotes.links.services import ask_for_link, renew_link, send_link
from quotes.models import Quote, QuoteDocument
from quotes.outcomes.services import tell_outcome
from tests.intake.customers.given import someone
from tests.quotes.given import a_submission, stock_the_shelf, ticked

pytestmark = pytest.mark.django_db
CONTACT = {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "email": "wilmot@example.net"}


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def an_order() -> Quote:
    """An accepted quote, with a mail and a link that was renewed."""
    submission = a_submission(top={"contact": CONTACT})
    quote = services.issue_quote(submission_id=submission.pk)
    services.accept_quote(quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote))
    renew_link(submission=submission)
    send_link(submission=submission)
    ask_for_link(submission=submission, typed=CONTACT["email"])
    return Quote.objects.get(pk=quote.pk)


def a_finished_order() -> Quote:
    quote = an_order()
    tell_outcome(quote=quote, after_days=7, fitted="changed", gap="3/4", different="Tarpley filed")
    return Quote.objects.get(pk=quote.pk)


def test_quotes_papers_and_mails_are_handed_out() -> None:
    quote = a_finished_order()
    told, files = everything_kept(quote.submission.customer)
    assert told["quotes"][0]["accepted_by"] == "Wilmot Tarpley"
    assert told["quotes"][0]["outcomes"][0]["different"] == "Tarpley filed"
    assert any("mail" in row for row in told["quotes"])
    assert files[f"papers/{quote.number}-v1.pdf"].startswith(b"%PDF")


def test_an_order_that_is_not_finished_stands_in_the_way() -> None:
    quote = an_order()
    with pytest.raises(EraseRefused) as refused:
        erase_customer(customer=quote.submission.customer, by=someone(), why="by letter")
    assert refused.value.orders == (quote.submission.reference,)
    assert quote.submission.reference in str(refused.value)
    assert Submission.objects.get().contact_name == "Wilmot Tarpley"


def test_nothing_here_tells_who_it_was_and_the_order_still_counts() -> None:
    quote = a_finished_order()
    numbers = amounts()
    erase_customer(customer=quote.submission.customer, by=someone(), why="by letter")
    rows: list[Any] = []
    for label in ("intake", "quotes"):
        for model in apps.get_app_config(label).get_models():
            rows += model._default_manager.all()
    left = serializers.serialize("json", rows)
    assert [word for word in ("Tarpley", "5550100", "wilmot@", "Biscuit") if word in left] == []
    assert amounts() == numbers
    assert not QuoteDocument.objects.exists()
    assert not Mail.objects.exists()
    assert not OldLink.objects.exists()
    assert not Job.objects.filter(kind="renew_link").exists()


def amounts() -> list[Any]:
    """What statistics are made from."""
    told = ("number", "status", "total", "accepted_at", "outcomes__fitted", "outcomes__gap_nm")
    return list(Quote.objects.order_by("pk").values_list(*told))


def test_the_private_link_leads_nowhere_any_more(client: Client) -> None:
    quote = a_finished_order()
    token = Submission.objects.get().token
    address = reverse("status", args=[token])
    assert client.get(address).status_code == 200
    erase_customer(customer=quote.submission.customer, by=someone(), why="by letter")
    page = client.get(address)
    assert page.status_code == 404
    assert b"Tarpley" not in page.content


def test_an_open_quote_is_withdrawn_and_cannot_be_accepted() -> None:
    quote = services.issue_quote(submission_id=a_submission(top={"contact": CONTACT}).pk)
    erase_customer(customer=quote.submission.customer, by=someone(), why="by letter")
    with pytest.raises((services.QuoteError, services.MoveError, services.Overtaken)):
        services.accept_quote(quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote))
    assert Submission.objects.get().status == "withdrawn"
