"""Issuing a quote, once for what it is priced from. Each function is one whole step."""

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
from quotes.cases.selectors import is_put_right
from quotes.domain.lifecycle import QuoteError, QuoteStatus
from quotes.domain.remake_price import Remake
from quotes.ending.services import hold_sheet, replace_open
from quotes.links.services import ask_for_offer
from quotes.making import Made, PricedSheet, make, worked_out
from quotes.models import NumberSeries, Quote, QuoteDocument

# Statuses in which the quote of a sheet stands, and asking again gives the same one.
STANDS = frozenset({QuoteStatus.ISSUED, QuoteStatus.ACCEPTED})

Finish = Callable[[], Quote]


def issue_quote(
    *, submission_id: int, by: User | None = None, prices: Mapping[str, Decimal] | None = None
) -> Quote:
    """Quote the current sheet: once for each version, however often it is asked.

    A missing price leaves a draft, which staff complete with ``prices`` (unit prices by code).
    Raises MoveError where the submission is not to be quoted, Overtaken where it changed while
    the quote was made.
    """
    submission, sheet = facts_of(submission_id)
    latest = selectors.latest_quote(submission)  # before it is looked at what stands
    if standing := _standing(sheet, by):
        return standing
    finish = _prepare(submission, sheet, by, prices or {}, latest)
    try:
        return finish()
    except (IntegrityError, Overtaken, MoveError):
        # Two at once: the other one's quote is the quote.
        if standing := _standing(sheet, None):
            return standing
        raise


def prepare_quote(*, submission_id: int) -> Finish | None:
    """Issue by itself, in two steps for a job: the slow part now, the writing in the closure.

    None when there is nothing to do: it is quoted already, or must be asked about first; or a
    misfit is open, and the desk decides what is made anew and who pays.
    """
    found = selectors.job_facts(submission_id)
    if found is None:
        return None
    submission, sheet = found
    latest = selectors.latest_quote(submission)  # before it is looked at what stands
    if submission.status != Status.READY or _standing(sheet, None) or is_put_right(submission):
        return None
    return _prepare(submission, sheet, None, {}, latest)


def facts_of(submission_id: int) -> tuple[Submission, SheetVersion]:
    """The submission with its current sheet. Raises Submission.DoesNotExist."""
    found = selectors.job_facts(submission_id)
    if found is None:
        raise Submission.DoesNotExist
    return found


def _standing(sheet: SheetVersion, by: User | None) -> Quote | None:
    """The quote this sheet already has. Staff may complete a draft, or quote again what was
    declined or has lapsed; nobody quotes again what stands."""
    quote = selectors.quote_of_sheet(sheet)
    if quote is None or quote.status in STANDS:
        return quote
    return None if by else quote


def _prepare(
    submission: Submission,
    sheet: SheetVersion,
    by: User | None,
    prices: Mapping[str, Decimal],
    latest: Quote | None,
) -> Finish:
    require_move(Status(submission.status), Status.QUOTED)
    made = made_of(submission, priced(sheet, prices))
    return lambda: store(made, by, latest=latest)


def priced(
    sheet: SheetVersion,
    prices: Mapping[str, Decimal],
    remake: Remake | None = None,
    standing: Mapping[str, Any] | None = None,
) -> PricedSheet:
    """The sheet's price now. Raises QuoteError where there is nothing to price."""
    found = worked_out(sheet, prices, remake, standing)
    if not found.priced.lines:
        raise QuoteError("There is nothing to price: the sheet asks for no part.")
    return found


def made_of(submission: Submission, found: PricedSheet) -> Made:
    """Numbered and on paper: a draft keeps its number, everything else is a new version."""
    draft = selectors.quote_of_sheet(found.sheet)
    if draft is not None and draft.status == QuoteStatus.DRAFTED:
        made = make(submission, found.sheet, found, draft.number, draft.version)
        return made.completing(draft)
    number, version = _next_number(), selectors.next_version(submission.pk)
    return make(submission, found.sheet, found, number, version)


def _next_number() -> str:
    """The year's next number. It may be lost when what follows fails; it is never given twice."""
    year = timezone.localdate().year
    with transaction.atomic():
        NumberSeries.objects.get_or_create(year=year)
        NumberSeries.objects.filter(year=year).update(last=F("last") + 1)
        last = NumberSeries.objects.get(year=year).last
    return f"Q-{year}-{last:06d}"


@transaction.atomic
def store(
    made: Made,
    by: User | None,
    *,
    latest: Quote | None,
    why: str = "",
    asked_on_page: bool = False,
    remake_of: Quote | None = None,
) -> Quote:
    """Write a quote and its paper. Locks are taken in one order: sheet, quote, submission.

    ``latest``: the newest quote there was when it was decided to make this one. Raises Overtaken
    where somebody else has made one since: two at once would make two of the same.
    ``asked_on_page``: the customer asked for this version on the status page and sees it there.
    """
    hold_sheet(made.sheet)
    if not selectors.is_latest(latest, made.submission):
        raise Overtaken
    quote = _row(made, why)
    _fill(quote, made, by)
    quote.remake_of = remake_of or quote.remake_of
    quote.save()
    if made.priced.complete:
        reason = f"quote {made.number} version {made.version}"
        move(made.submission, Status.QUOTED, reason=reason, by=by)
        _keep_paper(quote, made)
        ask_for_offer(quote, asked_on_page=asked_on_page)
    elif made.submission.status == Status.QUOTED:
        move(made.submission, Status.READY, reason="a price is missing", by=by)
    return quote


def _row(made: Made, why: str) -> Quote:
    """The draft that is completed, or a new row in the place of what was open."""
    draft = made.draft
    if draft is None:
        replace_open(made.submission, why or f"version {made.version} was made")
        return Quote(submission=made.submission, sheet=made.sheet)
    if Quote.objects.filter(pk=draft.pk, status=QuoteStatus.DRAFTED).update(made_at=F("made_at")):
        return draft
    raise Overtaken


def _fill(quote: Quote, made: Made, by: User | None) -> None:
    priced = made.priced
    quote.number, quote.version, quote.inputs = made.number, made.version, made.inputs
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
