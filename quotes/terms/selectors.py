"""What was agreed with whom."""

from __future__ import annotations

from intake.models import Submission
from quotes.domain.terms import NO_TERMS, Terms


def terms_of(submission: Submission) -> Terms:
    """The terms in force today for the customer behind this request."""
    del submission
    return NO_TERMS
