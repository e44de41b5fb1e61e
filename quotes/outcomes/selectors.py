"""Whether the customer is to be asked how it fitted, and what was told."""

from __future__ import annotations

from datetime import date, timedelta

from django.utils import timezone

from quotes.calendar.selectors import calendar
from quotes.domain.lead import lead_days, working_days_after
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.order import read_order
from quotes.models import Quote
from quotes.outcomes.models import Outcome
from quotes.selectors import rates

ASKED_AFTER = (7, 30)  # days after it left us


def leaves_on(quote: Quote) -> date | None:
    """The day the parts should leave us, in working days after the yes; None without one."""
    if quote.accepted_at is None:
        return None
    order = read_order(quote.sheet.body, quote.sheet.outcome)
    accepted = timezone.localtime(quote.accepted_at).date()
    return working_days_after(accepted, lead_days(order, rates()), calendar())


def asked_now(quote: Quote) -> int:
    """After how many days it is asked about now; 0 where it is too early, or all was told.

    Nobody's silence counts as a yes: what was not told is asked for again, the later time alone.
    """
    left = leaves_on(quote) if quote.status == QuoteStatus.ACCEPTED else None
    if left is None or timezone.localdate() < left + timedelta(days=ASKED_AFTER[0]):
        return 0
    told = {one.after_days for one in outcomes_of(quote)}
    due = [n for n in ASKED_AFTER if timezone.localdate() >= left + timedelta(days=n)]
    return 0 if max(due) in told or max(ASKED_AFTER) in told else max(due)


def outcomes_of(quote: Quote) -> list[Outcome]:
    """What was told so far."""
    return list(quote.outcomes.all())
