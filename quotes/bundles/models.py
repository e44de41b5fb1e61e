"""One quote for several boats of a yard, and the quotes it is made of."""

from __future__ import annotations

import secrets

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone


def new_token() -> str:
    """What stands in the address of a bundle's own page: 256 random bits."""
    return secrets.token_urlsafe(32)


class Bundle(models.Model):
    """Several issued quotes of one yard under one order number, with one freight and one total.

    A version is never changed: when one of its quotes is replaced it no longer holds, and the next
    version has the same ``number`` and the same ``token``, so the yard's link stays its way in.
    ``current``: the newest version of its number.
    """

    customer = models.ForeignKey("intake.Customer", models.PROTECT, related_name="bundles")
    job = models.CharField(max_length=40, blank=True)
    number = models.CharField(max_length=20)
    version = models.PositiveSmallIntegerField(default=1)
    token = models.CharField(max_length=64, default=new_token)
    current = models.BooleanField(default=True)
    goods = models.DecimalField(max_digits=12, decimal_places=2)
    freight = models.DecimalField(max_digits=12, decimal_places=2)
    freight_words = models.CharField(max_length=300, blank=True)
    tax = models.DecimalField(max_digits=12, decimal_places=2)
    total = models.DecimalField(max_digits=12, decimal_places=2)
    currency = models.CharField(max_length=8, blank=True)
    valid_until = models.DateField()
    issued_at = models.DateTimeField(default=timezone.now)
    issued_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    opened_at = models.DateTimeField(null=True, blank=True)
    content = models.BinaryField(null=True)  # the paper; nothing once the customer is erased
    sha256 = models.CharField(max_length=64)

    class Meta:
        app_label = "quotes"
        ordering = ["number", "version"]
        constraints = [
            models.UniqueConstraint(fields=["number", "version"], name="one_of_each_bundle"),
            models.UniqueConstraint(
                fields=["number"], condition=Q(current=True), name="one_current_bundle"
            ),
            models.UniqueConstraint(
                fields=["token"], condition=Q(current=True), name="one_bundle_behind_a_link"
            ),
        ]
        indexes = [models.Index(fields=["customer", "job"], name="bundle_by_job")]

    def __str__(self) -> str:
        return f"{self.number} v{self.version}"


class BundleMember(models.Model):
    """One boat's quote in a bundle, at its place on the paper."""

    bundle = models.ForeignKey(Bundle, models.CASCADE, related_name="members")
    quote = models.ForeignKey("quotes.Quote", models.CASCADE, related_name="in_bundles")
    place = models.PositiveSmallIntegerField()

    class Meta:
        app_label = "quotes"
        ordering = ["bundle", "place"]
        constraints = [
            models.UniqueConstraint(fields=["bundle", "quote"], name="a_quote_once_in_a_bundle"),
            models.UniqueConstraint(fields=["bundle", "place"], name="one_place_in_a_bundle"),
        ]

    def __str__(self) -> str:
        return f"{self.bundle_id}: {self.quote_id}"
