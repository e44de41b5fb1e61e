"""What customers told us, version by version, what was asked, and what is left to do.

Nothing here is overwritten: a corrected answer is a new sheet version, a status has its history.
Only services write these rows, only selectors read them.
"""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from intake.calling.models import OUTCOMES as OUTCOMES
from intake.calling.models import BlindReading as BlindReading  # Django looks for models here
from intake.calling.models import CallAlarm as CallAlarm
from intake.calling.models import CallClaim as CallClaim
from intake.calling.models import CallRecord as CallRecord
from intake.customers.models import Boat as Boat
from intake.customers.models import Customer as Customer
from intake.customers.models import Merge as Merge
from intake.desk_drafts.models import DeskDraft as DeskDraft
from intake.desk_drafts.models import PageOpen as PageOpen
from intake.domain.kept_history import KEY
from intake.domain.lifecycle import LABELS, Status
from intake.fields import KeptJSON
from intake.finding.models import RequestLine as RequestLine
from intake.hand_over.models import HandedDraft as HandedDraft
from intake.limit_sets.models import LimitSet as LimitSet
from intake.photos.models import Photo as Photo
from intake.records.models import ShaftFitted as ShaftFitted
from intake.wording.models import QuestionWording as QuestionWording

SEVERITIES = [("stop", _("stop")), ("ask", _("ask")), ("note", _("note"))]
VERDICTS = [("release", _("release")), ("ask", _("ask")), ("stop", _("stop"))]


class Submission(models.Model):
    """One request, kept for ever with all its sheets."""

    # Read along or just written, by whoever had them at hand.
    current_sheets: list[SheetVersion]
    first_sheet: SheetVersion

    reference = models.CharField(max_length=9)
    token = models.CharField(max_length=43)
    status = models.CharField(
        max_length=10, choices=[(s.value, LABELS[s]) for s in Status], default=Status.RECEIVED.value
    )
    verdict = models.CharField(max_length=7, choices=VERDICTS)
    channel = models.CharField(max_length=5)
    # What papers and mails are written in; empty: nobody told, so the site's own.
    language = models.CharField(max_length=5, blank=True, default="")
    received_at = models.DateTimeField(default=timezone.now)
    contact_name = models.CharField(max_length=300, blank=True)
    contact_phone = models.CharField(max_length=64, blank=True)
    contact_email = models.CharField(max_length=254, blank=True)
    contact_role = models.CharField(max_length=10, blank=True)
    boat_name = models.CharField(max_length=300, blank=True)
    station = models.CharField(max_length=10, blank=True)
    job = models.CharField(max_length=40, blank=True)
    needed_by = models.DateField(null=True, blank=True)
    # What a second sheet for the same boat is found by: the name without its case and spacing.
    boat_key = models.CharField(max_length=300, blank=True)
    # The records it belongs to; none where nothing told who asks.
    customer = models.ForeignKey(
        Customer, models.PROTECT, null=True, blank=True, related_name="submissions"
    )
    boat = models.ForeignKey(
        Boat, models.PROTECT, null=True, blank=True, related_name="submissions"
    )
    # What the call-back queue goes by: the moment the call must have been made and why then, since
    # when somebody waits, not before which moment the customer asked us to try again, and what a
    # wrong cut would cost in parts. Empty where nobody waits for a call.
    call_by = models.DateTimeField(null=True, blank=True)
    call_why = models.CharField(max_length=200, blank=True)
    waits_since = models.DateTimeField(null=True, blank=True)
    not_before = models.DateTimeField(null=True, blank=True)
    at_stake = models.DecimalField(max_digits=10, decimal_places=2, null=True, blank=True)
    erased_at = models.DateTimeField(null=True, blank=True)
    # Its line in `RequestLine` is behind; whoever changes what is found by says so.
    to_index = models.BooleanField(default=True)
    idempotency_key = models.CharField(max_length=200, blank=True)
    body_digest = models.CharField(max_length=64)

    class Meta:
        ordering = ["-pk"]  # newest first
        # Constraints, not unique=True: on PostgreSQL that would bring a second index for LIKE.
        constraints = [
            models.UniqueConstraint(fields=["reference"], name="one_of_each_reference"),
            models.UniqueConstraint(fields=["token"], name="one_of_each_token"),
            models.UniqueConstraint(
                fields=["idempotency_key"],
                condition=~Q(idempotency_key=""),
                name="one_of_each_key",
            ),
        ]
        indexes = [
            models.Index(fields=["status", "received_at"], name="submission_queue"),
            models.Index(fields=["status", "call_by"], name="submission_by_need"),
            models.Index(fields=["boat_key", "station", "received_at"], name="submission_boat"),
            models.Index(
                fields=["not_before"],
                condition=Q(not_before__isnull=False),
                name="submission_promised",
            ),
            models.Index(fields=["id"], condition=Q(to_index=True), name="submission_to_index"),
        ]
        permissions = [
            ("merge_records", "Can merge records of customers and boats, and part them again"),
            ("erase_customer", "Can hand out and erase what is kept of one customer"),
            ("view_insights", "Can see why mismatches repeat"),
            ("override_stop", "Can release a sheet over a stop, with a reason"),
        ]

    def __str__(self) -> str:
        return self.reference

    @property
    def current(self) -> SheetVersion:
        """The sheet version that counts now; already here when a selector read it along."""
        read_along: list[SheetVersion] = getattr(self, "current_sheets", [])
        return read_along[0] if read_along else self.sheets.get(is_current=True)

    def first_answer(self) -> dict[str, Any]:
        """What the API answered when this was received, and answers again on a repeat.

        The absolute ``link`` is added by whoever knows the address we are reached at.
        """
        first: SheetVersion | None = getattr(self, "first_sheet", None)
        answer = (first or self.sheets.get(number=1)).answer
        return {**answer, "reference": self.reference}


class SheetVersion(models.Model):
    """All answers of one request at one time, as typed, and what the checks said of them."""

    to_ask: list[FindingRecord]  # read along by the call-back queue

    # The unique pair below is its index.
    submission = models.ForeignKey(
        Submission, models.CASCADE, related_name="sheets", db_index=False
    )
    number = models.PositiveSmallIntegerField()
    is_current = models.BooleanField(default=True)
    body = KeptJSON()
    readings = KeptJSON(default=dict)
    outcome = KeptJSON()
    verdict = models.CharField(max_length=7, choices=VERDICTS)
    fit_probability = models.FloatField(null=True, blank=True)
    rules_version = models.CharField(max_length=20)
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        db_index=False,
    )
    made_at = models.DateTimeField(default=timezone.now)
    reason = models.CharField(max_length=200, blank=True)
    said_by = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["submission", "number"]
        constraints = [
            models.UniqueConstraint(fields=["submission", "number"], name="one_of_each_number"),
            models.UniqueConstraint(
                fields=["submission"], condition=Q(is_current=True), name="one_current_sheet"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.submission_id}.{self.number}"

    @property
    def answer(self) -> dict[str, Any]:
        """The verdict as the API gives it: what was stored, less what is the desk's own.

        That is the figures for drawing, and what was known beside the sheet.
        """
        own = ("stack", KEY)
        return {name: value for name, value in self.outcome.items() if name not in own}


class FindingRecord(models.Model):
    """One check that fired on one sheet version, with the few columns insights are grouped by."""

    sheet = models.ForeignKey(SheetVersion, models.CASCADE, related_name="finding_rows")
    position = models.PositiveSmallIntegerField()
    check_id = models.CharField(max_length=40)
    severity = models.CharField(max_length=4, choices=SEVERITIES)
    answer = models.CharField(max_length=40, blank=True)
    message = models.TextField()
    question = models.TextField(blank=True)
    month = models.CharField(max_length=7)
    channel = models.CharField(max_length=5)
    # True the first time this check holds this submission: a second version does not count twice.
    counts = models.BooleanField(default=False)
    about: str  # the answer's own name, read along by the call-back queue

    class Meta:
        ordering = ["sheet", "position"]
        indexes = [
            models.Index(
                fields=["month", "check_id", "channel"],
                condition=Q(counts=True),
                name="finding_by_check",
            ),
            models.Index(
                fields=["month", "answer", "channel"],
                condition=Q(counts=True),
                name="finding_by_answer",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.check_id} ({self.severity})"


class Event(models.Model):
    """One change of status, written with it."""

    submission = models.ForeignKey(Submission, models.CASCADE, related_name="events")
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        db_index=False,
    )
    at = models.DateTimeField(default=timezone.now)
    old_status = models.CharField(max_length=10)
    new_status = models.CharField(max_length=10)
    reason = models.CharField(max_length=200)

    class Meta:
        ordering = ["at", "pk"]

    def __str__(self) -> str:
        return f"{self.old_status} -> {self.new_status}"


class Job(models.Model):
    """Work for later, written in the transaction of the change it belongs to."""

    kind = models.CharField(max_length=40)
    payload = models.JSONField(default=dict)
    key = models.CharField(max_length=200, unique=True)
    due = models.DateTimeField(default=timezone.now)
    lease_until = models.DateTimeField(null=True, blank=True)
    lease_token = models.CharField(max_length=43, blank=True)
    attempts = models.PositiveSmallIntegerField(default=0)
    done_at = models.DateTimeField(null=True, blank=True)
    dead = models.BooleanField(default=False)
    error = models.TextField(blank=True)
    created_at = models.DateTimeField(default=timezone.now)

    class Meta:
        ordering = ["due", "pk"]
        indexes = [
            models.Index(
                fields=["due"], condition=Q(done_at__isnull=True, dead=False), name="job_to_do"
            ),
        ]

    def __str__(self) -> str:
        return self.key
