"""What an accepted quote has of the rack and the shelf. Only services write it."""

from __future__ import annotations

from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from catalog.domain.lengths import Length

HELD, TAKEN, GIVEN_BACK, TO_ORDER = "held", "taken", "given_back", "to_order"
STATES = [
    (HELD, "held"),
    (TAKEN, "taken"),
    (GIVEN_BACK, "given back"),
    (TO_ORDER, "to be ordered"),
]
SHAFT = "shaft"
# What waits, in the words of its index: SQLite sees that it may use it only where these are the
# words of the question too, and not by a list of states.
WAITS = Q(state=HELD) | Q(state=TO_ORDER)


class Hold(models.Model):
    """One thing a quote needs: the bar of its shaft, or so many of a part.

    ``line`` is "shaft" or the part's code. A shaft is held on a ``piece``, saw cut counted; in a
    shop that has not listed its bars piece by piece it is one whole bar of ``part_code``, by
    count. ``remnant``: what was left over when it was sawn; none where that was scrap.
    """

    quote = models.ForeignKey("quotes.Quote", models.CASCADE, related_name="holds")
    line = models.CharField(max_length=40)
    what = models.CharField(max_length=200)
    part_code = models.CharField(max_length=40, blank=True)
    quantity = models.PositiveIntegerField(default=1)
    system = models.CharField(max_length=4, blank=True)
    diameter_nm = models.BigIntegerField(null=True, blank=True)
    alloy = models.CharField(max_length=20, blank=True)
    needed_nm = models.BigIntegerField(null=True, blank=True)
    piece = models.ForeignKey(
        "catalog.Piece", models.PROTECT, null=True, blank=True, related_name="holds"
    )
    remnant = models.ForeignKey(
        "catalog.Piece", models.PROTECT, null=True, blank=True, related_name="+"
    )
    state = models.CharField(max_length=10, choices=STATES)
    at = models.DateTimeField(default=timezone.now)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )

    class Meta:
        app_label = "quotes"
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["quote", "line"], name="one_hold_of_each_line"),
            models.CheckConstraint(
                condition=Q(needed_nm__isnull=True) | Q(needed_nm__gt=0), name="hold_needs_some"
            ),
        ]
        indexes: ClassVar = [
            models.Index(
                fields=["line", "id"],
                condition=WAITS,
                name="hold_that_waits",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.what}: {self.get_state_display()}"

    @property
    def needed(self) -> Length:
        """The bar a shaft is sawn from; nothing for a part."""
        return Length(self.needed_nm or 0)

    @property
    def diameter(self) -> Length:
        """The nominal diameter of a shaft's bar."""
        return Length(self.diameter_nm or 0)
