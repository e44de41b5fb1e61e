"""What one phone hands to another."""

from __future__ import annotations

from django.db import models
from django.utils import timezone

from intake.fields import KeptJSON


class HandedDraft(models.Model):
    """A sheet that is not finished, for the day on which somebody else goes on with it."""

    token = models.CharField(max_length=22)
    draft = KeptJSON()
    expires_at = models.DateTimeField()
    made_at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "intake"
        ordering = ["-made_at"]
        constraints = [
            models.UniqueConstraint(fields=["token"], name="one_of_each_handed_draft"),
        ]
        indexes = [models.Index(fields=["expires_at"], name="handed_draft_ends")]

    def __str__(self) -> str:
        return f"until {self.expires_at:%Y-%m-%d %H:%M}"
