"""One order of which nothing was heard, and what was expected of one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from intake.models import Submission
from quotes.models import Quote
from quotes.outcomes.selectors import expected_of


@dataclass(frozen=True, slots=True)
class SilentRow:
    """An order as the list shows it."""

    quote: Quote
    today: date

    @property
    def submission(self) -> Submission:
        return self.quote.submission

    @property
    def sent(self) -> date:
        return self.quote.shipment.day

    @property
    def days(self) -> int:
        """Since it was sent."""
        return (self.today - self.sent).days


def expected_words(quote: Quote) -> str:
    """The gap it was to leave, for whoever asks; never to be read out first."""
    found = expected_of(quote)
    if found is None:
        return ""
    show = found.system
    return (
        f"Expected {found.gap.show(show)}, a fair gap is {found.least.show(show)} to "
        f"{found.most.show(show)}."
    )
