"""The desk's own records against the sheet."""

from __future__ import annotations

from collections.abc import Iterator

from intake.checks.base import Mismatch, check
from intake.domain.case import Case
from intake.domain.verdict import Severity


@check(
    "duplicate",
    Severity.NOTE,
    ask="Which of the two requests do you want us to work on?",
    source="logic",
    holds=("shaft", "coupling", "bearing"),
)
def the_request_is_new(case: Case) -> Iterator[Mismatch]:
    """The same contact, boat and side already has an open request.

    Telephoned and filled in; or the yard and the owner both asked.
    """
    if case.history.same_open:
        words = f"The same boat and side is open already: {', '.join(case.history.same_open)}."
        yield Mismatch(("boat_name_and_station",), words)


CHECKS = (the_request_is_new,)
