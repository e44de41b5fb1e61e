"""Who has a call-back, and numbers that were read once more without seeing the first."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone


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
