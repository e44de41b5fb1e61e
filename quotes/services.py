"""What may be done with a quote. Each function is one whole step, in one transaction."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from datetime import datetime, time, timedelta
from decimal import Decimal
from typing import Any

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.db.models import F
from django.utils import timezone

from intake.domain.lifecycle import MoveError, Status, require_move
from intake.jobs import enqueue
from intake.models import SheetVersion, Submission
from intake.services import Overtaken, move
from quotes import selectors
from quotes.domain.lifecycle import NotConfirmed, QuoteError, QuoteStatus
from quotes.domain.order import read_order
from quotes.domain.texts import to_confirm
from quotes.links.services import ask_for_mail
from quotes.making import Made, make, price_sheet
from quotes.models import NumberSeries, Quote, QuoteDocument
from quotes.stock.services import hold_for

__all__ = [
    "MoveError",
    "NotConfirmed",
    "Overtaken",
    "QuoteError",
    "accept_quote",
    "decline_quote",
    "issue_quote",
    "lapse_quote",
    "prepare_quote",
    "put_aside",
    "statements",
]

_LONGEST_NAME = 300
_LONGEST_REASON = 1000
# Statuses in which the quote of a sheet stands, and asking again gives the same one.
_STANDS = frozenset({QuoteStatus.ISSUED, QuoteStatus.ACCEPTED})

Finish = Callable[[], Quote]


# --- Issuing --------------------------------------------------------------------------


def issue_quote(
    *, submission_id: int, by: User | None = None, prices: Mapping[str, Decimal] | None = None
) -> Quote:
    """Quote the current sheet: once for each version, however often it is asked.

    A missing price leaves a draft, which staff complete with ``prices`` (unit prices by code).
    Raises MoveError where the submission is not to be quoted, Overtaken where it changed while
    the quote was made.
    """
    found = selectors.job_facts(submission_id)
    if found is None:
        raise Submission.DoesNotExist
    submission, sheet = found
    if standing := _standing(sheet, by):
        return standing
    finish = _prepare(submission, sheet, by, prices or {})
    try:
        return finish()
    except (IntegrityError, Overtaken, MoveError):
        # Two at once: the other one's quote is the quote.
        if standing := _standing(sheet, None):
            return standing
        raise


def prepare_quote(*, submission_id: int) -> Finish | None:
    """Issue by itself, in two steps for a job: the slow part now, the writing in the closure.

    None when there is nothing to do: it is quoted already, or must be asked about first.
    """
    found = selectors.job_facts(submission_id)
    if found is None:
        return None
    submission, sheet = found
    if submission.status != Status.READY or _standing(sheet, None):
        return None
    return _prepare(submission, sheet, None, {})


def _standing(sheet: SheetVersion, by: User | None) -> Quote | None:
    """The quote this sheet already has. Staff may complete a draft, or quote again what was
    declined or has lapsed; nobody quotes again what stands."""
    quote = selectors.quote_of_sheet(sheet)
    if quote is None or quote.status in _STANDS:
        return quote
    return None if by else quote


def _prepare(
    submission: Submission, sheet: SheetVersion, by: User | None, prices: Mapping[str, Decimal]
) -> Finish:
    require_move(Status(submission.status), Status.QUOTED)
    priced = price_sheet(sheet, prices)
    if not priced.lines:
        raise QuoteError("There is nothing to price: the sheet asks for no part.")
    draft = selectors.quote_of_sheet(sheet)
    if draft is not None and draft.status == QuoteStatus.DRAFTED:
        made = make(submission, sheet, priced, draft.number, draft.version)
        return lambda: _store(made, by, draft)
    number, version = _next_number(), selectors.next_version(submission.pk)
    made = make(submission, sheet, priced, number, version)
    return lambda: _store(made, by, None)


def _next_number() -> str:
    """The year's next number. It may be lost when what follows fails; it is never given twice."""
    year = timezone.localdate().year
    with transaction.atomic():
        NumberSeries.objects.get_or_create(year=year)
        NumberSeries.objects.filter(year=year).update(last=F("last") + 1)
        last = NumberSeries.objects.get(year=year).last
    return f"Q-{year}-{last:06d}"


@transaction.atomic
def _store(made: Made, by: User | None, draft: Quote | None) -> Quote:
    """Locks are taken in one order everywhere: sheet, quote, submission."""
    _require_current(made.sheet)
    older = Quote.objects.filter(submission=made.submission, status__in=selectors.open_statuses())
    if draft is None:
        older.update(status=QuoteStatus.REPLACED)
        quote = Quote(submission=made.submission, sheet=made.sheet)
    elif Quote.objects.filter(pk=draft.pk, status=QuoteStatus.DRAFTED).update(made_at=F("made_at")):
        quote = draft
    else:
        raise Overtaken
    _fill(quote, made, by)
    quote.save()
    if made.priced.complete:
        reason = f"quote {made.number} version {made.version}"
        move(made.submission, Status.QUOTED, reason=reason, by=by)
        _keep_paper(quote, made)
        _mail_it(quote)
    return quote


def _mail_it(quote: Quote) -> None:
    """Who rang has never seen the status page: the quote goes to them by mail, once a version."""
    submission = quote.submission
    if submission.channel == "phone" and submission.contact_email:
        key = selectors.offer_key(quote)
        ask_for_mail(submission=submission, kind="offer", key=key)


def _require_current(sheet: SheetVersion) -> None:
    """Whoever replaces the sheet meanwhile waits for us or comes first: then we give way."""
    if not SheetVersion.objects.filter(pk=sheet.pk, is_current=True).update(is_current=True):
        raise Overtaken


def _fill(quote: Quote, made: Made, by: User | None) -> None:
    priced = made.priced
    quote.number, quote.version = made.number, made.version
    quote.lines = [line.as_json() for line in priced.lines]
    quote.missing = [missing.as_json() for missing in priced.missing]
    quote.goods, quote.freight = priced.goods, priced.freight
    quote.freight_words = priced.freight_words
    quote.tax, quote.total, quote.currency = priced.tax, priced.total, made.currency
    quote.status = QuoteStatus.ISSUED if priced.complete else QuoteStatus.DRAFTED
    if priced.complete:
        quote.issued_at, quote.valid_until, quote.issued_by = timezone.now(), made.valid_until, by


def _keep_paper(quote: Quote, made: Made) -> None:
    """The paper with its hash, in the same transaction; and a look at it when it runs out."""
    digest = hashlib.sha256(made.pdf).hexdigest()
    QuoteDocument.objects.create(quote=quote, content=made.pdf, sha256=digest)
    day_after = made.valid_until + timedelta(days=1)
    due = timezone.make_aware(datetime.combine(day_after, time.min))
    enqueue(kind="lapse_quote", payload={"quote_id": quote.pk}, key=f"lapse:{quote.pk}", due=due)


@transaction.atomic
def put_aside(*, submission: Submission) -> int:
    """A new sheet has come: what was offered on an older one no longer holds."""
    older = Quote.objects.filter(submission=submission, status__in=selectors.open_statuses())
    return older.update(status=QuoteStatus.REPLACED)


# --- The customer's answer ------------------------------------------------------------


def accept_quote(*, quote: Quote, name: str, confirmations: list[str]) -> Quote:
    """Accept the latest version, within its time, with every statement confirmed.

    A second click changes nothing. Raises NotConfirmed, or QuoteError where it is too late.
    """
    quote = selectors.fresh_quote(quote.pk)
    if quote.status == QuoteStatus.ACCEPTED:
        return quote
    name = " ".join(name.split())[:_LONGEST_NAME]
    confirmed = _confirmed(quote, name, confirmations)
    answer = {
        "status": QuoteStatus.ACCEPTED,
        "accepted_by": name,
        "accepted_at": timezone.now(),
        "confirmed": confirmed,
    }
    return _answered(quote, Status.ACCEPTED, f"quote {quote.number} accepted by {name}", answer)


def statements(sheet: SheetVersion) -> dict[str, str]:
    """What must be confirmed before a quote on this sheet can be accepted, by short name."""
    order, told = read_order(sheet.body, sheet.outcome), sheet.readings
    boat = (sheet.body.get("answers") or {}).get("boat_name_and_station")
    station = str(boat.get("station") or "") if isinstance(boat, dict) else ""
    return to_confirm(order.shaft is not None, told, station)


def _confirmed(quote: Quote, name: str, confirmations: list[str]) -> list[str]:
    wanted = statements(quote.sheet)
    errors = {
        short: "Please tick each line you agree with; ring us about any you do not."
        for short in wanted
        if short not in confirmations
    }
    if not name:
        errors["name"] = "Please give the name of the person who accepts, or a code word."
    if errors:
        raise NotConfirmed(errors)
    return list(wanted)


def decline_quote(*, quote: Quote, reason: str) -> Quote:
    """Decline with a reason. A second click changes nothing."""
    quote = selectors.fresh_quote(quote.pk)
    if quote.status == QuoteStatus.DECLINED:
        return quote
    reason = reason.strip()[:_LONGEST_REASON]
    if not reason:
        raise NotConfirmed({"reason": "One word is enough: price, time, changed plans?"})
    answer = {
        "status": QuoteStatus.DECLINED,
        "declined_reason": reason,
        "declined_at": timezone.now(),
    }
    why = f"quote {quote.number} declined: {reason}"
    return _answered(quote, Status.DECLINED, why, answer)


def _answered(quote: Quote, to: Status, reason: str, answer: Mapping[str, Any]) -> Quote:
    """Write the answer if the quote still waits for one; the database decides who came first."""
    try:
        with transaction.atomic():
            waiting = Quote.objects.filter(pk=quote.pk, status=QuoteStatus.ISSUED)
            if not waiting.filter(valid_until__gte=timezone.localdate()).update(**answer):
                raise Overtaken
            move(quote.submission, to, reason=reason)
            if to == Status.ACCEPTED:
                hold_for(quote)
                _have_it_drawn(quote)
    except (Overtaken, MoveError):
        now = selectors.quote_state(quote.pk)
        # A second click at the same time is no second answer.
        if now.status != answer["status"]:
            raise QuoteError(_too_late(now)) from None
        answer = {"status": now.status}
    for name, value in answer.items():
        setattr(quote, name, value)
    return quote


def _have_it_drawn(quote: Quote) -> None:
    """The shop's page, drawn once and for good from what was just accepted."""
    payload = {"quote_id": quote.pk}
    enqueue(kind="draw_cut_sheet", payload=payload, key=f"cut-sheet:{quote.pk}")


_TOO_LATE = {
    QuoteStatus.DRAFTED: "This quote is not finished yet; we send it to you as soon as it is.",
    QuoteStatus.ACCEPTED: "This quote was accepted already. Ring us if that should change.",
    QuoteStatus.DECLINED: "This quote was declined already. Ring us if that should change.",
    QuoteStatus.REPLACED: "A newer version has taken this quote's place. Please look at that one.",
    QuoteStatus.LAPSED: "This quote has run out. Ring us, and we make you a new one.",
    QuoteStatus.ISSUED: "This quote has run out. Ring us, and we make you a new one.",
}


def _too_late(quote: selectors.QuoteState) -> str:
    in_time = quote.valid_until is not None and quote.valid_until >= timezone.localdate()
    if quote.status == QuoteStatus.ISSUED and in_time:
        return "Something changed a moment ago. Please look at this page again."
    return _TOO_LATE[QuoteStatus(quote.status)]


@transaction.atomic
def lapse_quote(*, quote_id: int) -> None:
    """Its time has run out without an answer. Does nothing when there was one."""
    quote = selectors.due_to_lapse(quote_id)
    if quote is None or quote.valid_until is None or quote.valid_until >= timezone.localdate():
        return
    waiting = Quote.objects.filter(pk=quote_id, status=QuoteStatus.ISSUED)
    if waiting.update(status=QuoteStatus.LAPSED) and quote.submission.status == Status.QUOTED:
        move(quote.submission, Status.LAPSED, reason=f"quote {quote.number} ran out")
