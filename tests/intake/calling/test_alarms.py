"""Calls that should have been made: the manager is told once a day, by one mail, or not at all."""

from __future__ import annotations

import smtplib
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.core import mail
from django.core.mail import EmailMessage

from intake.calling import services
from intake.calling.alarms.services import raise_alarms
from intake.models import CallAlarm, Job, Submission
from tests.intake.calling.given import ROUTES, a_waiting
from tests.intake.test_services import at_once

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
Jobs = Callable[[], int]


@pytest.fixture(autouse=True)
def percivals_address(settings: Any) -> None:
    settings.CALL_ALARM_MAIL = "percival@example.org"
    settings.SITE_URL = "https://desk.example.org"


@pytest.fixture
def late() -> Submission:
    """One call that should have been made an hour before noon."""
    with time_machine.travel(NOON - timedelta(hours=25), tick=False):
        return a_waiting(needed="2026-12-24")


def test_one_mail_for_each_late_call_and_day(late: Submission, do_jobs: Jobs) -> None:
    with time_machine.travel(NOON, tick=False) as clock:
        assert [raise_alarms(), raise_alarms()] == [1, 0]
        do_jobs()
        do_jobs()
        assert len(mail.outbox) == 1
        clock.shift(timedelta(days=1))
        assert raise_alarms() == 1
        do_jobs()
    assert len(mail.outbox) == 2
    assert len({letter.extra_headers["Message-ID"] for letter in mail.outbox}) == 2


def test_the_mail_says_whom_to_call_and_why(late: Submission, do_jobs: Jobs) -> None:
    with time_machine.travel(NOON, tick=False):
        raise_alarms()
        do_jobs()
    (letter,) = mail.outbox
    assert letter.to == ["percival@example.org"]
    assert letter.subject == f"Not called yet: Thimble, {late.reference}"
    for told in ("25 Nov 2026, 11:00", late.call_why, "Needed by 24 Dec 2026", late.contact_phone):
        assert told in letter.body
    assert f"https://desk.example.org/desk/{late.reference}/" in letter.body


def test_what_is_not_late_yet_rings_nobody() -> None:
    a_waiting()
    assert raise_alarms() == 0


def test_without_an_address_nobody_is_told(late: Submission, settings: Any) -> None:
    settings.CALL_ALARM_MAIL = ""
    with time_machine.travel(NOON, tick=False):
        assert raise_alarms() == 0
    assert not CallAlarm.objects.exists()


def test_called_meanwhile_the_mail_stays(late: Submission, maud: User, do_jobs: Jobs) -> None:
    with time_machine.travel(NOON, tick=False):
        raise_alarms()
        services.record_call(
            submission=late,
            sheet_number=1,
            by=maud,
            check_id=ROUTES,
            outcome="not_reached",
            said_by="",
            again_at=NOON + timedelta(hours=2),
        )
        do_jobs()
    assert mail.outbox == []
    assert CallAlarm.objects.get().dropped == "called meanwhile"


def test_a_mail_server_that_refuses_is_asked_again(
    late: Submission, do_jobs: Jobs, monkeypatch: pytest.MonkeyPatch
) -> None:
    send = EmailMessage.send

    def refuse(*_: object, **__: object) -> int:
        raise smtplib.SMTPServerDisconnected("busy")

    with time_machine.travel(NOON, tick=False) as clock:
        raise_alarms()
        monkeypatch.setattr(EmailMessage, "send", refuse)
        do_jobs()
        monkeypatch.setattr(EmailMessage, "send", send)
        assert CallAlarm.objects.get().sending_at is None
        clock.shift(timedelta(minutes=6))
        do_jobs()
    assert len(mail.outbox) == 1
    assert CallAlarm.objects.get().sent_at is not None


def test_a_mail_that_may_have_left_is_not_sent_again(late: Submission, do_jobs: Jobs) -> None:
    with time_machine.travel(NOON, tick=False):
        raise_alarms()
        CallAlarm.objects.update(sending_at=NOON)  # the worker died while it spoke to the server
        do_jobs()
    assert mail.outbox == []


@pytest.mark.django_db(transaction=True)
def test_however_many_sweep_there_is_one_alarm(late: Submission) -> None:
    with time_machine.travel(NOON, tick=False):
        assert sorted(at_once(raise_alarms, 3)) == [0, 0, 1]
    assert (CallAlarm.objects.count(), Job.objects.filter(kind="call_alarm").count()) == (1, 1)
