"""The cut sheet as it was drawn, kept with its hash. Only services write it."""

from __future__ import annotations

from django.db import models
from django.utils import timezone


class CutSheet(models.Model):
    """One page for one accepted quote: drawn once, opened as often as anybody likes."""

    quote = models.OneToOneField("quotes.Quote", models.CASCADE, related_name="cut_sheet")
    content = models.BinaryField()
    sha256 = models.CharField(max_length=64)
    made_at = models.DateTimeField(default=timezone.now)

    def __str__(self) -> str:
        return self.sha256
