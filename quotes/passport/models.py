"""The tag on a shaft: a name nobody guesses, and what the owner adds behind it."""

from __future__ import annotations

from django.db import models
from django.utils import timezone


class Passport(models.Model):
    """One shaft's public page. The token stands on the tag for as long as the shaft lives."""

    quote = models.OneToOneField("quotes.Quote", models.CASCADE, related_name="passport")
    token = models.CharField(max_length=32, unique=True)
    made_at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return str(self.quote_id)


class HoursReading(models.Model):
    """Engine hours on a day, as the owner read them; ``renewed``: a new bearing at that reading."""

    passport = models.ForeignKey(Passport, models.CASCADE, related_name="readings")
    hours = models.PositiveIntegerField()
    renewed = models.BooleanField(default=False)
    day = models.DateField()
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["-day", "-pk"]  # newest first
        constraints = [
            models.UniqueConstraint(
                fields=["passport", "day", "hours", "renewed"], name="one_of_each_reading"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.passport_id}: {self.hours} h"
