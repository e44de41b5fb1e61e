"""One line of the list of cases."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length
from intake.domain.causes import CAUSES
from intake.models import Submission
from quotes.cases.models import Case
from quotes.domain import case_words as words


@dataclass(frozen=True, slots=True)
class CaseRow:
    """A case as a list shows it."""

    case: Case

    @property
    def submission(self) -> Submission:
        return self.case.quote.submission

    @property
    def state(self) -> str:
        return words.STATES[self.case.state]

    @property
    def kind(self) -> str:
        return words.KINDS[self.case.kind]

    @property
    def opened_as(self) -> str:
        return words.OPENED_AS[self.case.opened_as]

    @property
    def cause(self) -> str:
        return CAUSES.get(self.case.cause, self.case.cause)

    @property
    def gap(self) -> str:
        return Length(self.case.gap_nm).both() if self.case.gap_nm is not None else ""
