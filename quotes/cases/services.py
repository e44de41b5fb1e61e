"""What may be done with a case: the one door, whichever room behind it does the work.

Locks: the quote's own rows first, then the case. Every step leaves a line of history, and what
was decided a line in the trail.
"""

from __future__ import annotations

from quotes.cases.booking.services import Cost, book_cost, book_usual
from quotes.cases.deciding.services import (
    Agreement,
    Coded,
    agree,
    begin,
    close_without,
    code_cause,
    finish,
    reopen,
    tell_size,
    work_note,
)
from quotes.cases.lines.services import TRAIL, CaseError
from quotes.cases.opening.services import case_of_outcome, open_case

__all__ = [
    "TRAIL",
    "Agreement",
    "CaseError",
    "Coded",
    "Cost",
    "agree",
    "begin",
    "book_cost",
    "book_usual",
    "case_of_outcome",
    "close_without",
    "code_cause",
    "finish",
    "open_case",
    "reopen",
    "tell_size",
    "work_note",
]
