"""The mail about one cause, written as it leaves."""

from __future__ import annotations

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import override

from quotes.cost_model.selectors import costs_on
from quotes.insight.pages.base import cause_label
from quotes.insight.posting import address, message_id
from quotes.models import CauseAlarm


def write(alarm: CauseAlarm) -> EmailMultiAlternatives:
    """The whole mail, in English as every page of the staff."""
    context = {
        "alarm": alarm,
        "cause": cause_label(alarm.cause),
        "days": costs_on().alarm_days,
        "link": address(reverse("cause-alarms")),
    }
    with override("en"):
        subject = render_to_string("quotes/insight/mail/alarm_subject.txt", context)
        text = render_to_string("quotes/insight/mail/alarm.txt", context)
    return EmailMultiAlternatives(
        " ".join(subject.split()),
        text.strip() + "\n",
        to=[settings.CAUSE_ALARM_MAIL],
        headers=message_id(f"cause-alarm-{alarm.pk}"),
    )
