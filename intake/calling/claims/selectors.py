"""Who has a call-back right now."""

from __future__ import annotations

from django.utils import timezone

from intake.calling.models import CallClaim
from intake.models import Submission


def claim_of(submission: Submission) -> CallClaim | None:
    """Who has this call, with the person; None once the lease is over. One query."""
    held = CallClaim.objects.filter(submission=submission, until__gt=timezone.now())
    return held.select_related("by").first()
