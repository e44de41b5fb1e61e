"""Finding a handed-over draft by its name."""

from __future__ import annotations

from django.utils import timezone

from intake.hand_over.models import HandedDraft


def handed_draft(token: str) -> HandedDraft | None:
    """The draft of that name while its day lasts, else None."""
    return HandedDraft.objects.filter(token=token, expires_at__gt=timezone.now()).first()
