"""Costs and targets, set after set."""

from __future__ import annotations

from uuid import uuid4

from django.conf import settings
from django.db import models
from django.utils import timezone

from intake.fields import KeptJSON


class CostSet(models.Model):
    """Costs and targets that are changed from one day on. Never edited: a change is a new row.

    ``values`` holds only what this set changes, as exact text. In force on a day are the usual
    figures and, over them, every set whose day has come, by day and number.
    """

    number = models.PositiveIntegerField()
    name = models.CharField(max_length=40)
    from_day = models.DateField()
    reason = models.CharField(max_length=400)
    adopted_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", db_index=False
    )
    adopted_at = models.DateTimeField(default=timezone.now)
    values = KeptJSON(default=dict)
    stamp = models.UUIDField(default=uuid4)

    class Meta:
        app_label = "quotes"
        ordering = ["-number"]  # newest first
        constraints = [
            models.UniqueConstraint(fields=["number"], name="one_cost_set_of_each_number"),
            models.UniqueConstraint(fields=["name"], name="one_cost_set_of_each_name"),
        ]

    def __str__(self) -> str:
        return self.name
