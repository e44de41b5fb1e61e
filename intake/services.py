"""What may be done to a submission. Each function is one whole step, in one transaction."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Protocol

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils import timezone

from catalog.selectors import stock
from intake import rows, selectors
from intake.customers.linking.services import link, linked_anew
from intake.domain.history import History
from intake.domain.lifecycle import MoveError, Status, require_move
from intake.domain.reading import read_pair, read_sheet
from intake.domain.sheet import Sheet
from intake.domain.verdict import Verdict
from intake.evaluate import evaluate
from intake.inserts import insert
from intake.limit_sets.selectors import current_limits
from intake.models import Event, FindingRecord, SheetVersion, Submission
from intake.records.selectors import Known, beside
from intake.records.services import record_fit
from intake.signals import sheet_replaced, submission_ready

__all__ = [
    "KeyReused",
    "MoveError",
    "Overtaken",
    "close",
    "correct_sheet",
    "dry_check",
    "dry_judge",
    "hold",
    "judge_again",
    "move",
    "receive_submission",
    "record_fit",
]

Body = Mapping[str, Any]

_REFERENCE_TRIES = 5


class KeyReused(Exception):
    """This idempotency key came before, with another body."""


class Overtaken(Exception):
    """Somebody else changed this submission first. Look again, then decide."""

    def __init__(self) -> None:
        super().__init__(
            "Somebody else changed this a moment ago. Your entry is not stored; "
            "please look at what they wrote, then enter it again if it is still needed."
        )


# --- Receiving ------------------------------------------------------------------------


def receive_submission(
    *, body: Body, idempotency_key: str = "", by: User | None = None, language: str = ""
) -> Submission:
    """Read, judge and store one request, as typed. A repeat with its key stores nothing new.

    ``language``: what the customer reads; papers and mails will be written in it.

    The second side of a pair is judged beside the first. The first keeps the verdict it was given,
    until it is itself corrected or called about: then it is judged beside the second.
    Raises SheetErrors where an answer cannot be read, KeyReused for a key with another body.
    """
    digest = _digest(body) if idempotency_key else ""
    if earlier := _repeat(idempotency_key, digest):
        return earlier
    sheet = read_sheet(body, contact_needed=True)
    found = beside(sheet)
    verdict = evaluate(sheet, stock(), found.facts, current_limits())
    for _ in range(_REFERENCE_TRIES):
        submission = rows.new_submission(
            sheet, verdict, key=idempotency_key, digest=digest, language=language
        )
        version = rows.new_version(submission, 1, sheet, verdict, body, beside=found.kept, by=by)
        try:
            return _store(submission, version, by, sheet, found.known)
        except IntegrityError:
            # Two at once with one key: the other was first. Otherwise a reference came twice.
            if earlier := _repeat(idempotency_key, digest):
                return earlier
    raise RuntimeError("no free reference found")


def _repeat(key: str, digest: str) -> Submission | None:
    earlier = selectors.by_key(key) if key else None
    if earlier and earlier.body_digest != digest:
        raise KeyReused
    return earlier


def _digest(body: Body) -> str:
    """One digest for one body, whatever the order of its keys."""
    text = json.dumps(body, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


@transaction.atomic
def _store(
    submission: Submission, version: SheetVersion, by: User | None, sheet: Sheet, known: Known
) -> Submission:
    link(submission, sheet, known)
    insert(submission)
    _store_version(submission, version)
    submission.first_sheet = version
    # It is born with its first move: nobody else can know it yet, so there is nothing to lock.
    status, why = Status(submission.status), rows.open_count(version)
    _write_event(submission, Status.RECEIVED, status, why, by)
    _announce(submission, is_new=True)
    return submission


def _store_version(
    submission: Submission, version: SheetVersion, seen: frozenset[str] = frozenset()
) -> None:
    version.submission = submission  # it has its key only now
    insert(version)
    if findings := rows.finding_rows(submission, version, seen):
        FindingRecord.objects.bulk_create(findings)
    submission.current_sheets = [version]


def dry_check(*, body: Body) -> Verdict:
    """Judge a sheet and store nothing. Raises SheetErrors where an answer cannot be read.

    The other side of a pair may travel along: it is a fact, and is not judged itself.
    """
    return dry_judge(*read_pair(body))


def dry_judge(sheet: Sheet, sister: Sheet | None = None) -> Verdict:
    """The same for what is read already."""
    side = sister.station if sister else ""
    facts = History(sister=sister, sister_station=side, today=timezone.localdate())
    return evaluate(sheet, stock(), facts, current_limits())


# --- Moving ---------------------------------------------------------------------------


@transaction.atomic
def move(submission: Submission, to: Status, *, reason: str, by: User | None = None) -> None:
    """Change the status and write the history line. Nothing else may do either."""
    old = Status(submission.status)
    require_move(old, to)
    mine = Submission.objects.filter(pk=submission.pk, status=old)
    if not mine.update(status=to, to_index=True):
        raise Overtaken
    _write_event(submission, old, to, reason, by)
    submission.status = to


@transaction.atomic
def close(*, submission: Submission, reason: str, by: User | None = None) -> Submission:
    """The customer no longer wants it. Kept, and left alone from now on."""
    move(submission, Status.WITHDRAWN, reason=reason, by=by)
    return submission


def _write_event(
    submission: Submission, old: Status, new: Status, reason: str, by: User | None
) -> None:
    short = reason[: rows.LONGEST_REASON]
    insert(Event(submission=submission, by=by, old_status=old, new_status=new, reason=short))


def _announce(submission: Submission, *, is_new: bool = False) -> None:
    """Inside the transaction: a receiver that fails takes everything back with it."""
    if submission.status == Status.READY:
        submission_ready.send(sender=Submission, submission=submission, is_new=is_new)


# --- The bend: somebody was asked -----------------------------------------------------


def hold(submission: Submission, sheet_number: int) -> SheetVersion:
    """The current version, if it is still the one the caller looked at. Raises Overtaken.

    The update changes nothing: it is the lock. Who comes second waits for the first to finish,
    then finds another version current.
    """
    looked_at = SheetVersion.objects.filter(
        submission=submission, number=sheet_number, is_current=True
    )
    if not looked_at.update(is_current=True):
        raise Overtaken
    sheet = looked_at.select_related("submission").get()
    submission.status = sheet.submission.status
    return sheet


class NewSheet(Protocol):
    """What a new version is made from: how it reads, as typed, why, and who said so."""

    @property
    def sheet(self) -> Sheet: ...
    @property
    def body(self) -> Body: ...
    @property
    def reason(self) -> str: ...
    @property
    def said_by(self) -> str: ...


@dataclass(frozen=True, slots=True)
class Correction:
    """A sheet as somebody typed it anew, beside the earlier one."""

    sheet: Sheet
    body: Body
    reason: str
    said_by: str


def correct_sheet(
    *, submission: Submission, sheet_number: int, body: Body, by: User, said_by: str
) -> Submission:
    """Store a whole sheet anew as the next version, and judge it. Sent twice it is stored once.

    Contact and order number follow it into the request's own columns. A body that changes nothing
    makes no version. Raises SheetErrors (an answer cannot be read), Overtaken (``sheet_number`` is
    no longer the current version), MoveError (it is over).
    """
    with transaction.atomic():
        try:
            old = hold(submission, sheet_number)
        except Overtaken:
            if selectors.fresh_sheet(submission).body == body:
                return submission
            raise
        require_move(Status(submission.status), Status.NEEDS_CALL)
        sheet = read_sheet(body, contact_needed=True)
        if old.body != body:
            new = Correction(sheet, body, "taken down on the phone", said_by.strip()[:200])
            judge_again(submission, old, new, by)
    return submission


def judge_again(submission: Submission, old: SheetVersion, new: NewSheet, by: User | None) -> None:
    """Store a new version of a sheet that is held, judge it, and send the request where it goes."""
    sheet, body = new.sheet, new.body
    found = beside(sheet, exclude=submission)
    verdict = evaluate(sheet, stock(), found.facts, current_limits())
    version = rows.new_version(
        submission,
        old.number + 1,
        sheet,
        verdict,
        body,
        beside=found.kept,
        by=by,
        reason=new.reason,
        said_by=new.said_by,
    )
    SheetVersion.objects.filter(pk=old.pk).update(is_current=False)
    _store_version(submission, version, seen=selectors.checks_seen(submission))
    _follow_sheet(
        submission,
        {
            **linked_anew(submission, sheet, found.known),
            **rows.from_sheet(sheet, verdict, _waits_since(submission)),
        },
    )
    sheet_replaced.send(sender=Submission, submission=submission)
    why = f"{new.reason}; {rows.open_count(version)}"
    move(submission, rows.status_after(verdict.verdict), reason=why, by=by)
    _announce(submission)


def _waits_since(submission: Submission) -> datetime:
    """Since when somebody waits for this call: who waited before waits on, else it is now."""
    waited = submission.waits_since if submission.status == Status.NEEDS_CALL else None
    return waited or timezone.now()


def _follow_sheet(submission: Submission, columns: Mapping[str, Any]) -> None:
    Submission.objects.filter(pk=submission.pk).update(**columns)
    for name, value in columns.items():
        setattr(submission, name, value)
