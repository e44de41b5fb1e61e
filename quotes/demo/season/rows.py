"""Lives as rows, not stored yet: what a request, its sheets, calls and events look like."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime
from itertools import pairwise
from typing import Any

from django.contrib.auth.models import User

from intake import rows
from intake.domain.kept_history import kept_history
from intake.domain.lifecycle import Status
from intake.domain.verdict import Call
from intake.evaluate import fingerprint
from intake.models import CallRecord, Event, FindingRecord, SheetVersion, Submission
from quotes.demo.season.lives import Called, Life

_ANSWERED = {"accepted": Status.ACCEPTED, "declined": Status.DECLINED, "lapsed": Status.LAPSED}


def key_of(seed: int, life: Life) -> str:
    """What makes a request of this season the same one again."""
    return f"season {seed} {life.asked.index}"


def a_submission(life: Life, seed: int) -> Submission:
    """The request as it stands now, back-dated."""
    now = life.now
    row = rows.new_submission(now.sheet, now.verdict, key=key_of(seed, life), digest="")
    row.received_at = life.asked.at
    row.status = status_of(life).value
    row.channel = life.asked.body["channel"]
    if row.status != Status.NEEDS_CALL:
        row.call_by = row.waits_since = row.at_stake = None
        row.call_why = ""
    else:
        for name, value in rows.from_sheet(now.sheet, now.verdict, now.at).items():
            setattr(row, name, value)
    return row


def status_of(life: Life) -> Status:
    """Where it stands."""
    if life.calls and life.calls[-1].outcome == "withdrawn":
        return Status.WITHDRAWN
    if life.answer:
        return _ANSWERED[life.answer]
    if life.quoted_at:
        return Status.QUOTED
    return Status.READY if life.is_released else Status.NEEDS_CALL


def sheets_of(life: Life, submission: Submission, by: User) -> Iterator[SheetVersion]:
    """Every version, the last one current."""
    for number, one in enumerate(life.versions, start=1):
        row = rows.new_version(
            submission,
            number,
            one.sheet,
            one.verdict,
            one.body,
            by=by if number > 1 else None,
            beside=kept_history(one.history),
            reason=one.reason,
            said_by=one.said_by,
        )
        row.made_at = one.at
        row.is_current = one is life.now
        yield row


def findings_of(submission: Submission, sheets: list[SheetVersion]) -> Iterator[FindingRecord]:
    """Findings of every version; each check counts the first time it holds."""
    seen: set[str] = set()
    for sheet in sheets:
        found = rows.finding_rows(submission, sheet, frozenset(seen))
        seen |= {row.check_id for row in found if row.counts}
        yield from found


def calls_of(
    life: Life, submission: Submission, sheets: list[SheetVersion], by: Mapping[str, User]
) -> Iterator[CallRecord]:
    """Each call, by one of the counter; a release over a stop by the manager."""
    for at, call in enumerate(life.calls):
        caller = by["percival"] if call.outcome == "overridden" else by[("maud", "iolo")[at % 2]]
        yield _call(life, submission, sheets[call.version - 1], call, caller)


def _call(
    life: Life, submission: Submission, sheet: SheetVersion, call: Called, by: User
) -> CallRecord:
    finding = call.finding
    said = call.outcome not in ("not_reached", "overridden")
    return CallRecord(
        submission=submission,
        sheet=sheet,
        check_id=finding.check,
        answer=finding.answers[0] if finding.answers else "",
        question_as_asked=finding.question,
        outcome=call.outcome,
        said_by=life.asked.person.name if said else "",
        cause=call.cause,
        note=call.note,
        fingerprint=fingerprint(life.versions[call.version - 1].sheet, finding.answers),
        month=rows.month_of(call.at),
        channel=submission.channel,
        by=by,
        at=call.at,
    )


def events_of(life: Life, submission: Submission, number: str) -> Iterator[Event]:
    """Every change of status with its moment, oldest first."""
    steps: list[tuple[datetime, Status, str]] = [
        (life.asked.at, Status.RECEIVED, "received"),
        *((one.at, _after(one.verdict.verdict), one.reason) for one in life.versions),
    ]
    if life.quoted_at:
        steps.append((life.quoted_at, Status.QUOTED, f"quote {number} version 1"))
    if life.answered_at:
        steps.append((life.answered_at, _ANSWERED[life.answer], f"quote {number} {life.answer}"))
    if status_of(life) == Status.WITHDRAWN:
        steps.append((life.calls[-1].at, Status.WITHDRAWN, "withdrawn on the phone"))
    for (_, before, _w), (at, after, why) in pairwise(steps):
        yield Event(
            submission=submission, at=at, old_status=before, new_status=after, reason=why[:200]
        )


def _after(verdict: Any) -> Status:
    return Status.READY if verdict == Call.RELEASE else Status.NEEDS_CALL
