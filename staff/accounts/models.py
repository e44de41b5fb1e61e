"""What the desk knows of a person's account beyond Django's own."""

from __future__ import annotations

from django.conf import settings
from django.db import models


class Account(models.Model):
    """One person's account. ``revision`` moves with every change a manager makes to it."""

    user = models.OneToOneField(
        settings.AUTH_USER_MODEL, models.CASCADE, primary_key=True, related_name="desk_account"
    )
    must_change = models.BooleanField(default=False)
    one_time_until = models.DateTimeField(null=True, blank=True)  # a one-time password's end
    revision = models.PositiveIntegerField(default=0)

    class Meta:
        app_label = "staff"
        default_permissions = ()
        permissions = [("manage_accounts", "Can manage the accounts of the staff")]

    def __str__(self) -> str:
        return f"account {self.pk}"
