"""The words of a question, version by version."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone


class QuestionWording(models.Model):
    """How a question is asked from one moment on. Never edited: a change is a new row.

    ``ask`` "" goes back to the program's own words. ``ask_es`` "" leaves Spanish readers the
    program's own Spanish.
    """

    slug = models.CharField(max_length=40)
    number = models.PositiveIntegerField()
    ask = models.CharField(max_length=300, blank=True)
    ask_es = models.CharField(max_length=300, blank=True)
    reason = models.CharField(max_length=400)
    adopted_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", db_index=False
    )
    adopted_at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "intake"
        ordering = ["-pk"]  # newest first
        constraints = [
            models.UniqueConstraint(fields=["slug", "number"], name="one_wording_of_each_number")
        ]

    def __str__(self) -> str:
        return f"{self.slug} {self.number}"
