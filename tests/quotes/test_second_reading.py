"""The customer's second reading on the status page: blind, once, and told what came of it."""

from __future__ import annotations

import html
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from intake import services
from intake.models import SheetVersion, Submission
from tests.quotes.given import a_submission, stock_the_shelf

pytestmark = pytest.mark.django_db
ONE_WAY = ("old_length_face_to_thread", "tail_to_thread", "gap_now")
AGREES = {"sheet_number": "1", "start_mark": "10", "text": "54 1/8", "method": "rod"}


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def one_way(**changes: Any) -> Submission:
    return a_submission(without=ONE_WAY, **changes)


def page_of(client: Client, submission: Submission) -> str:
    answer = client.get(reverse("status", args=[submission.token]))
    return html.unescape(answer.content.decode())


def send(client: Client, submission: Submission, **changes: str) -> Any:
    address = reverse("second-reading", args=[submission.token])
    return client.post(address, {**AGREES, **changes}, follow=True)


def test_it_is_asked_for_and_the_first_number_is_nowhere(client: Client) -> None:
    said = page_of(client, one_way())
    assert "Please take the long length once more" in said
    assert "44 1/8" not in said
    assert "1120.8" not in said
    assert "44⅛" not in said
    assert "2 15/16 in" in said, "the other numbers stay"
    assert "fairgap" in said


def test_nobody_else_is_asked(client: Client) -> None:
    for submission in (
        a_submission(),
        a_submission(
            boat_name_and_station={"name": "Otter"},
            face_to_strut_aft={"text": "45 1/8", "method": "rod"},
        ),
    ):
        assert "once more" not in page_of(client, submission)


def test_two_that_agree_settle_it_without_a_call(client: Client) -> None:
    submission = one_way()
    answer = send(client, submission)
    said = html.unescape(answer.content.decode())
    assert answer.redirect_chain == [(reverse("status", args=[submission.token]), 302)]
    assert "The two readings agree, and nothing is open any more." in said
    assert "44 1/8 in" in said, "the numbers are back"
    now = Submission.objects.get()
    assert now.status == "ready"
    assert now.current.said_by == "customer, on the status page"
    assert "no-store" in answer["Cache-Control"]


def test_two_that_differ_bring_a_call_and_no_third_reading(client: Client) -> None:
    submission = one_way()
    said = html.unescape(send(client, submission, text="55 1/8").content.decode())
    assert "further apart than measuring explains" in said
    assert "Send the second reading" not in said
    submission.refresh_from_db()
    assert submission.status == "needs_call"


def test_what_else_is_open_stays_to_be_seen(client: Client) -> None:
    submission = one_way(flange_direction={"state": "cannot_measure"})
    submission.refresh_from_db()
    said = html.unescape(send(client, submission).content.decode())
    assert "The two readings agree. What is still open stands below." in said
    assert "What we still need from you" in said


def test_a_double_click_stores_it_once(client: Client) -> None:
    submission = one_way()
    send(client, submission)
    said = html.unescape(send(client, submission).content.decode())
    assert "nothing is open any more" in said
    assert SheetVersion.objects.count() == 2


def test_an_older_page_stores_nothing_over_what_the_desk_wrote(client: Client) -> None:
    from tests.quotes.given import correct

    submission = one_way()
    correct(submission, face_to_strut_aft={"text": "44", "method": "rod"})
    said = html.unescape(send(client, submission).content.decode())
    assert "Your sheet changed a moment ago" in said
    assert SheetVersion.objects.count() == 2
    assert "again" not in submission.current.body["answers"]["face_to_strut_aft"]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"text": ""}, "Please write the number you read."),
        ({"text": "4"}, "start mark is past what the tape showed"),
    ],
)
def test_what_cannot_be_read_is_said_and_nothing_lost(
    client: Client, typed: dict[str, str], says: str
) -> None:
    submission = one_way()
    answer = send(client, submission, **typed)
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 400
    assert says in said
    assert 'value="10"' in said
    assert "44 1/8" not in said
    assert SheetVersion.objects.count() == 1


@pytest.mark.parametrize("number", ["", "one", "9"])
def test_a_page_made_by_hand_stores_nothing(client: Client, number: str) -> None:
    submission = one_way()
    answer = send(client, submission, sheet_number=number)
    assert answer.status_code == (200 if number == "9" else 400)
    assert SheetVersion.objects.count() == 1


def test_an_unknown_link_takes_nothing(client: Client) -> None:
    assert client.post(reverse("second-reading", args=["x" * 43]), AGREES).status_code == 404
    submission = one_way()
    assert client.get(reverse("second-reading", args=[submission.token])).status_code == 405


def test_a_withdrawn_request_says_so(client: Client) -> None:
    submission = one_way()
    services.close(submission=submission, reason="sold")
    assert "It is withdrawn" in html.unescape(send(client, submission).content.decode())


# --- What it may be, in the customer's words --------------------------------------------


def test_likely_causes_are_named_without_shares(client: Client) -> None:
    asked = a_submission(face_to_strut_aft={"text": "43 5/8", "method": "rod"})
    said = page_of(client, asked)
    assert "What it often turns out to be: measured from the aft face of the shaft flange" in said
    asked_for = said[said.index('id="asks-h"') : said.index("status-cols")]
    assert "%" not in asked_for
    assert "D-CBACK" not in said


def test_three_questions_are_shown_and_the_rest_folded(client: Client) -> None:
    from quotes.status_page import StatusPage

    asked = one_way()
    held = [
        {"check": f"made-{n}", "severity": "ask", "question": f"Question {n}?", "answers": ["x"]}
        for n in (1, 2, 2, 3, 4)
    ]
    asked.current.outcome["findings"] = held
    page = StatusPage(asked, asked.current, ())
    assert [shown.finding["question"] for shown in page.questions.first] == [
        "Question 1?",
        "Question 2?",
        "Question 3?",
    ]
    assert [shown.finding["question"] for shown in page.questions.rest] == ["Question 4?"]


def test_no_length_that_was_worked_out_stands_beside_an_open_question(client: Client) -> None:
    asked = a_submission(face_to_strut_aft={"text": "43 5/8", "method": "rod"})
    said = page_of(client, asked)
    drawing = said[said.index("<figure") : said.index("</figure>")]
    cut = asked.current.outcome["shaft"]["cut_length"]["inch"].partition(" ")[0]
    assert "43" in drawing
    assert f">{cut}" not in drawing
    assert "computed" not in drawing
