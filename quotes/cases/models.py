"""Cases: one for each shaft or part that did not fit as promised. Only services write these rows.

A cost is booked to a cause and a stage, never to a person.
"""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from quotes.domain import case_words as words
from quotes.domain.remedy import PARTS, SHAFT

_PERSON = settings.AUTH_USER_MODEL


class CaseSeries(models.Model):
    """The last case number given in one year. A number may be lost, never given twice."""

    year = models.PositiveSmallIntegerField(unique=True)
    last = models.PositiveIntegerField(default=0)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return f"{self.year}: {self.last}"


class Case(models.Model):
    """What is done about one misfit, and why it happened. At most one is open for a quote.

    ``kind``, ``state``, ``found``, ``born``, ``payer`` and ``opened_as`` are words of
    quotes/domain/case_words.py. Lengths in nanometres: ``gap_nm`` as fitted, ``excess_nm`` too
    long by, as told (below zero: too short). ``by_nm``: how much is taken off or put between, as
    agreed. ``fired``: checks that had asked before it was made; ``overridden``: those of them that
    were released over; both as they were when the cause was coded.
    """

    quote = models.ForeignKey("quotes.Quote", models.CASCADE, related_name="cases")
    number = models.CharField(max_length=20, unique=True)
    opened_as = models.CharField(max_length=8, choices=list(words.OPENED_AS.items()))
    state = models.CharField(max_length=8, choices=list(words.STATES.items()), default=words.OPEN)
    kind = models.CharField(max_length=8, choices=list(words.KINDS.items()), blank=True)
    part = models.CharField(max_length=8, choices=list(PARTS.items()), default=SHAFT)
    gap_nm = models.BigIntegerField(null=True, blank=True)
    excess_nm = models.BigIntegerField(null=True, blank=True)
    by_nm = models.BigIntegerField(null=True, blank=True)
    cause = models.CharField(max_length=16, blank=True)
    contributing = models.JSONField(default=list, blank=True)
    evidence = models.CharField(max_length=1000, blank=True)
    found_by = models.CharField(max_length=200, blank=True)
    found = models.CharField(max_length=12, choices=list(words.FOUND.items()), blank=True)
    born = models.CharField(max_length=10, choices=list(words.BORN.items()), blank=True)
    fired = models.JSONField(default=list, blank=True)
    overridden = models.JSONField(default=list, blank=True)
    payer = models.CharField(max_length=8, choices=list(words.PAYERS.items()), blank=True)
    payer_why = models.CharField(max_length=400, blank=True)
    opened_at = models.DateTimeField(default=timezone.now)
    opened_by = models.ForeignKey(_PERSON, models.PROTECT, null=True, blank=True, related_name="+")
    closed_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "quotes"
        ordering = ["-opened_at", "-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["quote"],
                condition=Q(state__in=list(words.STANDS_OPEN)),
                name="one_open_case_of_a_quote",
            ),
        ]
        indexes = [
            models.Index(
                fields=["opened_at", "id"], condition=Q(closed_at__isnull=True), name="case_open"
            ),
            models.Index(
                fields=["opened_at", "id"], condition=Q(closed_at__isnull=False), name="case_closed"
            ),
            models.Index(fields=["cause", "opened_at", "id"], name="case_by_cause"),
        ]

    def __str__(self) -> str:
        return self.number


class CaseCost(models.Model):
    """One cost of a case. A wrong line is taken back by another with a minus, never changed.

    ``once``: what the form carried, so that a double click books once.
    """

    case = models.ForeignKey(Case, models.CASCADE, related_name="costs")
    kind = models.CharField(max_length=12, choices=list(words.COSTS.items()))
    words = models.CharField(max_length=200, blank=True)
    amount = models.DecimalField(max_digits=9, decimal_places=2)
    minutes = models.PositiveSmallIntegerField(null=True, blank=True)
    invented = models.BooleanField(default=False)
    once = models.CharField(max_length=40)
    by = models.ForeignKey(_PERSON, models.PROTECT, null=True, blank=True, related_name="+")
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["at", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["case", "once"], name="one_of_each_case_cost"),
        ]

    def __str__(self) -> str:
        return f"{self.case_id}: {self.kind} {self.amount}"


class CaseEvent(models.Model):
    """One line of what happened to a case, never changed. ``by`` None: it went by itself."""

    case = models.ForeignKey(Case, models.CASCADE, related_name="events")
    what = models.CharField(max_length=10)
    words = models.CharField(max_length=1200, blank=True)
    by = models.ForeignKey(_PERSON, models.PROTECT, null=True, blank=True, related_name="+")
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["at", "pk"]

    def __str__(self) -> str:
        return f"{self.case_id}: {self.what}"
