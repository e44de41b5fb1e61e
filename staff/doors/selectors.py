"""Reading who stands at the door."""

from __future__ import annotations

from django.contrib.auth.models import User


def open_person(pk: int) -> User | None:
    """A person whose account is open."""
    return User.objects.filter(pk=pk, is_active=True).first()
