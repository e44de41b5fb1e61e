"""Which requests are called about at random, and what came of it."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone

OUTCOMES = [
    ("right", "all right"),
    ("wrong", "something was wrong"),
    ("not_reached", "not reached"),
    ("declined", "the customer does not want to"),
]


class AuditSalt(models.Model):
    """What makes the draw one that nobody can foresee: made once, at random, and kept."""

    only = models.PositiveSmallIntegerField(default=1, unique=True)
    salt = models.CharField(max_length=64)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return "salt of the draw"


class AuditCall(models.Model):
    """A request that nothing held and that was drawn; ``outcome`` "" while the call is to be made.

    ``answer``: the question the mistake was made in. Once drawn it stays drawn.
    """

    submission = models.OneToOneField(
        "intake.Submission", models.CASCADE, related_name="audit_call"
    )
    chosen_at = models.DateTimeField(default=timezone.now)
    outcome = models.CharField(max_length=12, choices=OUTCOMES, blank=True)
    cause = models.CharField(max_length=16, blank=True)
    answer = models.CharField(max_length=40, blank=True)
    note = models.TextField(blank=True)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    at = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "quotes"
        indexes = [
            models.Index(fields=["id"], condition=models.Q(outcome=""), name="audit_call_to_make")
        ]

    def __str__(self) -> str:
        return f"{self.submission_id}: {self.outcome or 'to be made'}"
