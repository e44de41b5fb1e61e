"""The customer's answer to a quote. Each function is one whole step, in one transaction."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from intake.domain.lifecycle import MoveError, Status
from intake.jobs import enqueue
from intake.services import Overtaken, move
from quotes import selectors
from quotes.domain.lifecycle import TOO_LATE, NotConfirmed, QuoteError, QuoteStatus
from quotes.ending.agreed import statements
from quotes.ending.services import hold_sheet
from quotes.links.services import ask_for_mail
from quotes.models import Quote
from quotes.receiving.services import await_own_parts
from quotes.stock.services import hold_for

_LONGEST_NAME = 300
_LONGEST_PLACE = 200
_LONGEST_REASON = 1000
_TICK = "Please tick each line you agree with; ring us about any you do not."


def accept_quote(
    *,
    quote: Quote,
    name: str,
    confirmations: list[str],
    told_from: str = "",
    by: User | None = None,
) -> Quote:
    """Accept the latest version, within its time, with every statement confirmed.

    ``told_from``: by which way the yes came, and from which address where there is one; ``by``:
    who took it down on the phone. A second click changes nothing. Raises NotConfirmed, or
    QuoteError where it is too late.
    """
    return accept_as_read(
        quote=selectors.fresh_quote(quote.pk),
        name=name,
        confirmations=confirmations,
        told_from=told_from,
        by=by,
    )


def accept_as_read(
    *,
    quote: Quote,
    name: str,
    confirmations: list[str],
    told_from: str = "",
    by: User | None = None,
) -> Quote:
    """The same for a quote that was read a moment ago, with its submission and sheet."""
    if quote.status == QuoteStatus.ACCEPTED:
        return quote
    name = " ".join(name.split())[:_LONGEST_NAME]
    confirmed = require_confirmed(quote, name, confirmations)
    answer = {
        "status": QuoteStatus.ACCEPTED,
        "accepted_by": name,
        "accepted_at": timezone.now(),
        "accepted_from": told_from[:_LONGEST_PLACE],
        "confirmed": confirmed,
    }
    why = f"quote {quote.number} accepted by {name}"
    return _answered(quote, Status.ACCEPTED, why, answer, by)


def accept_by_phone(*, quote: Quote, name: str, confirmations: list[str], by: User) -> Quote:
    """Somebody said yes on the phone, after every statement was read out and agreed to."""
    told_from = f"by phone, told to {by.get_username()}"
    return accept_quote(
        quote=quote, name=name, confirmations=confirmations, told_from=told_from, by=by
    )


def require_confirmed(quote: Quote, name: str, confirmations: list[str]) -> list[str]:
    """The statements that apply, all confirmed. Raises NotConfirmed, a sentence for each box."""
    wanted = statements(quote.sheet)
    errors = {short: _TICK for short in wanted if short not in confirmations}
    if not name:
        errors["name"] = "Please give the name of the person who accepts, or a code word."
    if errors:
        raise NotConfirmed(errors)
    return list(wanted)


def decline_quote(*, quote: Quote, reason: str, by: User | None = None) -> Quote:
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
    return _answered(quote, Status.DECLINED, why, answer, by)


def _answered(
    quote: Quote, to: Status, reason: str, answer: Mapping[str, Any], by: User | None
) -> Quote:
    """Write the answer if the quote still waits for one; the database decides who came first."""
    try:
        with transaction.atomic():
            hold_sheet(quote.sheet)
            waiting = Quote.objects.filter(pk=quote.pk, status=QuoteStatus.ISSUED)
            if not waiting.filter(valid_until__gte=timezone.localdate()).update(**answer):
                raise Overtaken
            move(quote.submission, to, reason=reason, by=by)
            if to == Status.ACCEPTED:
                _follow(quote)
    except (Overtaken, MoveError):
        now = selectors.quote_state(quote.pk)
        # A second click at the same time is no second answer.
        if now.status != answer["status"]:
            raise QuoteError(_too_late(now)) from None
        answer = {"status": now.status}
    for name, value in answer.items():
        setattr(quote, name, value)
    return quote


def _follow(quote: Quote) -> None:
    """What an acceptance sets going: pieces held, own parts awaited, the shop's page, a mail."""
    hold_for(quote)
    await_own_parts(quote)
    payload = {"quote_id": quote.pk}
    enqueue(kind="draw_cut_sheet", payload=payload, key=f"cut-sheet:{quote.pk}")
    ask_for_mail(
        submission=quote.submission, kind="accepted", key=f"accepted:{quote.pk}", quote=quote
    )


def _too_late(quote: selectors.QuoteState) -> str:
    in_time = quote.valid_until is not None and quote.valid_until >= timezone.localdate()
    if quote.status == QuoteStatus.ISSUED and in_time:
        return "Something changed a moment ago. Please look at this page again."
    return TOO_LATE[QuoteStatus(quote.status)]


def note_opened(*, quote: Quote) -> bool:
    """The customer sees this version for the first time: only the first time is kept."""
    unseen = Quote.objects.filter(pk=quote.pk, opened_at=None)
    now = timezone.now()
    if not unseen.update(opened_at=now):
        return False
    quote.opened_at = now
    return True
