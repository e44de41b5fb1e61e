"""Whether metal may be cut for a request now, and if not, why: in words for the shop."""

from __future__ import annotations

from catalog.domain.lengths import mm
from intake.domain.lifecycle import Status
from intake.models import SheetVersion, Submission
from quotes.checks import CHECKS
from quotes.domain.cut_words import stored_chain
from quotes.models import Quote

_HELD = {
    Status.NEEDS_CALL: "A question is open with the customer. Cut nothing until the desk has the "
    "answer.",
    Status.WITHDRAWN: "The request was withdrawn. Nothing is to be cut.",
}


def why_not(
    submission: Submission, sheet: SheetVersion, latest: Quote | None, accepted: Quote | None
) -> tuple[str, ...]:
    """Sentences that say why no cut sheet is given; none where the accepted one holds."""
    held = stands_not(submission, sheet, latest, accepted)
    return held or tuple(_does_not_add_up(sheet))


def stands_not(
    submission: Submission, sheet: SheetVersion, latest: Quote | None, accepted: Quote | None
) -> tuple[str, ...]:
    """Why what was accepted does not stand, whether it has a shaft or is of parts alone.

    ``latest``: the newest quote, ``accepted``: the newest that was accepted.
    """
    if accepted is None or latest is None:
        return ("No quote of this request is accepted yet. A shaft is cut from an accepted quote.",)
    if submission.status in _HELD:
        return (_HELD[Status(submission.status)],)
    if accepted.sheet_id != sheet.pk:
        return _changed(accepted, sheet)
    if latest.pk != accepted.pk:
        return (f"A newer quote, version {latest.version}, has taken the accepted one's place.",)
    return ()


def _changed(accepted: Quote, sheet: SheetVersion) -> tuple[str, ...]:
    before, now = _length(accepted.sheet), _length(sheet)
    if before == now:
        what = f"The length is {now} in both, but something else on the sheet is not the same."
    else:
        what = f"Face to thread end was {before} when it was accepted, and is {now} now."
    return (
        "A dimension changed after the quote was accepted: sheet version "
        f"{accepted.sheet.number} was accepted, version {sheet.number} is the newest.",
        what,
        "Put a printed cut sheet of this shaft aside; the desk quotes it anew.",
    )


def _length(sheet: SheetVersion) -> str:
    length = (sheet.outcome.get("stack") or {}).get("length")
    return mm(length).both() if length else "not known"


def _does_not_add_up(sheet: SheetVersion) -> list[str]:
    """What the shop's own checks find on the accepted sheet, with what to ask."""
    made = stored_chain(sheet.body, sheet.outcome)
    if made is None:
        return ["No shaft is ordered here, only parts."]
    said: list[str] = []
    for check in CHECKS:
        found = check.found(made)
        said += [f"The stations do not add up. {one.message}" for one in found]
        said += [f"To be settled at the desk: {check.ask}"] if found else []
    return said
