"""Causes that come back: one alarm while it stands, one mail, and an answer with words."""

from __future__ import annotations

import smtplib
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
import time_machine
from django.core import mail
from django.urls import reverse

from quotes.domain.insight.alarms import Due, Seen, due
from quotes.insight import posting
from quotes.insight.alarms.selectors import answered_on, standing_alarms
from quotes.insight.alarms.services import AlarmRefused, answer, prepare, raise_alarms
from quotes.insight.gathering.services import gather
from quotes.models import CauseAlarm, MismatchFact, RequestFact
from staff.models import Change
from tests.intake.test_services import at_once
from tests.quotes.given import a_quoter, a_submission, stock_the_shelf
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
TODAY = NOON.date()
Jobs = Callable[[], int]


@pytest.fixture(autouse=True)
def percivals_address(settings: Any) -> None:
    settings.CAUSE_ALARM_MAIL = "percival@example.org"
    settings.SITE_URL = "https://desk.example.org"


@pytest.fixture
def fact() -> RequestFact:
    stock_the_shelf()
    submission = a_submission()
    gather([submission.pk])
    return RequestFact.objects.get(pk=submission.pk)


def seen(fact: RequestFact, *days_ago: int, cause: str = "G-BLADE", again: str = "") -> None:
    for days in days_ago:
        on = TODAY - timedelta(days=days)
        MismatchFact.objects.create(
            fact=fact, month=f"{on:%Y-%m}", on=on, cause=cause, found="at_fitting", again=again
        )


# --- When one is due --------------------------------------------------------------------


def mistakes(*days_ago: int, again: bool = False, cause: str = "G-BLADE") -> list[Seen]:
    return [Seen(TODAY - timedelta(days=days), cause, again) for days in days_ago]


def due_now(rows: list[Seen], answered: dict[str, date] | None = None) -> list[Due]:
    return due(rows, answered or {}, today=TODAY, after=3, days=90)


def test_three_in_ninety_days_are_told_of_and_two_are_not() -> None:
    assert due_now(mistakes(1, 2)) == []
    (one,) = due_now(mistakes(1, 2, 89))
    assert (one.seen, one.came_back) == (3, False)
    assert due_now(mistakes(1, 2, 90)) == []


def test_what_is_not_known_is_no_cause() -> None:
    assert due_now(mistakes(1, 2, 3, cause="X")) == []


def test_after_an_answer_it_begins_anew_but_one_that_repeats_is_enough() -> None:
    answered = {"G-BLADE": TODAY - timedelta(days=10)}
    assert due_now(mistakes(11, 12, 13, 10), answered) == []
    assert due_now(mistakes(5), answered) == []
    (back,) = due_now(mistakes(5, again=True), answered)
    assert back.came_back


# --- Rows and mails ---------------------------------------------------------------------


@time_machine.travel(NOON, tick=False)
def test_one_alarm_and_one_mail_while_it_stands(fact: RequestFact, do_jobs: Jobs) -> None:
    seen(fact, 1, 2, 3)
    assert [raise_alarms(), raise_alarms()] == [1, 0]
    do_jobs()
    seen(fact, 0)
    assert raise_alarms() == 0
    do_jobs()
    (letter,) = mail.outbox
    assert letter.to == ["percival@example.org"]
    assert "(G-BLADE)" in letter.subject
    assert "3 mistakes, from 22 Nov 2026 to 24 Nov 2026." in letter.body
    assert f"https://desk.example.org{reverse('cause-alarms')}" in letter.body
    (standing,) = standing_alarms()
    assert (standing.seen, standing.last_on, standing.sent_at) == (4, TODAY, NOON)


@time_machine.travel(NOON, tick=False)
def test_without_an_address_it_stands_all_the_same(
    fact: RequestFact, do_jobs: Jobs, settings: Any
) -> None:
    settings.CAUSE_ALARM_MAIL = ""
    seen(fact, 1, 2, 3)
    assert raise_alarms() == 1
    do_jobs()
    assert mail.outbox == []
    assert len(standing_alarms()) == 1


def test_a_server_that_refuses_is_asked_again_and_one_that_fell_silent_is_not(
    fact: RequestFact, do_jobs: Jobs, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_server(_: object) -> None:
        raise smtplib.SMTPConnectError(421, "busy")

    with time_machine.travel(NOON, tick=False) as clock:
        seen(fact, 1, 2, 3)
        raise_alarms()
        real = posting.hand_over
        monkeypatch.setattr(posting, "hand_over", no_server)
        do_jobs()
        monkeypatch.setattr(posting, "hand_over", real)
        clock.shift(timedelta(minutes=6))
        do_jobs()
        assert len(mail.outbox) == 1
        CauseAlarm.objects.update(sent_at=None)  # the worker died while it spoke to the server
        assert prepare(pk=CauseAlarm.objects.get().pk, go=9) is None
    assert len(mail.outbox) == 1


@time_machine.travel(NOON, tick=False)
def test_an_answer_has_words_is_given_once_and_leaves_a_line(fact: RequestFact) -> None:
    seen(fact, 1, 2, 3)
    raise_alarms()
    (alarm,) = standing_alarms()
    percival = a_quoter("percival")
    with pytest.raises(AlarmRefused):
        answer(alarm=alarm, by=percival, words="  ")
    assert answer(alarm=alarm, by=percival, words="A drill shank goes with each gauge.")
    assert not answer(alarm=alarm, by=percival, words="Something else.")
    assert standing_alarms() == []
    assert answered_on() == {"G-BLADE": TODAY}
    assert Change.objects.get(record="cause alarm").why == "A drill shank goes with each gauge."
    assert raise_alarms() == 0


def test_back_after_an_answer_it_is_told_of_at_once(fact: RequestFact, do_jobs: Jobs) -> None:
    with time_machine.travel(NOON, tick=False):
        seen(fact, 1, 2, 3)
        raise_alarms()
        answer(alarm=standing_alarms()[0], by=a_quoter("percival"), words="Seen.")
    with time_machine.travel(NOON + timedelta(days=5), tick=False):
        seen(fact, -4, again="q")
        assert raise_alarms() == 1
        do_jobs()
    assert standing_alarms()[0].why == "back"
    assert mail.outbox[-1].subject.startswith("It is back:")


@time_machine.travel(NOON, tick=False)
def test_the_page_takes_an_answer_and_says_what_is_missing(fact: RequestFact) -> None:
    seen(fact, 1, 2, 3)
    raise_alarms()
    client: Any = logged_in(a_member("percival", "manager"))
    page = reverse("answer-alarm", args=[standing_alarms()[0].pk])
    empty = client.post(page, {"words": ""})
    assert empty.status_code == 400
    assert "Say what is done about it" in empty.content.decode()
    client.post(page, {"words": "A drill shank goes with each gauge."})
    assert "A drill shank goes" in client.get(reverse("cause-alarms")).content.decode()


@pytest.mark.django_db(transaction=True)
def test_however_many_look_there_is_one_alarm(fact: RequestFact) -> None:
    seen(fact, 1, 2, 3)
    with time_machine.travel(NOON, tick=False):
        assert sorted(at_once(raise_alarms, 3)) == [0, 0, 1]
    assert CauseAlarm.objects.count() == 1
