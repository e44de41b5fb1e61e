"""Raising an alarm for a cause, once while it stands, and answering it."""

from __future__ import annotations

from collections.abc import Callable

from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from intake.inserts import insert
from quotes.cost_model.selectors import costs_on
from quotes.domain.insight.alarms import Due, due
from quotes.insight import posting
from quotes.insight.alarms import letters, selectors
from quotes.insight.alarms.models import BACK, OFTEN
from quotes.models import CauseAlarm
from staff.trail.services import note_change

KIND = "cause_alarm"


class AlarmRefused(Exception):
    """What was typed is no answer; says why."""


def raise_alarms() -> int:
    """Raise what is due, and bring up to date what stands; how many are new. Safe to repeat."""
    today, costs = timezone.localdate(), costs_on()
    found = due(
        selectors.seen_since(selectors.window(today, costs.alarm_days)),
        selectors.answered_on(),
        today=today,
        after=costs.alarm_after,
        days=costs.alarm_days,
    )
    return sum(_raise(one) for one in found)


def _raise(one: Due) -> bool:
    with transaction.atomic():
        alarm = CauseAlarm(
            cause=one.cause,
            why=BACK if one.came_back else OFTEN,
            seen=one.seen,
            first_on=one.first_on,
            last_on=one.last_on,
        )
        if insert(alarm, unless_there=True):
            if settings.CAUSE_ALARM_MAIL:
                posting.ask(KIND, alarm.pk)
            return True
        stands = CauseAlarm.objects.filter(cause=one.cause, answered_at=None)
        stands.exclude(seen=one.seen, last_on=one.last_on).update(
            seen=one.seen, last_on=one.last_on
        )
    return False


def prepare(*, pk: int, go: int) -> Callable[[], object] | None:
    """Send the mail of one alarm, if it still stands and nobody has begun to."""
    alarm, mine = selectors.alarm(pk), CauseAlarm.objects.filter(pk=pk)
    if not settings.CAUSE_ALARM_MAIL or alarm.answered_at:
        why = "answered meanwhile" if alarm.answered_at else "nobody is to be told"
        return lambda: mine.filter(sending_at=None).update(dropped=why)
    return posting.send_once(mine, letters.write(alarm), kind=KIND, pk=pk, go=go)


def answer(*, alarm: CauseAlarm, by: User, words: str) -> bool:
    """A manager says what is done about it; False where somebody has answered already.

    Raises AlarmRefused without words.
    """
    words = words.strip()
    if not words:
        raise AlarmRefused("Say what is done about it, so that others know in a year.")
    with transaction.atomic():
        stands = CauseAlarm.objects.filter(pk=alarm.pk, answered_at=None)
        if not stands.update(answered_at=timezone.now(), answered_by=by, words=words):
            return False
        note_change(
            record="cause alarm",
            key=alarm.cause,
            by=by,
            why=words,
            before={"stands": True},
            after={"stands": False},
        )
    return True
