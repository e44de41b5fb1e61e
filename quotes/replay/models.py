"""A period judged again under changed limits, and the sheets to which the change does anything."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone

from intake.fields import KeptJSON

WAITING, RUNNING, DONE, CANCELLED, FAILED = "waiting", "running", "done", "cancelled", "failed"
STATES = [
    (WAITING, "waiting"),
    (RUNNING, "running"),
    (DONE, "done"),
    (CANCELLED, "cancelled"),
    (FAILED, "failed"),
]
GOES_ON = (WAITING, RUNNING)


class Replay(models.Model):
    """One period, judged again.

    ``changes``: what is changed against the base, by name, as a set keeps it; "" goes back to the
    usual. ``base_*``: the limits in force when it was asked, whole, so that it is judged by them to
    its end whatever is adopted meanwhile. ``upto`` and ``last``: keys of requests, how far it is
    and where it ends. ``result``: its counts. ``call_cost``: what a call cost on that day.
    ``ask_key``: of the form it was asked by; one form asks once.
    """

    name = models.CharField(max_length=60)
    first_day = models.DateField()
    last_day = models.DateField()
    changes = KeptJSON(default=dict)
    base_name = models.CharField(max_length=20)
    base_values = KeptJSON(default=dict)
    base_counts = KeptJSON(default=dict)
    note = models.CharField(max_length=400, blank=True)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", db_index=False
    )
    made_at = models.DateTimeField(default=timezone.now)
    ask_key = models.CharField(max_length=43)
    state = models.CharField(max_length=9, choices=STATES, default=WAITING)
    started_at = models.DateTimeField(null=True, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)
    total = models.PositiveIntegerField(default=0)
    done = models.PositiveIntegerField(default=0)
    upto = models.PositiveBigIntegerField(default=0)
    last = models.PositiveBigIntegerField(default=0)
    result = KeptJSON(default=dict)
    call_cost = models.DecimalField(max_digits=9, decimal_places=2, default=0)
    adopted_as = models.CharField(max_length=20, blank=True)

    class Meta:
        app_label = "quotes"
        ordering = ["-pk"]  # newest first
        constraints = [
            models.UniqueConstraint(fields=["ask_key"], name="one_replay_of_each_form"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def goes_on(self) -> bool:
        """Whether more will come of it."""
        return self.state in GOES_ON


class ReplaySheet(models.Model):
    """One first sheet whose verdict, or what holds it, the change moves.

    ``before``: by the limits in force, ``after``: by the changed ones, on the same facts.
    ``*_holding``: pairs of check and severity. ``question``: what would be asked first;
    none where nobody is called.
    ``drifted``: what is in force judges it otherwise today than was stored.
    """

    replay = models.ForeignKey(Replay, models.CASCADE, related_name="sheets", db_index=False)
    submission = models.ForeignKey("intake.Submission", models.CASCADE, related_name="+")
    before = models.CharField(max_length=7)
    after = models.CharField(max_length=7)
    before_holding = KeptJSON(default=list)
    after_holding = KeptJSON(default=list)
    question = models.TextField(blank=True)
    wrong = models.BooleanField(default=False)
    drifted = models.BooleanField(default=False)

    class Meta:
        app_label = "quotes"
        ordering = ["replay", "submission"]
        constraints = [
            models.UniqueConstraint(
                fields=["replay", "submission"], name="one_line_of_each_replayed"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.submission_id}: {self.before} → {self.after}"
