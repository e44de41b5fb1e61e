"""One login."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone


class Seat(models.Model):
    """One login of one person. The session holds this row's number; the row decides.

    ``active_at`` is the last time the person did something, kept to the minute. The session's
    own key is a secret and stands nowhere else.
    """

    user = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="seats")
    since = models.DateTimeField(default=timezone.now)
    active_at = models.DateTimeField(default=timezone.now)
    address = models.CharField(max_length=64, blank=True)
    browser = models.CharField(max_length=300, blank=True)
    second = models.BooleanField(default=False)  # came in with the second factor
    locked_at = models.DateTimeField(null=True, blank=True)  # by hand; idleness is computed
    ended_at = models.DateTimeField(null=True, blank=True)
    ended_why = models.CharField(max_length=40, blank=True)

    class Meta:
        app_label = "staff"
        default_permissions = ()
        indexes = [models.Index(fields=["user", "ended_at"], name="seats_of_person")]

    def __str__(self) -> str:
        return f"seat {self.pk}"
