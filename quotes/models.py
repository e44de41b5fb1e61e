"""Quotes, version by version, and their papers. Nothing is overwritten but the status.

Only services write these rows, only selectors read them.
"""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from intake.models import SheetVersion, Submission
from quotes.bundles import models as bundle_models  # noqa: F401  (Django looks for models here)
from quotes.calendar import models as calendar_models  # noqa: F401
from quotes.cases import models as case_models  # noqa: F401
from quotes.choosing import models as choosing_models  # noqa: F401
from quotes.cost_model.models import CostSet as CostSet
from quotes.domain.lifecycle import QuoteStatus
from quotes.insight.alarms.models import CauseAlarm as CauseAlarm
from quotes.insight.audit.models import AuditCall as AuditCall
from quotes.insight.audit.models import AuditSalt as AuditSalt
from quotes.insight.models import BarFact as BarFact
from quotes.insight.models import Cell as Cell
from quotes.insight.models import CountedUpTo as CountedUpTo
from quotes.insight.models import FlagFact as FlagFact
from quotes.insight.models import MismatchFact as MismatchFact
from quotes.insight.models import MonthToCount as MonthToCount
from quotes.insight.models import RequestFact as RequestFact
from quotes.insight.report.models import MonthlyReport as MonthlyReport
from quotes.inspecting import models as inspecting_models  # noqa: F401
from quotes.invoices import models as invoice_models  # noqa: F401
from quotes.links.models import Mail as Mail  # Django looks for models here
from quotes.links.models import NoReminders as NoReminders
from quotes.links.models import OldLink as OldLink
from quotes.outcomes.models import NotYetFitted as NotYetFitted
from quotes.outcomes.models import Outcome as Outcome
from quotes.passport import models as passport_models  # noqa: F401
from quotes.payments import models as payment_models  # noqa: F401
from quotes.rate_sets.models import RateSet as RateSet
from quotes.receiving import models as receiving_models  # noqa: F401
from quotes.replay.models import Replay as Replay
from quotes.replay.models import ReplaySheet as ReplaySheet
from quotes.sending import models as sending_models  # noqa: F401
from quotes.shop.models import CutSheet as CutSheet
from quotes.stock import models as stock_models  # noqa: F401
from quotes.terms.models import CustomerTerms as CustomerTerms

STATUSES = [
    (QuoteStatus.DRAFTED.value, _("drafted")),
    (QuoteStatus.ISSUED.value, _("issued")),
    (QuoteStatus.ACCEPTED.value, _("accepted")),
    (QuoteStatus.DECLINED.value, _("declined")),
    (QuoteStatus.LAPSED.value, _("lapsed")),
    (QuoteStatus.REPLACED.value, _("replaced")),
    (QuoteStatus.CANCELLED.value, _("cancelled")),
]


class NumberSeries(models.Model):
    """The last number given in one year. A number may be lost, never given twice."""

    year = models.PositiveSmallIntegerField(unique=True)
    last = models.PositiveIntegerField(default=0)

    def __str__(self) -> str:
        return f"{self.year}: {self.last}"


class Quote(models.Model):
    """One priced offer on one sheet version. Amounts are exact, rounded once.

    A draft (a price is missing) is the desk's own and becomes the issued quote when completed;
    what was issued is never changed again but for its status and the customer's answer.

    ``inputs``: what it was priced from, with the choice. ``opened_at``: when the customer first
    saw it. ``accepted_from``: by which way, and where that can be told, from which address.
    ``ended_at``, ``ended_why``: since when and why it holds no more, replaced or cancelled; an
    accepted one that was replaced is void. ``remake_of``: the quote whose shaft is made again.
    ``is_here``: until its order has left us or was called off; so that what is to be made is found
    among all that ever was.
    """

    submission = models.ForeignKey(Submission, models.CASCADE, related_name="quotes")
    sheet = models.ForeignKey(SheetVersion, models.CASCADE, related_name="quotes")
    number = models.CharField(max_length=20, unique=True)
    version = models.PositiveSmallIntegerField()
    status = models.CharField(max_length=10, choices=STATUSES)
    lines = models.JSONField(default=list)
    missing = models.JSONField(default=list, blank=True)
    goods = models.DecimalField(max_digits=12, decimal_places=2)
    freight = models.DecimalField(max_digits=12, decimal_places=2)
    freight_words = models.CharField(max_length=80, blank=True)
    tax = models.DecimalField(max_digits=12, decimal_places=2)
    total = models.DecimalField(max_digits=12, decimal_places=2)
    currency = models.CharField(max_length=8, blank=True)
    made_at = models.DateTimeField(default=timezone.now)
    issued_at = models.DateTimeField(null=True, blank=True)
    valid_until = models.DateField(null=True, blank=True)
    issued_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    accepted_by = models.CharField(max_length=300, blank=True)
    accepted_at = models.DateTimeField(null=True, blank=True)
    confirmed = models.JSONField(default=list, blank=True)
    declined_reason = models.CharField(max_length=1000, blank=True)
    declined_at = models.DateTimeField(null=True, blank=True)
    inputs = models.JSONField(default=dict, blank=True)
    terms_note = models.CharField(max_length=300, blank=True)
    opened_at = models.DateTimeField(null=True, blank=True)
    accepted_from = models.CharField(max_length=200, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)
    ended_why = models.CharField(max_length=1000, blank=True)
    ended_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    remake_of = models.ForeignKey(
        "self", models.CASCADE, null=True, blank=True, related_name="remakes"
    )
    is_here = models.BooleanField(default=True)

    class Meta:
        ordering = ["submission", "version"]
        constraints = [
            models.UniqueConstraint(fields=["submission", "version"], name="one_of_each_version"),
            models.UniqueConstraint(
                fields=["submission"],
                condition=models.Q(status__in=["drafted", "issued"]),
                name="one_open_quote",
            ),
        ]
        indexes = [
            models.Index(fields=["status", "valid_until"], name="quote_by_last_day"),
            models.Index(
                fields=["issued_at"],
                condition=models.Q(issued_at__isnull=False),
                name="quote_by_issue",
            ),
            models.Index(
                fields=["accepted_at", "id"],
                condition=models.Q(status="accepted"),
                name="quote_by_acceptance",
            ),
            models.Index(
                fields=["status", "accepted_at", "id"],
                condition=models.Q(is_here=True),
                name="quote_to_make",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.number} v{self.version}"

    @property
    def is_void(self) -> bool:
        """It was accepted, and a newer version has taken its place."""
        return self.status == QuoteStatus.REPLACED and self.accepted_at is not None


class QuoteDocument(models.Model):
    """The paper as it was sent, with its hash, kept for ever."""

    quote = models.OneToOneField(Quote, models.CASCADE, related_name="document")
    content = models.BinaryField()
    sha256 = models.CharField(max_length=64)
    made_at = models.DateTimeField(default=timezone.now)

    def __str__(self) -> str:
        return self.sha256
