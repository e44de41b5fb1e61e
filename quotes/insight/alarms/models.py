"""A cause that comes back, told of once while it stands."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone

OFTEN, BACK = "often", "back"


class CauseAlarm(models.Model):
    """One cause that was seen too often, or again after it was answered.

    ``seen``: how many mistakes from ``first_on`` to ``last_on``. It stands until ``answered_at``.
    ``sending_at`` is set before the mail server is spoken to, and taken back when it refuses.
    """

    cause = models.CharField(max_length=16)
    why = models.CharField(max_length=5, choices=[(OFTEN, "seen often"), (BACK, "came back")])
    seen = models.PositiveIntegerField()
    first_on = models.DateField()
    last_on = models.DateField()
    raised_at = models.DateTimeField(default=timezone.now)
    answered_at = models.DateTimeField(null=True, blank=True)
    answered_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    words = models.TextField(blank=True)
    sending_at = models.DateTimeField(null=True, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    dropped = models.CharField(max_length=60, blank=True)

    class Meta:
        app_label = "quotes"
        constraints = [
            models.UniqueConstraint(
                fields=["cause"],
                condition=models.Q(answered_at=None),
                name="one_standing_alarm_a_cause",
            )
        ]
        indexes = [models.Index(fields=["cause", "answered_at"], name="alarm_by_answer")]

    def __str__(self) -> str:
        return f"{self.cause}: {self.seen}"
