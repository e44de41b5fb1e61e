"""What was agreed with one customer: trade discount and deposit, dated."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from intake.models import Customer
from quotes.domain.tax import percent


class CustomerTerms(models.Model):
    """What holds for one customer from a day on. Never edited: a change is a new row.

    ``discount`` and ``deposit_part`` are fractions; of the deposit, None is as for everybody.
    """

    customer = models.ForeignKey(Customer, models.PROTECT, related_name="terms", db_index=False)
    number = models.PositiveIntegerField()
    from_day = models.DateField()
    discount = models.DecimalField(max_digits=5, decimal_places=4)
    deposit_part = models.DecimalField(max_digits=5, decimal_places=4, null=True, blank=True)
    deposit_over = models.DecimalField(max_digits=12, decimal_places=2, null=True, blank=True)
    why = models.CharField(max_length=400)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", db_index=False
    )
    made_at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["-number"]  # newest first
        verbose_name_plural = "customer terms"
        constraints = [
            models.UniqueConstraint(
                fields=["customer", "number"], name="one_of_each_terms_of_a_customer"
            ),
            models.CheckConstraint(
                condition=Q(discount__gte=0, discount__lt=1), name="terms_discount_below_all"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.customer_id} from {self.from_day}"

    @property
    def discount_words(self) -> str:
        """The discount in per cent."""
        return f"{percent(self.discount)} %"

    @property
    def deposit_words(self) -> str:
        """The deposit in per cent, where it is this customer's own."""
        return "as usual" if self.deposit_part is None else f"{percent(self.deposit_part)} %"
