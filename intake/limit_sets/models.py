"""The limits the checks go by, set after set."""

from __future__ import annotations

from uuid import uuid4

from django.conf import settings
from django.db import models
from django.utils import timezone

from intake.fields import KeptJSON


class LimitSet(models.Model):
    """The limits the checks go by from one day on. Never edited: a change is a new row.

    ``values`` holds only what differs from the defaults in the code, as exact text.
    """

    number = models.PositiveIntegerField()
    name = models.CharField(max_length=20)
    reason = models.CharField(max_length=400)
    adopted_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", db_index=False
    )
    adopted_at = models.DateTimeField(default=timezone.now)
    values = KeptJSON(default=dict)
    cause_counts = KeptJSON(default=dict)
    # What a cache goes by: a number alone comes twice when a transaction is rolled back.
    stamp = models.UUIDField(default=uuid4)

    class Meta:
        app_label = "intake"
        ordering = ["-number"]  # newest first
        constraints = [
            models.UniqueConstraint(fields=["number"], name="one_limit_set_of_each_number"),
            models.UniqueConstraint(fields=["name"], name="one_limit_set_of_each_name"),
        ]

    def __str__(self) -> str:
        return self.name
