"""A person's second factor, the codes on paper, and who must have one."""

from __future__ import annotations

from django.conf import settings
from django.contrib.auth.models import Group
from django.db import models
from django.utils import timezone

PEOPLE = settings.AUTH_USER_MODEL


class SecondFactor(models.Model):
    """What codes of one phone are made from. The secret itself is not stored.

    It is derived from ``salt`` and the site's key, so a stolen database makes no codes. ``salt``
    empty: none is set up. ``proposed`` is a new one, shown and not yet confirmed by a code.
    """

    user = models.OneToOneField(PEOPLE, models.CASCADE, primary_key=True, related_name="second")
    salt = models.CharField(max_length=64, blank=True)
    since = models.DateTimeField(null=True, blank=True)
    last_step = models.BigIntegerField(default=0)  # half minutes since 1970; each counts once
    proposed = models.CharField(max_length=64, blank=True)
    proposed_at = models.DateTimeField(null=True, blank=True)
    tries = models.PositiveSmallIntegerField(default=0)
    wait_until = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "staff"
        default_permissions = ()

    def __str__(self) -> str:
        return f"second factor of {self.pk}"

    @property
    def is_on(self) -> bool:
        return bool(self.salt)


class RecoveryCode(models.Model):
    """One code on paper: hashed, numbered, good once."""

    user = models.ForeignKey(PEOPLE, models.CASCADE, related_name="+")
    number = models.PositiveSmallIntegerField()
    hashed = models.CharField(max_length=200)
    used_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "staff"
        default_permissions = ()
        constraints = [models.UniqueConstraint(fields=["user", "number"], name="one_of_a_number")]

    def __str__(self) -> str:
        return f"recovery code {self.number}"


class SecondRule(models.Model):
    """Who must have a second factor. Rows are only added; the newest is in force.

    Numbered one by one under a unique constraint: of two managers at once the second is told.
    """

    number = models.PositiveIntegerField(unique=True)
    everyone = models.BooleanField(default=False)
    groups = models.ManyToManyField(Group, related_name="+")
    why = models.CharField(max_length=400)
    by = models.ForeignKey(PEOPLE, models.PROTECT, null=True, related_name="+", db_index=False)
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "staff"
        default_permissions = ()
        ordering = ["-number"]

    def __str__(self) -> str:
        return f"rule {self.number}"
