"""From a measured boat to an accepted quote: by itself, and by way of a call."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO

import pytest
from django.test import Client
from django.urls import reverse
from pypdf import PdfReader

from intake import selectors
from intake.models import Event, Submission
from intake.services import receive_submission
from quotes.models import Quote
from tests.given import a_body
from tests.quotes.given import a_quoter, a_submission, correct, stock_the_shelf, ticked

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def statuses(submission: Submission) -> list[str]:
    return list(Event.objects.filter(submission=submission).values_list("new_status", flat=True))


def accept(client: Client, quote: Quote) -> None:
    address = reverse("accept", args=[quote.submission.token, quote.version])
    client.post(address, {"name": "Wilmot Tarpley", "confirm": ticked(quote)})


def test_a_clean_sheet_becomes_an_accepted_quote_without_a_word(
    client: Client, do_jobs: Callable[[], int]
) -> None:
    submission = receive_submission(body=a_body(), idempotency_key="one")
    status = reverse("status", args=[submission.token])
    assert "The quote is being made" in client.get(status).content.decode()

    do_jobs()
    assert "697.07" in client.get(status).content.decode()
    paper = client.get(reverse("quote-pdf", args=[submission.token, 1]))
    assert len(PdfReader(BytesIO(paper.content)).pages) in (1, 2, 3)  # what a quote may run to

    accept(client, Quote.objects.get())
    assert "Accepted by Wilmot Tarpley" in client.get(status).content.decode()
    assert statuses(submission) == ["ready", "quoted", "accepted"]


def test_a_call_settles_it_and_the_quote_follows(
    client: Client, do_jobs: Callable[[], int]
) -> None:
    submission = a_submission(face_to_strut_aft={"text": "45 1/8", "method": "rod"})
    do_jobs()
    assert not Quote.objects.exists()

    desk = Client()
    desk.force_login(a_quoter(), backend="django.contrib.auth.backends.ModelBackend")
    waiting = selectors.call_queue()[0]
    said = {
        "check": selectors.current_sheet(waiting).outcome["findings"][0]["check"],
        "sheet_number": "1",
        "tape_unit": "in",
        "outcome": "corrected",
        "said_by": "Wilmot Tarpley",
        "cause": "R-BURN-X",
        "answers.face_to_strut_aft.text": "44 1/8",
        "answers.face_to_strut_aft.method": "rod",
    }
    desk.post(reverse("record-call", args=[submission.reference]), said)
    do_jobs()

    page = client.get(reverse("status", args=[submission.token])).content.decode()
    assert "697.07" in page
    assert "44 1/8 in · 1120.8 mm" in page
    assert statuses(submission) == ["needs_call", "ready", "quoted"]


def test_a_correction_after_the_quote_makes_a_new_version(
    client: Client, do_jobs: Callable[[], int]
) -> None:
    submission = a_submission()
    do_jobs()
    old = Quote.objects.get()

    correct(submission, rudder_clear={"text": "9"})
    do_jobs()

    accept(client, old)
    old.refresh_from_db()
    assert old.status == "replaced"
    new = Quote.objects.get(version=2)
    accept(client, new)
    new.refresh_from_db()
    assert new.status == "accepted"
    for version in (1, 2):
        paper = client.get(reverse("quote-pdf", args=[submission.token, version]))
        assert paper.status_code == 200
