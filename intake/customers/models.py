"""Customers, their boats, and which records turned out to be the same."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone


class Customer(models.Model):
    """One person or yard, known by a number or an address.

    ``merged_into`` set: this record was the same as that one, which is itself merged into none.
    ``erased_at`` set: what told who it was has been forgotten, what the statistics need is still
    counted. ``phone_tail``: the last digits, which are the same with a country's code and without.
    ``known_by``: the number's key, else the address's; None once that is forgotten.
    ``active_at``: when the newest request came. ``revision`` grows whenever this record or one of
    its boats is merged, parted or erased: who read an older one looks again.
    """

    name = models.CharField(max_length=300, blank=True)
    phone = models.CharField(max_length=64, blank=True)
    email = models.CharField(max_length=254, blank=True)
    role = models.CharField(max_length=10, blank=True)
    phone_key = models.CharField(max_length=64, blank=True)
    email_key = models.CharField(max_length=254, blank=True)
    known_by = models.CharField(max_length=254, null=True)  # noqa: DJ001
    phone_tail = models.CharField(max_length=8, blank=True)
    merged_into = models.ForeignKey(
        "self", models.PROTECT, null=True, blank=True, related_name="merged", db_index=False
    )
    revision = models.PositiveIntegerField(default=0)
    made_at = models.DateTimeField(default=timezone.now)
    active_at = models.DateTimeField(default=timezone.now)
    erased_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "intake"
        ordering = ["-pk"]
        # Of two first requests at once, one makes the record and the other finds it. (A partial
        # index on a column that is asked for by value makes SQLite plan each statement anew.)
        constraints = [models.UniqueConstraint(fields=["known_by"], name="one_of_each_customer")]
        indexes = [
            models.Index(fields=["phone_key"], name="customer_by_phone"),
            models.Index(fields=["email_key"], name="customer_by_email"),
            models.Index(fields=["phone_tail"], name="customer_by_tail"),
            models.Index(fields=["-active_at", "-id"], name="customer_by_activity"),
            models.Index(
                fields=["merged_into"],
                condition=Q(merged_into__isnull=False),
                name="customer_merged",
            ),
        ]

    def __str__(self) -> str:
        return self.name or self.phone or self.email or f"customer {self.pk}"


class Boat(models.Model):
    """One boat and one side of her: a twin has two records, each with a shaft of its own.

    ``merged_into`` set: she was the same as that one, which is itself merged into none.
    """

    # The unique three below are its index.
    customer = models.ForeignKey(Customer, models.PROTECT, related_name="boats", db_index=False)
    name = models.CharField(max_length=300, blank=True)
    station = models.CharField(max_length=10, blank=True)
    boat_key = models.CharField(max_length=300, blank=True)
    merged_into = models.ForeignKey(
        "self", models.PROTECT, null=True, blank=True, related_name="merged", db_index=False
    )
    made_at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "intake"
        ordering = ["-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["customer", "boat_key", "station"], name="one_of_each_boat_and_side"
            )
        ]
        indexes = [
            models.Index(fields=["boat_key", "station"], name="boat_by_name"),
            models.Index(
                fields=["merged_into"], condition=Q(merged_into__isnull=False), name="boat_merged"
            ),
        ]

    def __str__(self) -> str:
        return self.name or f"boat {self.pk}"


class Merge(models.Model):
    """Two records that were the same; ``moved`` says what went over, so that it can go back."""

    kind = models.CharField(max_length=8, choices=[("customer", "customer"), ("boat", "boat")])
    kept = models.PositiveBigIntegerField()
    gone = models.PositiveBigIntegerField()
    moved = models.JSONField(default=dict)
    why = models.CharField(max_length=400, blank=True)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", db_index=False
    )
    at = models.DateTimeField(default=timezone.now)
    undone_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        db_index=False,
    )
    undone_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "intake"
        ordering = ["-pk"]
        indexes = [models.Index(fields=["kind", "kept"], name="merge_by_kept")]

    def __str__(self) -> str:
        return f"{self.kind} {self.gone} into {self.kept}"
