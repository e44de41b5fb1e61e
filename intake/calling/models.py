"""Who has a call-back, numbers that were read once more unseen, and calls that came too late."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

OUTCOMES = [
    ("corrected", _("corrected")),
    ("confirmed", _("confirmed as it stands")),
    ("cannot_measure", _("cannot be measured")),
    ("not_reached", _("not reached")),
    ("withdrawn", _("withdrawn")),
    ("overridden", _("released over it")),
]


class CallClaim(models.Model):
    """One person has this call-back until then; the lease returns by itself."""

    submission = models.OneToOneField("intake.Submission", models.CASCADE, related_name="claim")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    since = models.DateTimeField(default=timezone.now)
    until = models.DateTimeField()

    class Meta:
        app_label = "intake"

    def __str__(self) -> str:
        return f"{self.submission_id} until {self.until:%H:%M}"


class BlindReading(models.Model):
    """A number typed before the first one was shown: both as typed, and who took it down."""

    submission = models.ForeignKey(
        "intake.Submission", models.CASCADE, related_name="blind_readings"
    )
    sheet = models.ForeignKey("intake.SheetVersion", models.CASCADE, related_name="+")
    answer = models.CharField(max_length=40)
    first = models.CharField(max_length=200)
    second = models.CharField(max_length=200)
    difference_nm = models.BigIntegerField(null=True, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "intake"
        ordering = ["at", "pk"]

    def __str__(self) -> str:
        return f"{self.answer}: {self.second}"


class CallAlarm(models.Model):
    """A call that should have been made: the manager is told once a day, while it waits.

    ``sending_at`` is set before the mail server is spoken to, and taken back when it refuses: a
    mail that may have left is never sent again.
    """

    submission = models.ForeignKey("intake.Submission", models.CASCADE, related_name="alarms")
    day = models.DateField()
    sending_at = models.DateTimeField(null=True, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    dropped = models.CharField(max_length=60, blank=True)  # why it was not sent after all

    class Meta:
        app_label = "intake"
        ordering = ["-day", "-pk"]
        constraints = [
            models.UniqueConstraint(fields=["submission", "day"], name="one_alarm_a_day")
        ]

    def __str__(self) -> str:
        return f"{self.submission_id} on {self.day}"


class CallRecord(models.Model):
    """A question put to a person, what came of it, and why the number had been wrong."""

    submission = models.ForeignKey("intake.Submission", models.CASCADE, related_name="calls")
    sheet = models.ForeignKey("intake.SheetVersion", models.CASCADE, related_name="calls")
    check_id = models.CharField(max_length=40)
    answer = models.CharField(max_length=40, blank=True)
    question_as_asked = models.TextField(blank=True)
    outcome = models.CharField(max_length=14, choices=OUTCOMES)
    said_by = models.CharField(max_length=200, blank=True)
    cause = models.CharField(max_length=16, blank=True)
    contributing = models.JSONField(default=list, blank=True)
    note = models.TextField(blank=True)
    again_at = models.DateTimeField(null=True, blank=True)  # nobody was reached: try again then
    fingerprint = models.CharField(max_length=64, blank=True)
    month = models.CharField(max_length=7)
    channel = models.CharField(max_length=5)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+", db_index=False
    )
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "intake"
        ordering = ["at", "pk"]
        indexes = [
            models.Index(fields=["month", "cause", "channel"], name="call_by_cause"),
            models.Index(fields=["at"], name="call_by_time"),
            models.Index(fields=["by", "at"], name="call_by_person"),
        ]

    def __str__(self) -> str:
        return f"{self.check_id}: {self.outcome}"
