"""Answering on the status page: what is asked, what is hidden, what is lost (nothing)."""

from __future__ import annotations

import html
import re
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from intake.models import SheetVersion, Submission
from tests.quotes.given import a_quote, a_submission, correct, stock_the_shelf, ticked

pytestmark = pytest.mark.django_db
NO_DIRECTION = {"flange_direction": {"state": "cannot_measure"}}
THIN = {"dia_clean": {"text": "0.95", "method": "caliper"}}
APART = {"face_to_strut_aft": {"text": "45 1/8", "method": "rod"}}


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def page_of(client: Client, submission: Submission) -> str:
    answer = client.get(reverse("status", args=[submission.token]))
    return html.unescape(answer.content.decode())


def seen(said: str) -> str:
    """What a person can read of a page: its words, and what stands in its boxes."""
    boxes = " ".join(re.findall(r'value="([^"]*)"', said))
    return f"{re.sub(r'<[^>]*>', ' ', said)} {boxes}"


def send(client: Client, submission: Submission, **typed: str) -> Any:
    named = {name.replace("__", "."): text for name, text in typed.items()}
    address = reverse("answer", args=[submission.token])
    return client.post(address, {"sheet_number": "1", "tape_unit": "in", **named}, follow=True)


def test_a_choice_is_answered_and_the_page_says_what_came_of_it(client: Client) -> None:
    submission = a_submission(**NO_DIRECTION)
    said = page_of(client, submission)
    assert "Which way does the coupling's long hub point?" in said
    assert "Something is open. You may settle it below" in said
    answer = send(client, submission, answers__flange_direction="aft")
    assert answer.redirect_chain == [(reverse("status", args=[submission.token]), 302)]
    said = html.unescape(answer.content.decode())
    assert "nothing is open any more" in said
    assert "Send the answers" not in said


def test_a_number_to_be_taken_afresh_stands_nowhere(client: Client) -> None:
    said = seen(page_of(client, a_submission(**THIN)))
    assert "Please measure it afresh" in said
    assert "0.95" not in said
    assert "24.1" not in said
    assert "2 15/16 in" in said, "the other numbers stay"


def test_a_long_length_to_be_read_twice_stands_nowhere(client: Client) -> None:
    submission = a_submission(**APART)
    said = page_of(client, submission)
    assert 'name="answers.face_to_strut_aft.again.text"' in said
    for first in ("45 1/8", "45⅛", "1146.2"):
        assert first not in seen(said)
    assert "Mark held at the start" in said


@pytest.mark.parametrize("changes", [THIN, APART, NO_DIRECTION])
def test_no_number_that_we_expect_is_shown(client: Client, changes: Any) -> None:
    submission = a_submission(**changes)
    said = page_of(client, submission)
    own = re.findall(r"[\d.]+ mm", seen(page_of(client, submission)))
    told = [Decimal(reading["mm"]) for reading in submission.current.readings.values()]
    shown = {f"{mm.quantize(Decimal('0.1'), ROUND_HALF_UP)} mm" for mm in told}
    assert set(own) <= shown | {"50.8 mm"}, "the bearing's length was told in parts"
    assert '<span class="tag">computed' not in said
    assert '<span class="tag">assumed' not in said


def test_what_is_not_for_customers_is_said_to_be_rung_about(client: Client) -> None:
    said = page_of(client, a_submission(gap_now={"text": "4", "method": "rule"}))
    assert "We will ring you about this" in said
    assert "What part were you measuring" in said
    contact = {"name": "Wilmot", "email": "w@example.net"}
    said = page_of(
        client, a_submission(top={"contact": contact}, gap_now={"text": "4", "method": "rule"})
    )
    assert "Please ring us about this" in said


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"answers__dia_clean__text": "wide"}, 'id="q-dia_clean-error"'),
        ({}, "Please answer at least one of the questions."),
        (
            {"answers__thread__text": "3/4-10", "answers__thread__state": "cannot_measure"},
            "Keep one of them.",
        ),
    ],
)
def test_what_cannot_be_stored_is_said_and_nothing_lost(
    client: Client, typed: dict[str, str], says: str
) -> None:
    submission = a_submission(**THIN)
    answer = send(client, submission, **typed)
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 400
    assert "Not stored yet" in said
    assert says in said
    for text in typed.values():
        assert f'value="{text}"' in said
    assert SheetVersion.objects.count() == 1


def test_a_double_click_stores_it_once(client: Client) -> None:
    submission = a_submission(**NO_DIRECTION)
    for _ in range(2):
        said = html.unescape(
            send(client, submission, answers__flange_direction="aft").content.decode()
        )
        assert "nothing is open any more" in said
    assert SheetVersion.objects.count() == 2


def test_what_the_desk_wrote_meanwhile_is_kept_and_so_is_what_was_typed(client: Client) -> None:
    submission = a_submission(**THIN)
    correct(submission, hub_length={"text": "3", "method": "caliper"})
    answer = send(client, submission, answers__dia_clean__text="1")
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 409
    assert "changed a moment ago" in said
    assert 'name="answers.dia_clean.text"' in said
    assert 'value="1"' in said
    assert Submission.objects.get().current.body["answers"]["hub_length"]["text"] == "3"
    assert SheetVersion.objects.count() == 2


@pytest.mark.parametrize("number", ["", "one"])
def test_a_page_made_by_hand_stores_nothing(client: Client, number: str) -> None:
    submission = a_submission(**NO_DIRECTION)
    answer = send(client, submission, sheet_number=number, answers__flange_direction="aft")
    assert answer.status_code == 400
    assert SheetVersion.objects.count() == 1


def test_other_doors_are_shut(client: Client) -> None:
    assert client.post(reverse("answer", args=["x" * 43]), {}).status_code == 404
    submission = a_submission(**NO_DIRECTION)
    assert client.get(reverse("answer", args=[submission.token])).status_code == 405


def test_a_question_is_asked_once_and_no_hint_of_another_drive(client: Client) -> None:
    said = page_of(client, a_submission(**THIN))
    assert said.count('name="answers.dia_clean.text"') == 1
    assert said.count("Please measure it afresh") == 2, "the diameter and the shell, not the thread"
    said = page_of(client, a_submission(**APART))
    assert "On such a drive" not in said
    assert 'name="answers.forward_datum.state"' not in said, '"not known" is one of its choices'


def test_know_how_and_the_guided_path_are_a_step_away(client: Client) -> None:
    said = page_of(client, a_submission(**NO_DIRECTION))
    assert f'href="{reverse("guided")}"' in said
    assert f'href="{reverse("know-index")}"' in said


# --- The quote ------------------------------------------------------------------------


def test_a_version_that_a_newer_one_replaced_is_not_accepted(client: Client) -> None:
    from quotes.services import issue_quote

    old = a_quote()
    submission = old.submission
    correct(submission, hub_length={"text": "2 7/8", "method": "caliper"})
    issue_quote(submission_id=submission.pk)
    typed = {"name": "Wilmot Tarpley", "confirm": ticked(old)}
    answer = client.post(reverse("accept", args=[submission.token, 1]), typed)
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 409
    assert "A newer version has taken this quote's place" in said
    assert 'value="Wilmot Tarpley"' in said
    assert "Accept version 2" in said
    assert "checked>" not in said, "what is to confirm is another paper now"
    old.refresh_from_db()
    assert old.status == "replaced"


def test_only_what_applies_is_to_be_confirmed(client: Client) -> None:
    said = page_of(client, a_quote().submission)
    assert "this is her only shaft" in said
    assert "The gap was taken with the coupling bolted up" in said
    side = {"name": "Otter", "station": "port"}
    no_gap = a_quote(
        boat_name_and_station=side, gap_now={"state": "cannot_measure"},
        without=("old_length_face_to_thread",),
        face_to_strut_aft={
            "text": "44 1/8", "method": "rod",
            "again": {"text": "54 1/8", "start_mark": "10", "method": "rod"},
        },
    )  # fmt: skip
    said = page_of(client, no_gap.submission)
    assert "the side named above" in said
    assert "The gap was taken" not in said


@pytest.mark.parametrize(
    ("typed", "stored"),
    [
        ({"why": "price"}, "price"),
        ({"why": "price", "reason": " too dear "}, "price: too dear"),
        ({"why": "made-up", "reason": "sold her"}, "sold her"),
    ],
)
def test_a_reason_is_chosen_or_written(client: Client, typed: Any, stored: str) -> None:
    quote = a_quote()
    client.post(reverse("decline", args=[quote.submission.token, 1]), typed)
    quote.refresh_from_db()
    assert (quote.status, quote.declined_reason) == ("declined", stored)
