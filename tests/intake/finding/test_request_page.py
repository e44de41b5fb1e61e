"""The page of one request: what to do next on top, and what became of every question."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.calling.services import claim, record_call
from intake.finding.request.next_step import next_step
from intake.models import Submission
from intake.selectors import current_sheet
from tests.intake.desk_given import a_person, stock_the_shelf
from tests.intake.finding.given import a_request, indexed, measured, queries

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def parts_on_the_shelf(db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


@pytest.fixture
def counter(client: Client) -> Client:
    client.force_login(a_person("counter", "maud"))
    return client


def page_of(client: Client, submission: Submission, origin: str = "") -> str:
    address = reverse("submission", args=[submission.reference])
    return client.get(f"{address}{origin}").content.decode()


def an_inch_out() -> Submission:
    return a_request("Slow Tide", face_to_strut_aft=measured("45 1/8", "rod"))


def call(submission: Submission, outcome: str, *, by: str = "iolo", **told: object) -> None:
    sheet = current_sheet(submission)
    rights = "manager" if outcome == "overridden" else "counter"
    record_call(
        submission=submission,
        sheet_number=sheet.number,
        by=a_person(rights, by),
        check_id=sheet.outcome["findings"][0]["check"],
        outcome=outcome,
        said_by="Wilmot Tarpley",
        **told,  # type: ignore[arg-type]
    )


@pytest.mark.parametrize(
    ("status", "says"),
    [
        ("received", "being judged"),
        ("ready", "Send the quote"),
        ("quoted", "Wait for the customer"),
        ("accepted", "The shop goes on"),
        ("declined", "Quote again"),
        ("lapsed", "still need it"),
        ("withdrawn", "Nothing is left to do"),
        ("needs_call", "Call and ask"),
    ],
)
def test_every_status_says_what_to_do_next(status: str, says: str) -> None:
    assert says in next_step(Submission(status=status), timezone.now()).sentence


@pytest.mark.parametrize(
    ("call_by", "not_before", "says", "late"),
    [(3, None, "Call by", False), (-3, None, "Late", True), (-3, 2, "Call again from", False)],
)
def test_a_call_says_when(call_by: int, not_before: int | None, says: str, late: bool) -> None:
    now = timezone.now()
    held = Submission(
        status="needs_call",
        call_by=now + timedelta(hours=call_by),
        not_before=now + timedelta(hours=not_before) if not_before else None,
    )
    step = next_step(held, now)
    assert step.sentence.startswith(says)
    assert step.late is late


def test_what_to_do_next_comes_before_everything_else(counter: Client) -> None:
    page = page_of(counter, an_inch_out())
    assert page.index('id="next-h"') < page.index("<figure") < page.index("Sheet, version 1")
    assert page.index("Sheet, version 1") < page.index("History")
    assert ">I call</button>" in page


def test_an_open_question_is_open(counter: Client) -> None:
    page = page_of(counter, an_inch_out())
    assert "What became of each question" not in page  # all of it is above, with its button
    assert "Record the answer" in page


def test_a_corrected_answer_is_answered(counter: Client) -> None:
    held = an_inch_out()
    answers = {"face_to_strut_aft": measured("44 1/8", "rod")}
    call(held, "corrected", cause="R-BURN-X", answers=answers)
    page = page_of(counter, held)
    assert '<span class="tag">answered</span>' in page
    assert "iolo" in page
    assert '<span class="tag">open</span>' not in page


def test_a_call_that_reached_nobody_answers_nothing(counter: Client) -> None:
    held = an_inch_out()
    call(held, "not_reached", note="Engaged")
    page = page_of(counter, held)
    assert '<span class="tag">answered</span>' not in page
    assert "Engaged" in page  # it stands in the history


def test_a_release_over_a_finding_says_by_whom_and_why(counter: Client) -> None:
    held = an_inch_out()
    call(held, "overridden", by="percival", cause="K-SKIPPED", note="Spare shaft, cut on site")
    page = page_of(counter, held)
    assert '<span class="tag">released over</span>' in page
    assert "percival" in page
    assert "“Spare shaft, cut on site”" in page


def test_who_may_only_read_is_offered_nothing_to_do(client: Client) -> None:
    client.force_login(a_person("machinist", "bronagh"))
    page = page_of(client, an_inch_out())
    assert ">I call</button>" not in page
    assert "take-up" not in page


def test_one_gives_back_or_takes_over_a_call_from_here(counter: Client) -> None:
    held = an_inch_out()
    iolo = a_person("counter", "iolo")
    claim(submission=held, by=iolo)
    page = page_of(counter, held)
    assert "iolo has this call until" in page
    assert reverse("call-take-over", args=[held.reference]) in page
    assert reverse("call-give-back", args=[held.reference]) not in page
    counter.force_login(iolo)
    page = page_of(counter, held)
    assert "You have this call until" in page
    assert reverse("call-give-back", args=[held.reference]) in page
    assert reverse("call-take-over", args=[held.reference]) not in page


def test_one_turns_the_pages_of_the_list_one_came_from(counter: Client) -> None:
    first, middle, last = indexed(a_request("Ant"), a_request("Bee"), a_request("Cat"))
    page = page_of(counter, middle, "?list=sort%3Dboat")
    assert f'rel="prev" aria-keyshortcuts="Alt+PageUp" href="/desk/{first.reference}/' in page
    assert f'rel="next" aria-keyshortcuts="Alt+PageDown" href="/desk/{last.reference}/' in page
    newest = page_of(counter, middle, "?list=")
    assert f'rel="prev" aria-keyshortcuts="Alt+PageUp" href="/desk/{last.reference}/' in newest
    alone = page_of(counter, middle, "?list=q%3Dbee")
    assert 'rel="prev"' not in alone
    assert 'rel="next"' not in alone


@pytest.mark.parametrize("origin", ["%00", "q=%22&sort=x&after=abc", "status=nonsense", "a" * 5000])
def test_any_list_may_be_named(counter: Client, origin: str) -> None:
    address = reverse("submission", args=[an_inch_out().reference])
    assert counter.get(address, {"list": origin}).status_code == 200


def test_the_page_costs_the_same_however_long_its_history(counter: Client) -> None:
    held = an_inch_out()
    indexed(a_request("Ant"), a_request("Bee"))
    address = f"{reverse('submission', args=[held.reference])}?list=sort%3Dboat"
    few = queries(counter, address)
    call(held, "not_reached", note="Engaged", by="odo")
    call(held, "not_reached", note="Engaged again", by="ida")
    assert few == queries(counter, address) <= 22
