"""How far a quote is, until nothing more comes by itself; who rang gets it by mail."""

from __future__ import annotations

from typing import Any

import pytest
from django.core import mail
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from intake.models import Job, Submission
from quotes import services
from quotes.links.models import Mail
from quotes.models import Quote
from tests.quotes.given import (
    a_metric_submission,
    a_quoter,
    a_submission,
    correct,
    stock_the_shelf,
)

pytestmark = pytest.mark.django_db
CONTACT = {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "email": "wilmot@example.org"}
BY_PHONE = {"contact": CONTACT, "channel": "phone"}


@pytest.fixture(autouse=True)
def _shelf(settings: Any) -> None:
    stock_the_shelf()
    settings.SITE_URL = "https://desk.example.net"


@pytest.fixture
def desk(client: Client) -> Client:
    client.force_login(a_quoter(), backend="django.contrib.auth.backends.ModelBackend")
    return client


def state(desk: Client, submission: Submission) -> str:
    answer = desk.get(reverse("quote-state", args=[submission.reference]))
    assert answer.status_code == 200
    return answer.content.decode()


def test_it_is_made_then_out_and_asks_no_more(desk: Client, do_jobs: Any) -> None:
    submission = a_submission()
    said = state(desk, submission)
    assert "being made" in said
    assert "load delay:1s" in said
    do_jobs()
    said = state(desk, submission)
    quote = Quote.objects.get()
    assert quote.number in said
    assert f"{quote.total}" in said
    assert "quote-1.pdf" in said
    assert "hx-get" not in said


def test_who_rang_gets_the_quote_by_mail_once(desk: Client, do_jobs: Any) -> None:
    submission = a_submission(top=BY_PHONE)
    do_jobs()
    do_jobs()
    (letter,) = mail.outbox
    assert letter.to == ["wilmot@example.org"]
    assert letter.subject == "Your quote for Biscuit Barrel"
    assert Quote.objects.get().number in letter.body
    assert f"https://desk.example.net/s/{submission.token}/" in letter.body
    said = state(desk, submission)
    assert "Mailed to wilmot@example.org at" in said
    assert "hx-get" not in said


def test_a_form_is_answered_on_its_page_and_not_by_mail(desk: Client, do_jobs: Any) -> None:
    a_submission(top={"contact": CONTACT})
    do_jobs()
    assert mail.outbox == []


def test_a_quote_made_anew_goes_out_anew(desk: Client, do_jobs: Any) -> None:
    submission = a_submission(top=BY_PHONE)
    do_jobs()
    do_jobs()
    correct(submission, gap_now={"text": "13/16", "method": "drill_shank"})
    do_jobs()
    do_jobs()
    assert [letter.to for letter in mail.outbox] == [["wilmot@example.org"]] * 2
    assert Mail.objects.filter(kind="offer").count() == 2


def test_a_mail_under_way_is_looked_at_less_hotly(desk: Client) -> None:
    submission = a_submission(top=BY_PHONE)
    services.issue_quote(submission_id=submission.pk)
    said = state(desk, submission)
    assert "on its way" in said
    assert "load delay:5s" in said
    Mail.objects.update(sending_at=timezone.now())
    assert "load delay:1s" in state(desk, submission)


def test_a_mail_that_was_not_sent_says_why(desk: Client) -> None:
    submission = a_submission(top=BY_PHONE)
    services.issue_quote(submission_id=submission.pk)
    Mail.objects.update(dropped="the address was refused")
    said = state(desk, submission)
    assert "Not mailed: the address was refused" in said
    assert reverse("desk-link", args=[submission.reference]) in said
    assert "hx-get" not in said


def test_a_missing_price_is_said_with_the_way_to_complete_it(desk: Client, do_jobs: Any) -> None:
    submission = a_metric_submission()
    do_jobs()
    said = state(desk, submission)
    assert "missing" in said
    assert reverse("desk-issue", args=[submission.reference]) in said
    assert "hx-get" not in said


def test_an_open_question_has_no_quote_yet(desk: Client) -> None:
    submission = a_submission(face_to_strut_aft={"text": "45 1/8", "method": "rod"})
    said = state(desk, submission)
    assert "a question is open" in said
    assert "hx-get" not in said


def test_a_job_that_gave_up_leads_to_the_hand(desk: Client) -> None:
    submission = a_submission()
    Job.objects.filter(kind="issue_quote").update(dead=True)
    said = state(desk, submission)
    assert "could not be made" in said
    assert reverse("desk-issue", args=[submission.reference]) in said


def test_looking_costs_few_queries_and_changes_nothing(
    desk: Client, do_jobs: Any, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    submission = a_submission(top=BY_PHONE)
    state(desk, submission)
    do_jobs()
    with django_assert_max_num_queries(9):
        state(desk, submission)
    assert Quote.objects.count() == 1


def test_strangers_see_nothing(client: Client) -> None:
    address = reverse("quote-state", args=[a_submission().reference])
    assert client.get(address).status_code == 302
    assert client.post(address).status_code == 302


def test_an_unknown_request_is_not_found(desk: Client) -> None:
    assert desk.get(reverse("quote-state", args=["FG-NOSUCH"])).status_code == 404
