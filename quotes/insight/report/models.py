"""That a month's report was sent, once."""

from __future__ import annotations

from django.db import models
from django.utils import timezone


class MonthlyReport(models.Model):
    """A month ("2026-04") whose report was asked for by mail.

    ``sending_at`` is set before the mail server is spoken to, and taken back when it refuses.
    """

    month = models.CharField(max_length=7, unique=True)
    asked_at = models.DateTimeField(default=timezone.now)
    sending_at = models.DateTimeField(null=True, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    dropped = models.CharField(max_length=60, blank=True)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return self.month
