"""One photo of a submission, as we made it anew: nothing of the file that was sent is kept."""

from __future__ import annotations

from django.db import models
from django.utils import timezone


class Photo(models.Model):
    """A picture and its small version, both JPEG written by us.

    The bytes are in the database: several web processes see them at once, a backup of the database
    has them, and a killed process leaves the whole photo or nothing. Six pictures of a submission
    are about 2 MB. ``sent_sha256`` is the digest of the file as it was sent: the same file sent
    again is known by it.
    """

    submission = models.ForeignKey(
        "intake.Submission", models.CASCADE, related_name="photos", db_index=False
    )
    ident = models.CharField(max_length=22)
    question = models.CharField(max_length=40, blank=True)
    width = models.PositiveSmallIntegerField()
    height = models.PositiveSmallIntegerField()
    content = models.BinaryField()
    small = models.BinaryField()
    sent_sha256 = models.CharField(max_length=64)
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "intake"
        ordering = ["pk"]
        constraints = [
            # The submission's own index as well: it begins with it.
            models.UniqueConstraint(
                fields=["submission", "sent_sha256"], name="one_of_each_photo_sent"
            ),
            models.UniqueConstraint(fields=["ident"], name="one_of_each_photo_ident"),
        ]

    def __str__(self) -> str:
        return f"{self.submission_id}: {self.question or 'photo'}"
