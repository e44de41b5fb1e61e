"""What was seen lately, and which alarms stand."""

from __future__ import annotations

from datetime import date, timedelta

from django.db.models import Max
from django.utils import timezone

from quotes.domain.insight.alarms import Seen
from quotes.models import CauseAlarm, MismatchFact

_MOST = 100


def standing_alarms() -> list[CauseAlarm]:
    """Alarms nobody has answered, newest first: one query."""
    return list(CauseAlarm.objects.filter(answered_at=None).order_by("-raised_at", "-pk")[:_MOST])


def answered_alarms() -> list[CauseAlarm]:
    """The last ones that were answered, with what was said."""
    done = CauseAlarm.objects.exclude(answered_at=None).select_related("answered_by")
    return list(done.order_by("-answered_at", "-pk")[:_MOST])


def alarms_between(first: date, last: date) -> list[CauseAlarm]:
    """Alarms that were raised from one day to another, oldest first."""
    raised = CauseAlarm.objects.filter(raised_at__date__range=(first, last))
    return list(raised.order_by("raised_at", "pk")[:_MOST])


def alarm(pk: int) -> CauseAlarm:
    """One alarm. Raises CauseAlarm.DoesNotExist."""
    return CauseAlarm.objects.select_related("answered_by").get(pk=pk)


def seen_since(first: date) -> list[Seen]:
    """Every mistake that came to light from a day on."""
    rows = MismatchFact.objects.filter(on__gte=first).order_by("on", "pk")
    return [Seen(on, cause, bool(again)) for on, cause, again in rows.values_list(*_SEEN)]


_SEEN = ("on", "cause", "again")


def answered_on() -> dict[str, date]:
    """The last day each cause was answered."""
    done = CauseAlarm.objects.exclude(answered_at=None).order_by().values_list("cause")
    return {cause: timezone.localdate(at) for cause, at in done.annotate(Max("answered_at"))}


def window(today: date, days: int) -> date:
    """The first day that is looked at."""
    return today - timedelta(days=days)
