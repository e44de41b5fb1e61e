"""One line for each request: what lists sort and filter by, and every word it is found by."""

from __future__ import annotations

from datetime import UTC, date, datetime

from django.conf import settings
from django.db import models

NO_DAY = date(9999, 12, 31)  # nothing to sort by: it comes last
NEVER = datetime(9999, 12, 31, tzinfo=UTC)
NO_BOAT = "~"


class RequestLine(models.Model):
    """Written a moment after its request, from what stands there: lost, it is made again.

    Lists may have as many indexes here as they like; receiving a request pays for none of them.
    ``words`` are of a–z and 0–9 alone, made by ``intake.domain.search_words``, one blank between:
    the migration hangs each database's own index on them.
    """

    submission = models.OneToOneField(
        "intake.Submission", models.CASCADE, primary_key=True, related_name="line"
    )
    status = models.CharField(max_length=10)
    rank = models.PositiveSmallIntegerField()  # of the verdict: stop 0, ask 1, release 2
    channel = models.CharField(max_length=5)
    month = models.CharField(max_length=7)
    # Who made the last change; nobody: the customer, or the desk by itself.
    last_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        db_index=False,
    )
    needed = models.DateField(default=NO_DAY)  # while there is still something to do
    waiting = models.DateTimeField(default=NEVER)  # for a call, since then
    boat = models.CharField(max_length=300, default=NO_BOAT)
    words = models.TextField(blank=True)

    class Meta:
        app_label = "intake"
        # By each filter; by each order; and by each order within a status or a month, which go
        # with age and need: walking all would pass many before the first that fits.
        indexes = [
            models.Index(fields=["status", "-submission"], name="line_by_status"),
            models.Index(fields=["status", "needed", "-submission"], name="line_by_status_need"),
            models.Index(fields=["status", "waiting", "submission"], name="line_by_status_wait"),
            models.Index(fields=["status", "rank", "-submission"], name="line_by_status_verdict"),
            models.Index(fields=["status", "boat", "-submission"], name="line_by_status_boat"),
            models.Index(fields=["month", "-submission"], name="line_by_month"),
            models.Index(fields=["month", "needed", "-submission"], name="line_by_month_need"),
            models.Index(fields=["month", "waiting", "submission"], name="line_by_month_wait"),
            models.Index(fields=["month", "rank", "-submission"], name="line_by_month_verdict"),
            models.Index(fields=["month", "boat", "-submission"], name="line_by_month_boat"),
            models.Index(fields=["channel", "-submission"], name="line_by_channel"),
            models.Index(fields=["last_by", "-submission"], name="line_by_person"),
            models.Index(fields=["rank", "-submission"], name="line_by_verdict"),
            models.Index(fields=["needed", "-submission"], name="line_by_need"),
            models.Index(fields=["waiting", "submission"], name="line_by_wait"),
            models.Index(fields=["boat", "-submission"], name="line_by_boat"),
        ]

    def __str__(self) -> str:
        return f"{self.submission_id}"
