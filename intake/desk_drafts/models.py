"""A call that is being typed, and who has which page open."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone

from intake.fields import KeptJSON


class DeskDraft(models.Model):
    """Everything typed so far, box by box: ``boxes[name] = {"text", "revision", "by", "at"}``.

    ``revision`` counts changes of the whole; a box carries the one it was last changed in, and so
    two people may type into different boxes, and nobody's number is overwritten unseen. With
    ``submission`` it goes on from that request's sheet ``sheet_number``. ``saved_as``: the request
    it became. ``key``: under it, it is stored once, however often it is sent.
    """

    ident = models.CharField(max_length=32, unique=True)
    boxes = KeptJSON(default=dict)
    revision = models.PositiveIntegerField(default=0)
    title = models.CharField(max_length=300, blank=True)
    key = models.CharField(max_length=60)
    submission = models.ForeignKey(
        "intake.Submission", models.CASCADE, null=True, blank=True, related_name="drafts"
    )
    sheet_number = models.PositiveSmallIntegerField(null=True, blank=True)
    saved_as = models.ForeignKey(
        "intake.Submission", models.CASCADE, null=True, blank=True, related_name="+"
    )
    opened_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    opened_at = models.DateTimeField(default=timezone.now)
    touched_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    touched_at = models.DateTimeField(default=timezone.now)
    closed_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "intake"
        ordering = ["-touched_at"]
        constraints = [
            models.UniqueConstraint(
                fields=["submission"],
                condition=models.Q(closed_at__isnull=True),
                name="one_open_draft_of_a_request",
            )
        ]
        indexes = [
            models.Index(
                fields=["touched_at"],
                condition=models.Q(closed_at__isnull=True),
                name="draft_open",
            )
        ]

    def __str__(self) -> str:
        return self.title or self.ident


class PageOpen(models.Model):
    """Somebody looks at a draft or a request right now: ``place`` is "draft x" or "request x"."""

    place = models.CharField(max_length=60)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="+")
    since = models.DateTimeField(default=timezone.now)
    seen_at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "intake"
        constraints = [
            models.UniqueConstraint(fields=["place", "by"], name="one_pair_of_eyes_each")
        ]

    def __str__(self) -> str:
        return f"{self.by_id} at {self.place}"
