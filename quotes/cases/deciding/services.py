"""What is wrong, why, what is done about it and who pays: a person decides, step by step."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db import transaction

from catalog.domain.lengths import Length
from intake.domain.causes import CAUSES
from quotes.cases import selectors
from quotes.cases.lines.services import CaseError, change, move, note, note_once, require_open
from quotes.cases.models import Case
from quotes.domain import case_words as words
from quotes.domain.remedy import PARTS
from quotes.receiving import models as parts
from quotes.receiving.services import await_part

MOST_CONTRIBUTING = 2


@transaction.atomic
def tell_size(
    *, case: Case, part: str, gap: Length | None, excess: Length | None, by: User
) -> Case:
    """What does not fit, and by how much, as somebody told or measured it. Raises CaseError."""
    if part not in PARTS:
        raise CaseError({"part": "Choose what does not fit."})
    require_open(case)
    now = {
        "part": part,
        "gap_nm": gap.nm if gap is not None else None,
        "excess_nm": excess.nm if excess is not None else None,
    }
    said = [PARTS[part]]
    said += [f"gap {gap.both()}"] if gap is not None else []
    said += [_excess_words(excess)] if excess is not None else []
    if change(case, now, by, "what does not fit"):
        note(case, "size", "Does not fit: " + ", ".join(said) + ".", by)
    return case


def _excess_words(excess: Length) -> str:
    return f"too {'long' if excess.nm > 0 else 'short'} by {abs(excess).both()}"


@dataclass(frozen=True, slots=True)
class Coded:
    """Why it happened: one primary cause, up to two contributing, and what speaks for them."""

    cause: str
    contributing: Sequence[str]
    evidence: str
    found_by: str
    found: str
    born: str


@transaction.atomic
def code_cause(*, case: Case, coded: Coded, by: User) -> Case:
    """Book the case to a cause and a stage, with the checks that had asked. Raises CaseError."""
    _require_coded(coded)
    told = selectors.asked_before(case)
    now = {
        "cause": coded.cause,
        "contributing": list(coded.contributing),
        "evidence": coded.evidence[:1000],
        "found_by": coded.found_by[:200],
        "found": coded.found,
        "born": coded.born,
        "fired": [one.check for one in told],
        "overridden": [one.check for one in told if one.state == "overridden"],
    }
    if change(case, now, by, "cause"):
        label = CAUSES[coded.cause]
        note(case, "cause", f"{coded.cause}: {label}. Made: {words.BORN[coded.born]}.", by)
    return case


def _require_coded(coded: Coded) -> None:
    errors = {}
    if coded.cause not in CAUSES:
        errors["cause"] = "Choose the cause that played the greatest part; X where nobody knows."
    also = set(coded.contributing)
    if len(coded.contributing) > MOST_CONTRIBUTING or not also <= set(CAUSES) - {coded.cause}:
        errors["also_1"] = "Choose at most two more causes, each another one."
    if not coded.evidence:
        errors["evidence"] = "Write what speaks for it: what was seen, measured or said."
    if not coded.found_by:
        errors["found_by"] = "Write who found it."
    if coded.found not in words.FOUND:
        errors["found"] = "Choose when it was found."
    if coded.born not in words.BORN:
        errors["born"] = "Choose where the mistake was made."
    if errors:
        raise CaseError(errors)


# --- What is done ---------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Agreement:
    """What is done about it, who pays, and why they do. ``by_length``: how much is taken off or
    put between. ``comes_back``: the shaft comes to us for it."""

    kind: str
    payer: str
    why: str
    by_length: Length | None = None
    comes_back: bool = False


@transaction.atomic
def agree(*, case: Case, agreement: Agreement, by: User) -> Case:
    """A person has decided what is done and who pays. Raises CaseError."""
    _require_agreement(agreement)
    now = {
        "kind": agreement.kind,
        "payer": agreement.payer,
        "payer_why": agreement.why[:400],
        "by_nm": agreement.by_length.nm if agreement.by_length else None,
    }
    change(case, now, by, agreement.why)
    move(case, words.AGREED, by)
    if agreement.comes_back:
        await_part(quote=case.quote, what=parts.SHAFT, case=case)
    size = f" by {agreement.by_length.both()}" if agreement.by_length else ""
    what = f"{words.KINDS[agreement.kind]}{size}".capitalize()
    said = f"{what}. Who pays: {words.PAYERS[agreement.payer]}. {agreement.why}"
    note(case, "agreed", said, by)
    return case


def _require_agreement(agreement: Agreement) -> None:
    errors = {}
    if agreement.kind not in words.KINDS or not agreement.kind:
        errors["kind"] = "Choose what is done about it."
    if agreement.payer not in words.PAYERS:
        errors["payer"] = "Choose who pays."
    if not agreement.why:
        errors["why"] = "Write why they pay: the terms suggest, a person decides."
    wants_size = agreement.kind in ("shorten", "spacer")
    if wants_size and (agreement.by_length is None or agreement.by_length.nm <= 0):
        errors["by_length"] = "Write by how much, as a length above zero."
    if errors:
        raise CaseError(errors)


@transaction.atomic
def begin(*, case: Case, by: User) -> Case:
    """Work has begun. What comes back to us must be here first. Raises CaseError."""
    missing = [part.get_what_display() for part in selectors.parts_of(case) if _is_away(part)]
    if missing:
        raise CaseError(f"The {' and the '.join(missing)} is not here yet: take it in first.")
    move(case, words.DOING, by)
    note(case, "doing", "Work has begun.", by)
    return case


def _is_away(part: parts.OwnPart) -> bool:
    return part.received_on is None and not part.not_coming


@transaction.atomic
def reopen(*, case: Case, why: str, by: User) -> Case:
    """Back one step, so that something else is agreed. Raises CaseError."""
    if not why:
        raise CaseError({"why_back": "Write why it goes back."})
    to = words.AGREED if case.state == words.DOING else words.OPEN
    move(case, to, by)
    note(case, to, f"Back to “{words.STATES[to]}”: {why}", by)
    return case


@transaction.atomic
def finish(*, case: Case, said: str, by: User) -> Case:
    """It is done; the case is closed. Raises CaseError where no cause is coded or words miss."""
    _require_cause(case)
    if not said:
        raise CaseError({"said": "Write what was done, and what was measured after it."})
    move(case, words.DONE, by)
    note(case, "done", said, by)
    return case


@transaction.atomic
def close_without(*, case: Case, why: str, by: User) -> Case:
    """Nothing is done about it. Raises CaseError where no cause is coded or words miss."""
    _require_cause(case)
    if not why:
        raise CaseError({"why_without": "Write why nothing is done about it."})
    move(case, words.WITHOUT, by)
    note(case, "without", why, by)
    return case


def _require_cause(case: Case) -> None:
    if not case.cause:  # once coded it is never without
        raise CaseError("Code the cause first: a case without one teaches nobody.")


@transaction.atomic
def work_note(*, case: Case, said: str, by: User) -> Case:
    """What the shop or the desk writes down while it goes on. Raises CaseError."""
    if not said:
        raise CaseError({"note": "Write a few words."})
    note_once(case, "note", said, by)
    return case
