"""Customers' own parts: awaited, received once, given back. Only services write these rows."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

COUPLING, SHAFT, PROPELLER, BEARING, OTHER = "coupling", "shaft", "propeller", "bearing", "other"
WHATS = [
    (COUPLING, "coupling"),
    (SHAFT, "shaft"),
    (PROPELLER, "propeller"),
    (BEARING, "bearing"),
    (OTHER, "another part"),
]
_PERSON = settings.AUTH_USER_MODEL


class OwnPart(models.Model):
    """One part that belongs to the customer and comes to us, for an order or for a case.

    ``awaited_since``: the day we began to wait for it; ``received_on`` None: it is not here.
    ``not_coming``: why nobody waits for it any more.
    """

    quote = models.ForeignKey("quotes.Quote", models.CASCADE, related_name="own_parts")
    case = models.ForeignKey(
        "quotes.Case", models.CASCADE, null=True, blank=True, related_name="own_parts"
    )
    what = models.CharField(max_length=10, choices=WHATS)
    awaited_since = models.DateField(default=timezone.localdate)
    received_on = models.DateField(null=True, blank=True)
    received_from = models.CharField(max_length=200, blank=True)
    condition = models.CharField(max_length=1000, blank=True)
    place = models.CharField(max_length=80, blank=True)
    received_by = models.ForeignKey(
        _PERSON, models.PROTECT, null=True, blank=True, related_name="+"
    )
    not_coming = models.CharField(max_length=200, blank=True)
    returned_on = models.DateField(null=True, blank=True)
    returned_how = models.CharField(max_length=200, blank=True)
    returned_by = models.ForeignKey(
        _PERSON, models.PROTECT, null=True, blank=True, related_name="+"
    )

    class Meta:
        app_label = "quotes"
        ordering = ["awaited_since", "pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["quote", "what"],
                condition=Q(case__isnull=True),
                name="one_of_each_own_part",
            ),
            models.UniqueConstraint(fields=["case", "what"], name="one_of_each_part_of_a_case"),
        ]
        indexes = [
            models.Index(
                fields=["awaited_since", "id"],
                condition=Q(received_on__isnull=True),
                name="own_part_awaited",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.quote_id}: {self.what}"
