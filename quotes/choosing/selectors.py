"""What was chosen for a request."""

from __future__ import annotations

from quotes.domain.choice import NO_CHOICE, Choice


def choice_of(submission_id: int) -> Choice:
    """The choice that stands for this request."""
    del submission_id
    return NO_CHOICE
