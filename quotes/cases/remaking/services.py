"""Making anew what did not fit: one more quote that refers to its original, priced by the terms."""

from __future__ import annotations

from django.contrib.auth.models import User
from django.db import transaction

from intake.services import MoveError, Overtaken
from quotes import services as quotes
from quotes.cases import selectors
from quotes.cases.lines.services import CaseError, move, note
from quotes.cases.models import Case
from quotes.domain import case_words as words
from quotes.domain.lifecycle import QuoteError, QuoteStatus
from quotes.models import Quote

_STANDS = (QuoteStatus.DRAFTED, QuoteStatus.ISSUED, QuoteStatus.ACCEPTED)


def remake(*, case: Case, why: str, by: User) -> Quote:
    """Quote the shaft anew from the sheet as it is now; once for a sheet and a payer.

    We pay: every line at its full price, taken off again. The customer pays: material and freight.
    The desk corrects the sheet first where a number was wrong. Raises CaseError.
    """
    _require_remake(case, why)
    standing = selectors.remake_for(case)
    if standing is not None and _is_the_same(standing, case):
        return standing
    try:
        made = quotes.requote(
            case.quote.submission_id,
            by,
            why,
            remake_of=case.quote,
            free=case.payer == words.US,
        )
    except (QuoteError, MoveError, Overtaken) as refused:
        raise CaseError(str(refused)) from refused
    _written(case, made, why, by)
    return made


def _require_remake(case: Case, why: str) -> None:
    if case.kind != "remake" or case.state not in (words.AGREED, words.DOING):
        raise CaseError("Agree on a remake and on who pays first.")
    if not why:
        raise CaseError({"why_new": "Write what is different this time: the customer reads it."})


def _is_the_same(standing: Quote, case: Case) -> bool:
    sheet = selectors.sheet_now(case)
    free = (standing.inputs.get("remake") or {}).get("free")
    stands = standing.status in _STANDS and standing.sheet_id == sheet.pk
    return stands and free == (case.payer == words.US)


@transaction.atomic
def _written(case: Case, made: Quote, why: str, by: User) -> None:
    if case.state == words.AGREED:
        move(case, words.DOING, by)
    note(case, "remake", f"Remake: quote {made.number}, version {made.version}. {why}", by)


def accept_at_our_cost(*, case: Case, by: User) -> Quote:
    """Nobody is asked to pay, so nobody is asked to accept: the desk says yes. Raises CaseError."""
    standing = selectors.remake_for(case)
    if case.payer != words.US or standing is None:
        raise CaseError("Only a remake at our cost is accepted here, once its quote is made.")
    if standing.status == QuoteStatus.ACCEPTED:
        return standing
    name = by.get_full_name() or by.get_username()
    try:
        accepted = quotes.accept_quote(
            quote=standing,
            name=name,
            confirmations=list(quotes.statements(standing.sheet)),
            told_from=f"at our cost, by {by.get_username()}",
            by=by,
        )
    except QuoteError as refused:
        raise CaseError(str(refused)) from refused
    with transaction.atomic():
        note(case, "remake", f"Remake accepted at our cost: {accepted.number}.", by)
    return accepted
