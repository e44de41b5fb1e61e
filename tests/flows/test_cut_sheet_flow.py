"""From a measured boat to the page that the machinist cuts from."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.test import Client
from django.urls import reverse

from intake.services import receive_submission
from quotes.models import Quote
from tests.given import a_body
from tests.quotes.given import stock_the_shelf, ticked
from tests.quotes.paper.papers import texts
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db


def test_form_release_quote_acceptance_cut_sheet(
    client: Client, do_jobs: Callable[[], int]
) -> None:
    stock_the_shelf()
    submission = receive_submission(body=a_body(), idempotency_key="one")
    do_jobs()  # released, so quoted by itself
    quote = Quote.objects.get()
    machinist = logged_in(a_member("bronagh", "machinist"))
    assert "No accepted shaft waits" in machinist.get(reverse("shop")).content.decode()

    accept = reverse("accept", args=[submission.token, quote.version])
    answer = {"name": "Wilmot Tarpley", "confirm": ticked(quote)}
    client.post(accept, answer)
    client.post(accept, answer)  # a double click
    do_jobs()

    page = machinist.get(reverse("shop")).content.decode()
    address = reverse("cut-sheet", args=[submission.reference])
    assert page.count(f'href="{address}"') == 1
    assert reverse("shop") in page.split("</nav>")[0], "on the machinist's own line of links"
    paper = machinist.get(address)
    said = texts(paper.content)[0]
    for words in ("Biscuit Barrel, single shaft", quote.number, "49.0000 in (1244.60 mm)"):
        assert words in said
    assert machinist.get(address).content == paper.content
