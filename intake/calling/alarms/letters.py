"""The mail about one call that should have been made, written as it leaves."""

from __future__ import annotations

from django.conf import settings
from django.core.mail import EmailMessage
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import override

from intake.calling.models import CallAlarm


def write(alarm: CallAlarm) -> EmailMessage:
    """The whole mail, in English as every page of the staff. A copy of it shows as the same one."""
    submission = alarm.submission
    page = reverse("submission", args=[submission.reference])
    context = {
        "submission": submission,
        "boat": submission.boat_name or submission.reference,
        "link": str(settings.SITE_URL).rstrip("/") + page,
    }
    with override("en"):
        subject = render_to_string("intake/calling/mail/late_subject.txt", context)
        text = render_to_string("intake/calling/mail/late.txt", context)
    host = settings.SITE_URL.rpartition("/")[2].partition(":")[0] or "localhost"
    return EmailMessage(
        " ".join(subject.split()),
        text.strip() + "\n",
        to=[settings.CALL_ALARM_MAIL],
        headers={"Message-ID": f"<late-{submission.reference}-{alarm.day}@{host}>".lower()},
    )
