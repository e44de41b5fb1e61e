"""Deposits, payments and refunds, written down by hand. A row is added, never changed."""

from __future__ import annotations

from decimal import Decimal

from django.conf import settings
from django.core.validators import MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils import timezone

from quotes.domain.payments import Kind

KINDS = [
    (Kind.DEPOSIT.value, "deposit"),
    (Kind.PAYMENT.value, "payment"),
    (Kind.REFUND.value, "paid back"),
]


class Payment(models.Model):
    """Money for one quote, or for one bundle; ``how`` is the way and its own reference.

    ``nonce`` was in the form, so that a form sent twice is stored once.
    """

    quote = models.ForeignKey(
        "quotes.Quote", models.PROTECT, null=True, blank=True, related_name="payments"
    )
    bundle = models.ForeignKey(
        "quotes.Bundle", models.PROTECT, null=True, blank=True, related_name="payments"
    )
    kind = models.CharField(max_length=8, choices=KINDS)
    amount = models.DecimalField(
        max_digits=12, decimal_places=2, validators=[MinValueValidator(Decimal("0.01"))]
    )
    day = models.DateField()
    how = models.CharField(max_length=80)
    note = models.CharField(max_length=300, blank=True)
    nonce = models.CharField(max_length=40, unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["day", "pk"]
        constraints = [
            models.CheckConstraint(condition=Q(amount__gt=0), name="a_payment_is_of_something"),
            models.CheckConstraint(
                condition=Q(quote__isnull=True, bundle__isnull=False)
                | Q(quote__isnull=False, bundle__isnull=True),
                name="a_payment_is_for_one_thing",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.amount}"
