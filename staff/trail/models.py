"""One change of one record, as it was made."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone


class Change(models.Model):
    """Who changed what, when and why; ``what`` holds [before, after] by the field's name.

    ``record`` is the kind ("boat", "part"), ``key`` which one of them, as text.
    """

    record = models.CharField(max_length=40)
    key = models.CharField(max_length=80)
    what = models.JSONField(default=dict)
    why = models.CharField(max_length=400, blank=True)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        db_index=False,
    )
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "staff"
        ordering = ["-pk"]  # newest first
        indexes = [
            models.Index(fields=["record", "key", "-id"], name="change_of_record"),
            models.Index(fields=["record", "-id"], name="change_of_kind"),
            models.Index(fields=["by", "-id"], name="change_by_person"),
        ]

    def __str__(self) -> str:
        return f"{self.record} {self.key}"
