"""One shaft in one tube, or a parcel of parts, and the day it left us."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone


class Shipment(models.Model):
    """How an order left, once. ``weight_lb`` as weighed or as worked out, ``tube_nm`` its tube."""

    quote = models.OneToOneField("quotes.Quote", models.CASCADE, related_name="shipment")
    day = models.DateField()
    tube_nm = models.BigIntegerField(null=True, blank=True)  # None: parts alone, no tube
    weight_lb = models.DecimalField(max_digits=7, decimal_places=1)
    carrier = models.CharField(max_length=80)
    tracking = models.CharField(max_length=80, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)
    heard = models.BooleanField(default=False)  # somebody has told how it fitted

    class Meta:
        app_label = "quotes"
        indexes = [
            models.Index(fields=["day"], name="shipment_by_day"),
            models.Index(
                fields=["day", "quote"], condition=models.Q(heard=False), name="shipment_not_heard"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.quote_id} on {self.day}"
