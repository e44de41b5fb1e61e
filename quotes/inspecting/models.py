"""Inspections, signatures and releases: added, never changed. A correction is a new row."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from quotes.domain.as_made_verdict import WORDS, Verdict

VERDICTS = [(one.value, WORDS[one]) for one in Verdict]


class Inspection(models.Model):
    """One shaft as somebody measured it, with what was worked out from it at that moment.

    ``typed``: box -> text as typed. Lengths in nanometres; ``gap_nm`` None where none is
    predicted. ``found``: check, words and question of everything that was off.
    """

    quote = models.ForeignKey("quotes.Quote", models.CASCADE, related_name="inspections")
    number = models.PositiveSmallIntegerField()
    typed = models.JSONField(default=dict)
    length_nm = models.BigIntegerField()
    small_end_nm = models.BigIntegerField(null=True, blank=True)
    gap_nm = models.BigIntegerField(null=True, blank=True)
    u_nm = models.BigIntegerField()
    fit = models.FloatField(null=True, blank=True)
    verdict = models.CharField(max_length=8, choices=VERDICTS)
    found = models.JSONField(default=list)
    advice = models.JSONField(default=list)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["quote", "number"]
        constraints = [
            models.UniqueConstraint(fields=["quote", "number"], name="one_of_each_inspection"),
        ]
        indexes = [
            models.Index(fields=["at"], condition=~Q(verdict="pass"), name="inspection_not_passed"),
        ]

    def __str__(self) -> str:
        return f"{self.quote_id} no. {self.number}: {self.verdict}"


class Signature(models.Model):
    """A second person has looked at the same shaft and stands by the same numbers."""

    inspection = models.OneToOneField(Inspection, models.CASCADE, related_name="signature")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return f"{self.inspection_id} by {self.by_id}"


class Release(models.Model):
    """The desk lets a shaft go that did not pass, and says why."""

    inspection = models.OneToOneField(Inspection, models.CASCADE, related_name="release")
    why = models.CharField(max_length=400)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return f"{self.inspection_id} by {self.by_id}"
