"""The week the shop works, and the days it is closed besides."""

from __future__ import annotations

from uuid import uuid4

from django.conf import settings
from django.db import models
from django.utils import timezone


class ShopWeek(models.Model):
    """One row: the weekdays that are worked, "01234" is Monday to Friday.

    Its stamp moves with every change of the week or of a closed day.
    """

    open_days = models.CharField(max_length=7, default="01234")
    stamp = models.UUIDField(default=uuid4)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return self.open_days


class ClosedDay(models.Model):
    """A day that is not worked though its weekday is, and why."""

    day = models.DateField(unique=True)
    why = models.CharField(max_length=120)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["day"]

    def __str__(self) -> str:
        return f"{self.day.isoformat()}: {self.why}"
