"""The floor's two tables. Only the bench's own settings know them, and only its database."""

from __future__ import annotations

from django.db import models


class FloorSheet(models.Model):
    """One request, with nothing worked out."""

    name = models.CharField(max_length=300)
    phone = models.CharField(max_length=40)
    channel = models.CharField(max_length=5)
    received_at = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return self.name


class FloorReading(models.Model):
    """One answer of it, as it came."""

    sheet = models.ForeignKey(FloorSheet, models.CASCADE)
    slug = models.CharField(max_length=40)
    text = models.CharField(max_length=200)

    def __str__(self) -> str:
        return self.slug
