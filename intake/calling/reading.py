"""Reading what a call-back brought: is the entry complete, allowed, and what does it change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from intake.domain.causes import CAUSES
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from intake.evaluate import fingerprint
from intake.models import OUTCOMES, SheetVersion

_MOST_CONTRIBUTING = 2
_SETTLES = ("confirmed", "overridden")  # holds no more, while its answers stay what they are
_LONGEST_WAIT = timedelta(days=62)
_REASONS = {
    "corrected": "corrected on the phone",
    "confirmed": "confirmed on the phone",
    "overridden": "released over it",
    "cannot_measure": "cannot be measured",
}


class CallErrors(SheetErrors):
    """What is missing or not allowed in the record of a call, by field."""


@dataclass(frozen=True, slots=True)
class Call:
    """One call-back, complete and allowed; ``sheet`` and ``body`` are those it leads to."""

    check_id: str
    outcome: str
    said_by: str
    cause: str
    contributing: tuple[str, ...]
    note: str
    answer: str
    question: str
    fingerprint: str
    again_at: datetime | None
    body: Mapping[str, Any]
    sheet: Sheet

    @property
    def reason(self) -> str:
        """Why there is a new version, in words for the history."""
        about = f": {self.check_id}" if self.check_id else ""
        return _REASONS.get(self.outcome, self.outcome) + about


def read_call(
    *,
    sheet: SheetVersion,
    may_override: bool,
    check_id: str,
    outcome: str,
    said_by: str,
    cause: str,
    contributing: Sequence[str],
    note: str,
    answers: Mapping[str, Any] | None,
    contact: Mapping[str, str] | None = None,
    answer: str = "",
    again_at: datetime | None = None,
    now: datetime | None = None,
) -> Call:
    """Make a Call of what was entered. Raises CallErrors, or SheetErrors for new answers.

    ``answer`` tells findings of one check apart. ``again_at`` is when to try again; ``now`` is what
    it must come after.
    """
    finding = _finding(sheet, check_id, answer)
    reached = {part: text for part, text in (contact or {}).items() if text.strip()}
    errors = _entry_errors(outcome, said_by, cause, contributing)
    errors |= _finding_errors(finding, check_id, outcome, may_override, note)
    errors |= _again_errors(outcome, again_at, now)
    changes = _changes(outcome, finding, answers or {})
    errors |= _change_errors(outcome, changes, reached)
    if errors:
        raise CallErrors(errors)
    body = _merged(sheet.body, changes, reached if outcome == "corrected" else {})
    read = read_sheet(body, contact_needed=True)
    about = finding or {"answers": list(changes), "question": ""}
    return Call(
        check_id=check_id,
        outcome=outcome,
        said_by=said_by.strip(),
        cause=cause,
        contributing=tuple(contributing),
        note=note.strip(),
        answer=(about["answers"] or [""])[0],
        question=about["question"] or "",
        fingerprint=fingerprint(read, about["answers"]) if outcome in _SETTLES else "",
        again_at=again_at if outcome == "not_reached" else None,
        body=body,
        sheet=read,
    )


def _finding(sheet: SheetVersion, check_id: str, answer: str) -> dict[str, Any] | None:
    """The finding of this check about this answer; else its dearest that still holds the sheet."""
    findings: list[dict[str, Any]] = sheet.outcome["findings"]
    fired = [finding for finding in findings if finding["check"] == check_id]
    if answer:
        fired = [finding for finding in fired if finding["answers"][:1] == [answer]]
    holding = [finding for finding in fired if finding["severity"] != "note"]
    return next(iter(holding or fired), None)


def _entry_errors(
    outcome: str, said_by: str, cause: str, contributing: Sequence[str]
) -> dict[str, list[str]]:
    errors: dict[str, list[str]] = {}
    if outcome not in dict(OUTCOMES):
        errors["outcome"] = ["Please choose what came of the call."]
    if outcome not in ("not_reached", "overridden") and not said_by.strip():
        errors["said_by"] = ["Please write who said so."]
    if len(said_by) > 200:
        errors["said_by"] = ["Please keep the name under 200 characters."]
    if cause and cause not in CAUSES:
        errors["cause"] = ["Please choose a cause from the list."]
    if len(contributing) > _MOST_CONTRIBUTING or not set(contributing) <= set(CAUSES) - {cause}:
        errors["contributing"] = ["Please choose at most two more causes from the list."]
    return errors


def _finding_errors(
    finding: dict[str, Any] | None, check_id: str, outcome: str, may_override: bool, note: str
) -> dict[str, list[str]]:
    if finding is None:
        needed = bool(check_id) or outcome in ("confirmed", "cannot_measure", "overridden")
        gone = "This question is not open on the current sheet."
        return {"check_id": [gone]} if needed else {}
    if outcome in _SETTLES and finding["severity"] == "stop" and not may_override:
        return {"outcome": ["Only a manager can release over a stop."]}
    if not note.strip() and outcome == "overridden":
        return {"note": ["Please write why this may go ahead without an answer."]}
    if not note.strip() and outcome == "confirmed" and finding["severity"] == "stop":
        return {"note": ["Please write why this may go ahead over a stop."]}
    return {}


def _again_errors(
    outcome: str, again_at: datetime | None, now: datetime | None
) -> dict[str, list[str]]:
    if outcome != "not_reached" or again_at is None or now is None:
        return {}
    if again_at <= now:
        return {"again": ["That moment is over. When shall we try again?"]}
    if again_at > now + _LONGEST_WAIT:
        return {"again": ["Please choose a day within the next two months."]}
    return {}


def _change_errors(
    outcome: str, changes: Mapping[str, Any], reached: Mapping[str, str]
) -> dict[str, list[str]]:
    if outcome == "cannot_measure" and any(slug.startswith("contact.") for slug in changes):
        return {"outcome": ["This is no measurement. Write the number down, or release over it."]}
    if outcome in ("corrected", "cannot_measure") and not changes and not reached:
        return {"answers": ["Please enter the answer this is about."]}
    return {}


def _changes(
    outcome: str, finding: dict[str, Any] | None, answers: Mapping[str, Any]
) -> Mapping[str, Any]:
    """The answers that become different; for one that cannot be measured, the one asked about."""
    if outcome == "corrected":
        return answers
    if outcome != "cannot_measure":
        return {}
    asked = list(answers) or (finding["answers"][:1] if finding else [])
    return {slug: {"state": "cannot_measure"} for slug in asked}


def _merged(
    body: Mapping[str, Any], changes: Mapping[str, Any], reached: Mapping[str, str]
) -> dict[str, Any]:
    answers = {**body.get("answers", {}), **changes}
    kept = {slug: new for slug, new in answers.items() if new is not None}
    contact = {"contact": {**(body.get("contact") or {}), **reached}} if reached else {}
    return {**body, **contact, "answers": kept}
