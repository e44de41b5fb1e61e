"""What a part costs from which day."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone


class PartPrice(models.Model):
    """The price of one part from a day on. Never edited: a change is a new row.

    In force on a day is the row with the latest day that has come (of one day, the highest
    number). Rows outlive their part, as its trail does. ``by`` None: the desk did it by itself.
    """

    code = models.CharField(max_length=40)
    number = models.PositiveIntegerField()
    price = models.DecimalField(max_digits=12, decimal_places=4)
    from_day = models.DateField()
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        db_index=False,
    )
    why = models.CharField(max_length=400, blank=True)
    made_at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "catalog"
        ordering = ["code", "-number"]
        constraints = [
            # Of two prices set at once one is stored, and the other is told.
            models.UniqueConstraint(fields=["code", "number"], name="one_price_of_each_number"),
            models.CheckConstraint(condition=Q(price__gte=0), name="dated_price_not_below_zero"),
        ]
        indexes = [
            models.Index(fields=["code", "-from_day", "-number"], name="price_by_day"),
            models.Index(fields=["from_day"], name="price_by_first_day"),
        ]

    def __str__(self) -> str:
        return f"{self.code} from {self.from_day}"

    @property
    def words(self) -> str:
        """The price as it is listed, two places at least: ``3.60``, ``0.145``."""
        places = max(2, -int(self.price.normalize().as_tuple().exponent))
        return f"{self.price:.{places}f}"
