"""Putting a draft aside for another phone, and clearing away what nobody may open any more."""

from __future__ import annotations

import secrets
from datetime import timedelta
from typing import Any

from django.db import transaction
from django.utils import timezone

from intake.hand_over.models import HandedDraft

LASTS = timedelta(hours=24)


@transaction.atomic
def hand_over(*, draft: dict[str, Any]) -> HandedDraft:
    """Keep a checked draft for 24 hours under a new random name of 128 bits."""
    now = timezone.now()
    HandedDraft.objects.filter(expires_at__lte=now).delete()
    return HandedDraft.objects.create(
        token=secrets.token_urlsafe(16), draft=draft, expires_at=now + LASTS
    )
