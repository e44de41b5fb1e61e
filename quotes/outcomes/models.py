"""What became of a shaft once it was in the boat."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

FITTED = [
    ("yes", _("yes, as it came")),
    ("changed", _("yes, after something was changed")),
    ("no", _("no")),
]
NOT_YET = ("not_yet", _("it is not in the boat yet"))


class Outcome(models.Model):
    """What the customer told, once for each time they were asked. Lengths as typed beside it.

    ``told_by``: who said it to us on the phone, "" where they wrote it themselves; ``by``: who
    wrote it down then. ``predicted_nm`` and ``u_nm``: the gap as made and one standard uncertainty
    of it, as they were known that day; None where no gap was predicted.
    """

    quote = models.ForeignKey("quotes.Quote", models.CASCADE, related_name="outcomes")
    after_days = models.PositiveSmallIntegerField()  # 7 or 30, as it was asked
    fitted = models.CharField(max_length=8, choices=FITTED)
    gap_typed = models.CharField(max_length=40, blank=True)
    gap_nm = models.BigIntegerField(null=True, blank=True)
    different = models.CharField(max_length=1000, blank=True)
    told_by = models.CharField(max_length=200, blank=True)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    predicted_nm = models.BigIntegerField(null=True, blank=True)
    u_nm = models.BigIntegerField(null=True, blank=True)
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


class NotYetFitted(models.Model):
    """Somebody told that it is not in the boat yet, and when to ask again. The newest counts."""

    quote = models.ForeignKey("quotes.Quote", models.CASCADE, related_name="not_yet_fitted")
    ask_on = models.DateField()
    told_by = models.CharField(max_length=200, blank=True)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["-at", "-pk"]  # newest first
        constraints = [
            models.UniqueConstraint(fields=["quote", "ask_on"], name="one_not_yet_of_a_day"),
        ]
        indexes = [models.Index(fields=["ask_on", "quote"], name="not_yet_by_day")]

    def __str__(self) -> str:
        return f"{self.quote_id}: again on {self.ask_on}"
