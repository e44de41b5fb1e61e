"""What became of a shaft once it was in the boat."""

from __future__ import annotations

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

FITTED = [
    ("yes", _("yes, as it came")),
    ("changed", _("yes, after something was changed")),
    ("no", _("no")),
]


class Outcome(models.Model):
    """What the customer told, once for each time they were asked. Lengths as typed beside it."""

    quote = models.ForeignKey("quotes.Quote", models.CASCADE, related_name="outcomes")
    after_days = models.PositiveSmallIntegerField()  # 7 or 30, as it was asked
    fitted = models.CharField(max_length=8, choices=FITTED)
    gap_typed = models.CharField(max_length=40, blank=True)
    gap_nm = models.BigIntegerField(null=True, blank=True)
    different = models.CharField(max_length=1000, blank=True)
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["after_days", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["quote", "after_days"], name="one_outcome_each_time_asked"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.quote_id} after {self.after_days} days: {self.fitted}"
