"""How a quote ends. Each function is one whole step, in one transaction.

Locks are taken in one order: sheet, quote, submission; so that a yes, a correction and a new
version at the same moment wait for each other and one of them comes first.
"""

from __future__ import annotations

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import F
from django.utils import timezone

from intake.domain.lifecycle import MoveError, Status
from intake.models import SheetVersion, Submission
from intake.selectors import current_sheet, fresh_sheet
from intake.services import Overtaken, move
from quotes import selectors
from quotes.checks.accepted import Beside, nothing_changed
from quotes.domain.lifecycle import NotConfirmed, QuoteError, QuoteStatus
from quotes.ending.agreed import agreed_on
from quotes.links.services import ask_for_mail
from quotes.models import Quote
from quotes.sending.selectors import shipped_on
from quotes.stock.services import give_back

LONGEST_WHY = 1000


def hold_sheet(sheet: SheetVersion) -> None:
    """Whoever replaces the sheet meanwhile waits for us or comes first: then we give way."""
    if not SheetVersion.objects.filter(pk=sheet.pk, is_current=True).update(is_current=True):
        raise Overtaken


def replace_open(submission: Submission, why: str) -> int:
    """What was offered and not answered no longer holds, in the caller's transaction."""
    older = Quote.objects.filter(submission=submission, status__in=selectors.open_statuses())
    return older.update(
        status=QuoteStatus.REPLACED, ended_at=timezone.now(), ended_why=why[:LONGEST_WHY]
    )


def void(quote: Quote, why: str, by: User | None = None) -> None:
    """An acceptance no longer holds: pieces go back, the customer is told. In the caller's
    transaction, which holds the sheet. Raises Overtaken where it is accepted no more."""
    if not _end(quote, QuoteStatus.REPLACED, why, by):
        raise Overtaken
    ask_for_mail(submission=quote.submission, kind="voided", key=f"voided:{quote.pk}", quote=quote)


def _end(quote: Quote, to: QuoteStatus, why: str, by: User | None) -> bool:
    """Of an accepted quote; give its pieces back."""
    quote.status, quote.ended_at, quote.ended_by = to, timezone.now(), by
    quote.ended_why = why[:LONGEST_WHY]
    accepted = Quote.objects.filter(pk=quote.pk, status=QuoteStatus.ACCEPTED)
    fields = ("status", "ended_at", "ended_why", "ended_by")
    if not accepted.update(**{name: getattr(quote, name) for name in fields}):
        return False
    give_back(quote)
    return True


@transaction.atomic
def put_aside(*, submission: Submission) -> int:
    """A new sheet has come: what was offered on an older one no longer holds.

    What was accepted stands if the new sheet says nothing else, and is then kept with it;
    else it is void, and the words say what differs. An order that has left us is history.
    """
    if not selectors.has_standing(submission):
        return 0
    sheet = fresh_sheet(submission)
    aside = replace_open(submission, f"sheet version {sheet.number} has taken its sheet's place")
    for quote in selectors.accepted_quotes(submission):
        if shipped_on(quote) is not None:
            continue
        changes = what_changed(quote, sheet)
        if changes:
            void(quote, " ".join(changes))
            aside += 1
        else:
            Quote.objects.filter(pk=quote.pk).update(sheet=sheet)
    return aside


def stand_by(*, submission: Submission) -> bool:
    """A request may go on again after a call: does its quote still stand, accepted or waiting for
    an answer? Then it goes back to where it was, and nothing is quoted anew."""
    quote = selectors.quote_of_sheet(current_sheet(submission))
    to = _STANDS_AS.get(QuoteStatus(quote.status)) if quote else None
    if quote is None or to is None:
        return False
    reason = f"quote {quote.number} stands: nothing it rests on has changed"
    move(submission, to, reason=reason)
    return True


_STANDS_AS = {QuoteStatus.ACCEPTED: Status.ACCEPTED, QuoteStatus.ISSUED: Status.QUOTED}


def what_changed(quote: Quote, sheet: SheetVersion) -> tuple[str, ...]:
    """What a sheet says otherwise than the one that was accepted; empty where nothing."""
    choice = selectors.choice_kept(quote)
    beside = Beside(agreed_on(quote.sheet, choice), agreed_on(sheet, choice))
    return tuple(one.message for one in nothing_changed.found(beside))


def cancel_order(*, quote: Quote, reason: str, by: User) -> Quote:
    """Call an accepted order off: its pieces go back, its request is closed.

    A second click changes nothing. Raises NotConfirmed (no reason), QuoteError (not accepted).
    """
    quote, reason = selectors.fresh_quote(quote.pk), " ".join(reason.split())
    if quote.status == QuoteStatus.CANCELLED:
        return quote
    if not reason:
        raise NotConfirmed({"reason": "Please write in a few words why it is called off."})
    try:
        with transaction.atomic():
            hold_sheet(quote.sheet)
            if not _end(quote, QuoteStatus.CANCELLED, reason, by):
                raise Overtaken
            why = f"order on quote {quote.number} cancelled: {reason}"
            move(quote.submission, Status.WITHDRAWN, reason=why, by=by)
    except (Overtaken, MoveError):
        now = selectors.fresh_quote(quote.pk)
        if now.status == QuoteStatus.CANCELLED:
            return now
        if now.status == QuoteStatus.ACCEPTED:
            raise QuoteError("Something changed a moment ago. Please look again.") from None
        raise QuoteError(f"This quote is {now.status}, so there is no order to cancel.") from None
    return quote


@transaction.atomic
def lapse_quote(*, quote_id: int) -> None:
    """Its time has run out without an answer. Does nothing when there was one."""
    quote = selectors.due_to_lapse(quote_id)
    if quote is None or quote.valid_until is None or quote.valid_until >= timezone.localdate():
        return
    SheetVersion.objects.filter(pk=quote.sheet_id).update(number=F("number"))  # the lock
    waiting = Quote.objects.filter(pk=quote_id, status=QuoteStatus.ISSUED)
    if waiting.update(status=QuoteStatus.LAPSED, ended_at=timezone.now()):
        submission = selectors.fresh_quote(quote_id).submission
        if submission.status == Status.QUOTED:
            move(submission, Status.LAPSED, reason=f"quote {quote.number} ran out")
