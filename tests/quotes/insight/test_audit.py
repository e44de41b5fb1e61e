"""Audit calls: who is drawn, what is written down once, and what is counted of it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from intake.calling.models import BlindReading
from intake.domain.shares import wilson
from intake.models import Submission
from quotes.domain.insight.draw import is_drawn
from quotes.insight.audit import selectors, services
from quotes.insight.audit.services import AuditRefused, draw, forget_audit_calls, record
from quotes.insight.gathering.services import gather
from quotes.models import AuditCall, AuditSalt, RequestFact
from tests.intake.calling.given import a_waiting
from tests.intake.desk_given import stock_the_shelf
from tests.intake.test_services import at_once
from tests.quotes.given import a_quoter, a_submission
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
Jobs = Callable[[], int]


@pytest.fixture
def clean() -> Submission:
    stock_the_shelf()
    submission = a_submission()
    gather([submission.pk])
    return submission


@pytest.fixture
def everybody_is_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(services, "is_drawn", lambda salt, key: True)


@pytest.fixture
def call(clean: Submission) -> AuditCall:
    return AuditCall.objects.create(submission=clean)


@pytest.fixture
def maud() -> User:
    return a_quoter()


def test_one_in_twenty_is_drawn_and_another_salt_draws_others() -> None:
    drawn = {key for key in range(20_000) if is_drawn("a salt", key)}
    low, high = wilson(len(drawn), 20_000, z=4.0)  # a chance in 16 000 of being wrong, and fixed
    assert low < 1 / 20 < high
    others = {key for key in range(20_000) if is_drawn("another", key)}
    assert len(drawn & others) < 100  # 50 expected


@pytest.mark.usefixtures("everybody_is_drawn")
def test_what_nothing_held_is_drawn_once_and_what_was_held_never(clean: Submission) -> None:
    gather([a_waiting().pk])
    assert [draw(), draw()] == [1, 0]
    assert AuditCall.objects.get().submission == clean
    assert AuditSalt.objects.count() == 1
    assert len(selectors.salt()) == 64


def test_without_luck_nobody_is_drawn(clean: Submission, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(services, "is_drawn", lambda salt, key: False)
    assert draw() == 0


def test_the_first_word_on_a_call_stands(call: AuditCall, maud: User) -> None:
    assert record(call=call, by=maud, outcome="not_reached")
    assert record(call=call, by=maud, outcome="wrong", cause="G-BLADE", answer="gap_now")
    assert not record(call=call, by=maud, outcome="right")
    call.refresh_from_db()
    assert (call.outcome, call.cause, call.answer) == ("wrong", "G-BLADE", "gap_now")


def test_a_mistake_needs_its_cause_and_every_call_its_outcome(call: AuditCall, maud: User) -> None:
    for typed in ({"outcome": "wrong"}, {"outcome": ""}, {"outcome": "wrong", "cause": "Z-ZZZ"}):
        with pytest.raises(AuditRefused):
            record(call=call, by=maud, **typed)
    call.refresh_from_db()
    assert call.outcome == ""


@pytest.mark.parametrize(
    ("outcome", "counted"), [("right", False), ("wrong", True), ("declined", None)]
)
def test_facts_tell_what_the_call_found(
    call: AuditCall, maud: User, do_jobs: Jobs, outcome: str, counted: bool | None
) -> None:
    record(call=call, by=maud, outcome=outcome, cause="X")
    do_jobs()
    fact = RequestFact.objects.get(pk=call.submission_id)
    assert (fact.audited, fact.audit_wrong) == (True, counted)


def test_the_card_asks_blind_and_compares_only_then(call: AuditCall) -> None:
    client, page = logged_in(a_member("maud", "counter")), _card(call)
    first = client.get(page).content.decode()
    assert "answers.gap_now.text" in first
    assert "then," not in first
    sent = {"compare": "1", "answers.gap_now.text": "7/8", "answers.gap_now.method": "drill_shank"}
    both = client.post(page, sent).content.decode()
    assert "then," in both
    assert BlindReading.objects.get().second.startswith("7/8")
    client.post(page, sent)
    assert BlindReading.objects.count() == 1  # the same number sent twice is one reading


def test_a_wrong_one_leads_to_where_it_is_corrected(call: AuditCall) -> None:
    client, page = logged_in(a_member("maud", "counter")), _card(call)
    sent = {"outcome": "wrong", "cause": "G-BLADE", "answer": "gap_now", "note": "a blade"}
    shown = client.post(page, sent, follow=True).content.decode()
    assert reverse("take-up", args=[call.submission.reference]) in shown
    again = client.post(page, {"outcome": "right"}, follow=True).content.decode()
    assert "written down already" in again


def test_what_was_typed_is_shown_again_with_the_error(call: AuditCall) -> None:
    client = logged_in(a_member("maud", "counter"))
    answer = client.post(_card(call), {"outcome": "wrong", "note": "they said so"})
    assert answer.status_code == 400
    assert "they said so" in answer.content.decode()
    assert "Say why it was wrong" in answer.content.decode()


def test_the_list_goes_on_page_by_page_in_two_queries(
    monkeypatch: pytest.MonkeyPatch, django_assert_num_queries: Any
) -> None:
    stock_the_shelf()
    monkeypatch.setattr(selectors, "PAGE", 2)
    rows = [AuditCall.objects.create(submission=a_waiting(f"Boat {at}")) for at in range(3)]
    with django_assert_num_queries(2):
        first = selectors.to_make("open")
        rest = selectors.to_make("open", first.after)
    assert [*first.calls, *rest.calls] == rows
    assert rest.after is None


def test_what_was_said_is_forgotten_and_what_was_found_stays(call: AuditCall, maud: User) -> None:
    record(call=call, by=maud, outcome="wrong", cause="X", note="Wilmot said so")
    forget_audit_calls([call.submission_id])
    call.refresh_from_db()
    assert (call.note, call.outcome) == ("", "wrong")


@pytest.mark.django_db(transaction=True)
def test_of_two_at_once_one_is_written_down(clean: Submission, maud: User) -> None:
    call = AuditCall.objects.create(submission=clean)
    done = at_once(lambda: record(call=call, by=maud, outcome="right"), 2)
    assert sorted(done) == [False, True]


def _card(call: AuditCall) -> str:
    return reverse("audit-call", args=[call.submission.reference])


def test_a_request_that_was_not_drawn_has_no_card(client: Client, clean: Submission) -> None:
    client = logged_in(a_member("maud", "counter"))
    assert client.get(reverse("audit-call", args=[clean.reference])).status_code == 404
