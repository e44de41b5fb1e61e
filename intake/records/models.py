"""What was supplied and how it fitted, as intake must know it of the shop."""

from __future__ import annotations

from django.db import models
from django.utils import timezone


class ShaftFitted(models.Model):
    """One shaft that was supplied, as known at one time. Nothing is overwritten.

    More is learnt later (the gap, that it did not fit): that is another row, and the newest of a
    submission counts. Lengths are in nanometres: ``length_nm`` from coupling face to thread end,
    ``gap_nm`` as fitted, ``off_nm`` that gap less the one aimed at. Boat, contact and family are
    kept by their keys, as they were then.
    """

    submission = models.ForeignKey("intake.Submission", models.CASCADE, related_name="fitted")
    boat = models.ForeignKey(
        "intake.Boat", models.PROTECT, null=True, blank=True, related_name="fitted"
    )
    boat_key = models.CharField(max_length=300, blank=True)
    station = models.CharField(max_length=10, blank=True)
    phone_key = models.CharField(max_length=64, blank=True)
    email_key = models.CharField(max_length=254, blank=True)
    family_key = models.CharField(max_length=140, blank=True)
    length_nm = models.BigIntegerField()
    diameter_nm = models.BigIntegerField()
    alloy = models.CharField(max_length=10, blank=True)
    month = models.CharField(max_length=7)  # it was sent: "2026-04"
    gap_nm = models.BigIntegerField(null=True, blank=True)
    off_nm = models.BigIntegerField(null=True, blank=True)
    misfit = models.BooleanField(default=False)
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "intake"
        ordering = ["-at", "-pk"]  # newest first
        indexes = [
            models.Index(fields=["boat_key", "at"], name="fitted_by_boat"),
            models.Index(fields=["phone_key", "at"], name="fitted_by_phone"),
            models.Index(fields=["email_key", "at"], name="fitted_by_email"),
            models.Index(fields=["family_key", "at"], name="fitted_by_family"),
        ]

    def __str__(self) -> str:
        return f"{self.submission_id}: {self.month}"
