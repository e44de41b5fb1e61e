"""Telling the manager of each call that should have been made: once a day, by one mail."""

from __future__ import annotations

import logging
from collections.abc import Callable
from datetime import timedelta

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from intake.calling.alarms import letters, selectors
from intake.calling.models import CallAlarm
from intake.inserts import insert
from intake.jobs import enqueue

log = logging.getLogger(__name__)

FIRST_PAUSE, LONGEST_PAUSE = timedelta(minutes=5), timedelta(hours=1)
TRIES = 24  # about a day of a mail server that does not answer; then there is a new alarm


def raise_alarms() -> int:
    """Ask for a mail about each late call, once a day however many ask; say how many were new."""
    if not settings.CALL_ALARM_MAIL:
        return 0
    day = timezone.localdate()
    new = 0
    for pk in selectors.to_raise(day):
        with transaction.atomic():
            alarm = CallAlarm(submission_id=pk, day=day)
            if insert(alarm, unless_there=True):
                _ask(alarm.pk, 1)
                new += 1
    return new


def _ask(alarm_id: int, go: int, wait: timedelta = timedelta(0)) -> None:
    enqueue(
        kind="call_alarm",
        payload={"alarm_id": alarm_id, "go": go},
        key=f"call_alarm:{alarm_id}:{go}",
        due=timezone.now() + wait,
    )


def prepare_alarm(*, alarm_id: int, go: int) -> Callable[[], object] | None:
    """Send one alarm, if nobody has begun to and the call was not made meanwhile.

    The conditional update is the lock: of two workers one sends. Should the worker die between
    that and the server's answer, the mail may have left, so it is not sent again.
    """
    alarm = selectors.alarm_to_send(alarm_id)
    if alarm is None:
        return None
    mine = CallAlarm.objects.filter(pk=alarm_id)
    if why := _not_wanted(alarm):
        return lambda: mine.filter(sent_at=None).update(dropped=why)
    letter = letters.write(alarm)  # before the lock: what cannot be written was not sent
    if not mine.filter(sending_at=None).update(sending_at=timezone.now()):
        return None
    try:
        letter.send()
    except OSError as error:  # smtplib's errors are OSErrors too
        mine.update(sending_at=None)
        return _later(alarm_id, go, error)
    return lambda: mine.update(sent_at=timezone.now())


def _not_wanted(alarm: CallAlarm) -> str:
    if not settings.CALL_ALARM_MAIL:
        return "nobody is to be told"
    return "" if selectors.is_late(alarm.submission_id) else "called meanwhile"


def _later(alarm_id: int, go: int, error: OSError) -> Callable[[], object]:
    """Ask the mail server again: a job of its own, so that hours of silence lose nothing."""
    if go >= TRIES:
        raise error
    log.warning("Alarm %s did not leave (%s), try %s", alarm_id, error, go)
    wait = min(FIRST_PAUSE * go, LONGEST_PAUSE)
    return lambda: _ask(alarm_id, go + 1, wait)
