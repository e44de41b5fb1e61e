"""The customer's page: what it says, what it refuses, what it costs in queries."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from intake.models import Submission
from quotes import services
from quotes.cases.models import Case
from quotes.models import Quote
from tests.quotes.given import (
    a_metric_submission,
    a_quote,
    a_submission,
    an_accepted,
    stock_the_shelf,
    ticked,
)
from tests.quotes.shop.shafts import a_made, a_sent
from tests.staff.given import a_member

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def page_of(client: Client, submission: Submission) -> str:
    return client.get(reverse("status", args=[submission.token])).content.decode()


def send(client: Client, door: str, quote: Quote, **typed: Any) -> Any:
    return client.post(reverse(door, args=[quote.submission.token, quote.version]), typed)


@pytest.mark.parametrize("name", ["status", "quote-pdf"])
def test_an_unknown_link_is_no_page(client: Client, name: str) -> None:
    version = [1] if name == "quote-pdf" else []
    assert client.get(reverse(name, args=["x" * 43, *version])).status_code == 404


def test_nobody_on_the_way_keeps_it(client: Client) -> None:
    quote = a_quote()
    token = quote.submission.token
    for address in (reverse("status", args=[token]), reverse("quote-pdf", args=[token, 1])):
        answer = client.get(address)
        assert answer.status_code == 200
        assert "no-store" in answer["Cache-Control"]
        assert "noindex" in answer["X-Robots-Tag"]
        assert answer["Referrer-Policy"] in ("same-origin", "no-referrer")


def test_a_link_only_looks(client: Client) -> None:
    quote = a_quote()
    assert client.get(reverse("accept", args=[quote.submission.token, 1])).status_code == 405
    assert client.post(reverse("status", args=[quote.submission.token])).status_code == 405


def test_an_open_question_is_shown(client: Client) -> None:
    asked = a_submission(face_to_strut_aft={"text": "45 1/8", "method": "rod"})
    said = page_of(client, asked)
    question = asked.current.outcome["findings"][0]["question"]
    assert "What we still need from you" in said
    assert question.replace("'", "&#x27;") in said
    assert "verdict-ask" in said
    assert "Length, coupling face" not in said, "no length is promised while a question is open"


def test_what_we_have_stands_in_both_systems(client: Client) -> None:
    said = page_of(client, a_submission())
    assert "44 1/8 in · 1120.8 mm" in said
    assert "49 in · 1244.6 mm" in said
    assert "Look again" in said


def test_the_quote_is_there_with_its_paper(client: Client) -> None:
    quote = a_quote()
    said = page_of(client, quote.submission)
    assert "697.07" in said
    assert quote.number in said
    assert "we expect a gap of 3/4 in" in said
    paper = client.get(reverse("quote-pdf", args=[quote.submission.token, 1]))
    assert paper["Content-Type"] == "application/pdf"
    assert paper["Content-Disposition"] == f'attachment; filename="quote-{quote.number}-v1.pdf"'
    assert paper["X-Content-Type-Options"] == "nosniff"
    assert paper.content == bytes(quote.document.content)


def test_the_paper_of_another_is_not_shown(client: Client) -> None:
    mine, other = a_quote(), a_submission(boat_name_and_station={"name": "Thimble"})
    assert mine.version == 1
    assert client.get(reverse("quote-pdf", args=[other.token, 1])).status_code == 404


def test_a_price_to_come_is_said(client: Client, do_jobs: Any) -> None:
    submission = a_metric_submission()
    do_jobs()
    said = page_of(client, submission)
    assert "to come" in said
    assert "by hand" in said
    assert "Download" not in said
    assert "Accept version" not in said


def test_accepting(client: Client) -> None:
    quote = a_quote()
    answer = send(client, "accept", quote, name="Wilmot", confirm=ticked(quote))
    assert answer.status_code == 302
    said = page_of(client, quote.submission)
    assert "Accepted by Wilmot" in said
    assert "Accept version" not in said
    assert send(client, "accept", quote, name="Wilmot", confirm=ticked(quote)).status_code == 302


def test_what_was_ticked_and_typed_is_not_lost(client: Client) -> None:
    quote = a_quote()
    answer = send(client, "accept", quote, name="Wilmot <b>", confirm=ticked(quote)[:3])
    said = answer.content.decode()
    assert answer.status_code == 400
    assert "Not accepted yet" in said
    assert 'value="Wilmot &lt;b&gt;"' in said
    assert said.count("checked>") == 3
    quote.refresh_from_db()
    assert quote.status == "issued"


def test_a_nameless_yes_points_at_the_box(client: Client) -> None:
    quote = a_quote()
    said = send(client, "accept", quote, confirm=ticked(quote)).content.decode()
    assert 'href="#accept-name"' in said
    assert 'aria-describedby="accept-name-error"' in said


def test_declining(client: Client) -> None:
    quote = a_quote()
    refused = send(client, "decline", quote, reason="")
    assert refused.status_code == 400
    assert "One word is enough" in refused.content.decode()
    assert send(client, "decline", quote, reason="price").status_code == 302
    assert "Declined on" in page_of(client, quote.submission)


def test_too_late_is_said_kindly(client: Client) -> None:
    quote = a_quote()
    Quote.objects.update(valid_until=timezone.localdate() - timedelta(days=1))
    assert "has run out" in page_of(client, quote.submission)
    answer = send(client, "accept", quote, name="W", confirm=ticked(quote))
    assert answer.status_code == 409
    assert "Ring us, and we make you a new one" in answer.content.decode()


def test_no_such_version(client: Client) -> None:
    quote = a_quote()
    gone = reverse("accept", args=[quote.submission.token, 7])
    assert client.post(gone, {"name": "W"}).status_code == 404


def test_a_strangers_form_is_refused() -> None:
    quote = a_quote()
    strict = Client(enforce_csrf_checks=True)
    assert send(strict, "accept", quote, name="W", confirm=ticked(quote)).status_code == 403


def test_customers_words_are_words(client: Client) -> None:
    name = "<script>alert(1)</script>"
    submission = a_submission(boat_name_and_station={"name": name, "station": "single"})
    services.issue_quote(submission_id=submission.pk)
    said = page_of(client, submission)
    assert name not in said
    assert "&lt;script&gt;" in said


@pytest.mark.parametrize(
    ("state", "queries"),
    [("asked", 5), ("ready", 4), ("quoted", 17), ("accepted", 13), ("fit", 13)],
)
def test_the_page_costs_few_queries(
    client: Client, state: str, queries: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    """The submission, its sheet, its quotes, its photos; and what was measured afresh or told.

    With a quote also the days it takes (calendar, load), rates, terms, what was paid; while it is
    open what can be chosen: catalogue, limits, history, the choice, and the rack for each metal.
    After a yes: how far it is in the shop, and how it left us.
    """
    if state == "asked":
        submission = a_submission(face_to_strut_aft={"text": "45 1/8", "method": "rod"})
    elif state == "ready":
        submission = a_submission()
    elif state == "quoted":
        submission = a_quote().submission
    else:
        submission = an_accepted(days_ago=1 if state == "accepted" else 30).submission
    page_of(client, submission)  # the first look is kept
    with django_assert_num_queries(queries):
        page_of(client, submission)


def test_the_paper_costs_two_queries(
    client: Client, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    address = reverse("quote-pdf", args=[a_quote().submission.token, 1])
    client.get(address)  # the first look is kept
    with django_assert_num_queries(2):
        client.get(address)


def test_after_a_yes_the_page_says_how_far_it_is(client: Client) -> None:
    quote = a_made(a_member("bronagh", "machinist"))
    assert "It is made. We measure it before it leaves us." in page_of(client, quote.submission)


def test_what_has_left_us_is_promised_no_more(client: Client) -> None:
    quote = a_sent(a_member("bronagh", "machinist"), a_member())
    said = page_of(client, quote.submission)
    assert "left us on" in said
    assert "Carrier of long parcels" in said
    assert "Leaves us" not in said
    assert "before we cut" not in said


def test_a_misfit_that_was_told_is_known_on_the_page(client: Client) -> None:
    quote = a_sent(a_member("bronagh", "machinist"), a_member())
    Case.objects.create(quote=quote, number="C-2026-0009", opened_as="no")
    assert "We are putting it right with you." in page_of(client, quote.submission)


def test_the_total_and_the_way_to_a_yes_stand_on_top(client: Client) -> None:
    quote = a_quote()
    said = page_of(client, quote.submission)
    assert said.index('href="#accept-h"') < said.index('class="status-cols"')
    services.accept_quote(quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote))
    assert 'href="#accept-h"' not in page_of(client, quote.submission)
