"""Quoting again what stands, because a choice or a price has changed."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction

from intake.domain.lifecycle import MoveError, Status
from intake.models import Submission
from intake.services import Overtaken, move
from quotes import selectors
from quotes.domain.lifecycle import TOO_LATE, QuoteError, QuoteStatus
from quotes.domain.remake_price import Remake
from quotes.ending.services import hold_sheet, void
from quotes.issuing.services import STANDS, facts_of, made_of, priced, store
from quotes.making import Made, PricedSheet
from quotes.models import Quote

_TRIES = 3
# What the customer alone cannot open again: that is a call.
_CLOSED = frozenset(
    {
        QuoteStatus.ACCEPTED,
        QuoteStatus.DECLINED,
        QuoteStatus.LAPSED,
        QuoteStatus.CANCELLED,
    }
)


def requote(
    submission_id: int,
    by: User | None = None,
    why: str = "",
    *,
    prices: Mapping[str, Decimal] | None = None,
    remake_of: Quote | None = None,
    free: bool = False,
) -> Quote:
    """Make a new version although one stands, from the choice and the prices as they are now.

    Once for what it is priced from: the same choice at the same price gives the version that
    stands. ``by`` None: the customer asked for it on the status page, so it is not mailed at once.
    Staff may quote again what was accepted, which makes the acceptance void (``why`` tells the
    customer); with ``remake_of`` the accepted one stays as it was, and this is one more order,
    of the shaft alone: ``free``, or at material and freight.
    ``prices``: unit prices by code that staff give; those given before are kept.

    Raises QuoteError where it may not be quoted again, or a price is missing for what was accepted;
    MoveError where a question is open; Overtaken where somebody else changed it meanwhile.
    """
    for _ in range(_TRIES):
        submission, sheet = facts_of(submission_id)
        latest = selectors.latest_quote(submission)
        _require_may(latest, by)
        remake = Remake(remake_of.number, free) if remake_of else None
        given = {**_given_before(latest), **(prices or {})}
        found = priced(sheet, given, remake, selectors.standing_inputs(latest))
        if remake_of is None and latest and _is_same(latest, found):
            return latest
        try:
            return _stored(submission, latest, found, by, why, remake_of)
        except (IntegrityError, Overtaken):
            continue  # somebody else was first: look at what stands now
    raise Overtaken


def _require_may(latest: Quote | None, by: User | None) -> None:
    if by is None and latest is not None and latest.status in _CLOSED:
        raise QuoteError(TOO_LATE[QuoteStatus(latest.status)])


def _given_before(latest: Quote | None) -> dict[str, Decimal]:
    """The prices staff typed for the version before this one."""
    told = latest.inputs.get("prices_by_hand") if latest else None
    return {str(code): Decimal(str(amount)) for code, amount in (told or {}).items()}


def _is_same(latest: Quote, found: PricedSheet) -> bool:
    """Whether the standing quote says this already: same sheet, choice, lines and sums."""
    now = found.priced
    return (
        latest.status in STANDS
        and latest.sheet_id == found.sheet.pk
        and latest.inputs.get("choice") == found.inputs["choice"]
        and latest.lines == [line.as_json() for line in now.lines]
        and (latest.goods, latest.freight, latest.tax, latest.total)
        == (now.goods, now.freight, now.tax, now.total)
    )


def _stored(
    submission: Submission,
    latest: Quote | None,
    found: PricedSheet,
    by: User | None,
    why: str,
    remake_of: Quote | None,
) -> Quote:
    accepted = latest if latest and latest.status == QuoteStatus.ACCEPTED else None
    if accepted and not found.priced.complete:
        names = ", ".join(one.text for one in found.priced.missing)
        raise QuoteError(f"A price is missing for {names}. Type it before it is quoted again.")
    if accepted is None and submission.status not in _MAY_GO:
        raise MoveError("It cannot be quoted as it stands: a question is open, or it is closed.")
    made = made_of(submission, found)
    return _written(made, latest, by, why, remake_of)


_MAY_GO = (Status.READY, Status.QUOTED, Status.DECLINED, Status.LAPSED, Status.ACCEPTED)


@transaction.atomic
def _written(
    made: Made, latest: Quote | None, by: User | None, why: str, remake_of: Quote | None
) -> Quote:
    hold_sheet(made.sheet)
    accepted = latest if latest and latest.status == QuoteStatus.ACCEPTED else None
    if accepted is not None:
        words = why or "the price has changed"
        if remake_of is None:
            void(accepted, words, by)
        move(made.submission, Status.READY, reason=words, by=by)
    page = by is None
    return store(made, by, latest=latest, why=why, asked_on_page=page, remake_of=remake_of)
