"""Invoices and credit notes as they were issued. Rows are added, never changed and never deleted:
a wrong invoice is credited.
"""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from quotes.domain.invoice import CREDIT, INVOICE

KINDS = [(INVOICE, "invoice"), (CREDIT, "credit note")]


class InvoiceSeries(models.Model):
    """The last number given in one year. Unlike a quote's number none is ever lost: whoever takes
    one holds this row until their invoice is stored."""

    kind = models.CharField(max_length=8, choices=KINDS)
    year = models.PositiveSmallIntegerField()
    last = models.PositiveIntegerField(default=0)

    class Meta:
        app_label = "quotes"
        constraints = [
            models.UniqueConstraint(fields=["kind", "year"], name="one_series_a_year"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.year}: {self.last}"


class Invoice(models.Model):
    """One invoice, or one credit note ``of`` an invoice, with everything that stands on it.

    ``lines`` and ``taxes`` are copies; a credit note's lines name their place on the invoice.
    ``paid``: what was taken off on the day it was issued, ``to_pay`` the rest.
    """

    number = models.CharField(max_length=20, unique=True)
    kind = models.CharField(max_length=8, choices=KINDS)
    of = models.ForeignKey(
        "self", models.PROTECT, null=True, blank=True, related_name="credit_notes", db_index=False
    )
    bundle = models.ForeignKey(
        "quotes.Bundle", models.PROTECT, null=True, blank=True, related_name="invoices"
    )
    issued_on = models.DateField()
    due_on = models.DateField(null=True, blank=True)
    seller = models.JSONField(default=list)
    buyer = models.JSONField(default=list)
    about = models.JSONField(default=list)  # each quote: number, version, boat, order, reference
    lines = models.JSONField(default=list)
    taxes = models.JSONField(default=list)
    credited = models.JSONField(default=dict, blank=True)  # place of the invoice's line: amount
    net = models.DecimalField(max_digits=12, decimal_places=2)
    tax = models.DecimalField(max_digits=12, decimal_places=2)
    total = models.DecimalField(max_digits=12, decimal_places=2)
    paid = models.DecimalField(max_digits=12, decimal_places=2, default=0)
    to_pay = models.DecimalField(max_digits=12, decimal_places=2)
    currency = models.CharField(max_length=8, blank=True)
    reason = models.CharField(max_length=400, blank=True)
    nonce = models.CharField(max_length=40, unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["-pk"]
        permissions = [("credit_invoice", "Can credit an invoice")]
        constraints = [
            models.CheckConstraint(
                condition=Q(kind=INVOICE, of__isnull=True) | Q(kind=CREDIT, of__isnull=False),
                name="a_credit_note_is_of_an_invoice",
            ),
            models.CheckConstraint(condition=Q(total__gte=0), name="an_invoice_asks_for_something"),
        ]
        # Most invoices have none, so an index of all would look useless to the database.
        indexes = [
            models.Index(fields=["of"], condition=Q(of__isnull=False), name="credit_note_of")
        ]

    def __str__(self) -> str:
        return self.number


class InvoiceDocument(models.Model):
    """The paper as it went out, with its hash."""

    invoice = models.OneToOneField(Invoice, models.PROTECT, related_name="document")
    content = models.BinaryField()
    sha256 = models.CharField(max_length=64)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return self.sha256


class InvoicedQuote(models.Model):
    """Which quotes an invoice is of. ``stands``: until all of it is credited; then the quote may
    be invoiced anew."""

    invoice = models.ForeignKey(Invoice, models.PROTECT, related_name="invoiced")
    quote = models.ForeignKey("quotes.Quote", models.PROTECT, related_name="invoiced")
    stands = models.BooleanField(default=True)

    class Meta:
        app_label = "quotes"
        constraints = [
            models.UniqueConstraint(
                fields=["quote"], condition=Q(stands=True), name="a_quote_is_invoiced_once"
            ),
            models.UniqueConstraint(fields=["invoice", "quote"], name="once_on_an_invoice"),
        ]

    def __str__(self) -> str:
        return f"{self.invoice_id}: {self.quote_id}"
