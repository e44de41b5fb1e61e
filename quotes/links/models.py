"""Links that no longer hold, mails that left or will, and who wants none."""

from __future__ import annotations

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

KINDS = [
    ("link", _("a new link")),
    ("question", _("reminder of a question")),
    ("quote", _("reminder of a quote")),
    ("offer", _("the quote")),
    ("accepted", _("what was accepted")),
    ("voided", _("an acceptance that holds no more")),
    ("bundle", _("a quote for several boats")),
    ("fitted_7", _("whether it fitted, after a week")),
    ("fitted_30", _("whether it fitted, after a month")),
]


class OldLink(models.Model):
    """A link that a newer one took the place of, known by its digest alone."""

    submission = models.ForeignKey("intake.Submission", models.CASCADE, related_name="old_links")
    digest = models.CharField(max_length=64)
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["-at", "-pk"]  # newest first
        constraints = [
            models.UniqueConstraint(fields=["digest"], name="one_of_each_old_link"),
        ]

    def __str__(self) -> str:
        return f"{self.submission_id}: until {self.at:%Y-%m-%d}"


class Mail(models.Model):
    """One mail to a customer. Its words are written as it leaves, from what is true then.

    ``sending_at`` is set before the mail server is spoken to, and taken back when it refuses: a
    mail that may have left is never sent again. ``quote``: the version it speaks of.
    ``unless_opened``: not sent where the customer has opened that version by then.
    """

    submission = models.ForeignKey("intake.Submission", models.CASCADE, related_name="mails")
    quote = models.ForeignKey(
        "quotes.Quote", models.CASCADE, null=True, blank=True, related_name="mails"
    )
    bundle = models.ForeignKey(
        "quotes.Bundle", models.CASCADE, null=True, blank=True, related_name="mails"
    )
    kind = models.CharField(max_length=10, choices=KINDS)
    key = models.CharField(max_length=80)
    unless_opened = models.BooleanField(default=False)
    made_at = models.DateTimeField(default=timezone.now)
    sending_at = models.DateTimeField(null=True, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    dropped = models.CharField(max_length=60, blank=True)  # why it was not sent after all

    class Meta:
        app_label = "quotes"
        ordering = ["-made_at", "-pk"]
        constraints = [models.UniqueConstraint(fields=["key"], name="one_of_each_mail")]

    def __str__(self) -> str:
        return self.key


class NoReminders(models.Model):
    """This customer does not want to be reminded of this submission."""

    submission = models.OneToOneField(
        "intake.Submission", models.CASCADE, related_name="no_reminders"
    )
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return str(self.submission_id)
