"""Which alarms are to be raised, and which are to leave."""

from __future__ import annotations

from datetime import date

from intake.calling.models import CallAlarm
from intake.calling.selectors import late

AT_ONCE = 200


def to_raise(day: date) -> list[int]:
    """Requests that are late and of which nobody was told on this day, the most pressing first."""
    told = CallAlarm.objects.filter(day=day).values("submission")
    return list(late().exclude(pk__in=told).values_list("pk", flat=True)[:AT_ONCE])


def alarm_to_send(pk: int) -> CallAlarm | None:
    """An alarm that nobody has begun to send, with its request."""
    open_ones = CallAlarm.objects.filter(sending_at=None, sent_at=None, dropped="")
    return open_ones.select_related("submission").filter(pk=pk).first()


def is_late(submission_id: int) -> bool:
    """Whether the call has not been made yet."""
    return late().filter(pk=submission_id).exists()
