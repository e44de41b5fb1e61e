"""How far the quote of a request is, for the counter: made, issued, mailed, or what is missing."""

from __future__ import annotations

from dataclasses import dataclass

from intake.domain.lifecycle import Status
from intake.models import Submission
from intake.selectors import current_sheet
from quotes import selectors
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.money import money_text
from quotes.links.models import Mail
from quotes.links.selectors import may_have_left
from quotes.models import Quote


@dataclass(frozen=True, slots=True)
class QuoteProgress:
    """One moment of it. ``word``: open, making, failed, drafted, out or none.

    ``again``: in how many seconds it is worth looking again; 0 where nothing more will come by
    itself. ``mail``: the mail the quote goes out with, if one was asked for.
    """

    word: str
    again: int = 0
    quote: Quote | None = None
    mail: Mail | None = None

    @property
    def total(self) -> str:
        """The quote's total with its currency."""
        return money_text(self.quote.total, self.quote.currency) if self.quote else ""


_SOON, _LATER = 1, 5  # seconds


def quote_state(submission: Submission) -> QuoteProgress:
    """Where the quote of the current sheet stands now; at most four queries."""
    if submission.status in (Status.RECEIVED, Status.NEEDS_CALL):
        return QuoteProgress("open")
    sheet = current_sheet(submission)
    quote = selectors.quote_of_sheet(sheet)
    if quote is None and submission.status == Status.READY:
        failed = selectors.making_failed(sheet)
        return QuoteProgress("failed") if failed else QuoteProgress("making", _SOON)
    if quote is None:
        return QuoteProgress("none")
    if quote.status == QuoteStatus.DRAFTED:
        return QuoteProgress("drafted", quote=quote)
    mail = selectors.offer_mail(quote)
    return QuoteProgress("out", _again(mail), quote, mail)


def _again(mail: Mail | None) -> int:
    """A mail under way is worth another look; a mail server that is silent is not asked hotly."""
    if mail is None or mail.sent_at or mail.dropped or may_have_left(mail):
        return 0
    return _SOON if mail.sending_at else _LATER
