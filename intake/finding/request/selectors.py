"""What the page of one request reads besides its sheet and its history."""

from __future__ import annotations

from collections.abc import Mapping

from django.http import QueryDict

from intake.finding.lists.asked import asked_for
from intake.finding.lists.selectors import neighbours
from intake.models import Submission


def with_records(reference: str) -> Submission:
    """The request with its customer and boat. Raises Submission.DoesNotExist."""
    wanted = Submission.objects.select_related("customer", "boat")
    return wanted.get(reference=reference.strip().upper())


def beside(submission: Submission, address: str) -> Mapping[str, str]:
    """References before and after this one in the list it was opened from; empty at its ends."""
    keys = neighbours(asked_for(QueryDict(address).dict()), submission.pk)
    named = dict(
        Submission.objects.filter(pk__in=[key for key in keys if key]).values_list(
            "pk", "reference"
        )
    )
    before, after = (named.get(key or 0, "") for key in keys)
    return {"before": before, "after": after}
