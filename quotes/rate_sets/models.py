"""The desk's rates, dated: what a price is made of besides the catalogue, from which day."""

from __future__ import annotations

from uuid import uuid4

from django.conf import settings
from django.db import models
from django.utils import timezone

from intake.fields import KeptJSON


class RateSet(models.Model):
    """Rates that are changed from one day on. Never edited: a change is a new row.

    ``values`` holds only what this set changes, as exact text. In force on a day are the settings
    and, over them, every set whose day has come, in the order of their days (of one day, of their
    numbers). So a set for next year does not take back what is changed before.
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
    # What a cache goes by: a number alone comes twice when a transaction is rolled back.
    stamp = models.UUIDField(default=uuid4)

    class Meta:
        app_label = "quotes"
        ordering = ["-number"]  # newest first
        constraints = [
            models.UniqueConstraint(fields=["number"], name="one_rate_set_of_each_number"),
            models.UniqueConstraint(fields=["name"], name="one_rate_set_of_each_name"),
        ]

    def __str__(self) -> str:
        return self.name
