"""From values to rows: what a sheet and its verdict look like in the database. Nothing is saved."""

from __future__ import annotations

import secrets
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from typing import Any

from django.contrib.auth.models import User
from django.utils import timezone

from intake.domain.at_stake import PricedPart, at_stake
from intake.domain.call_order import call_need
from intake.domain.kept_history import KEY
from intake.domain.known_by import boat_key
from intake.domain.lifecycle import Status
from intake.domain.sheet import Reading, Sheet
from intake.domain.verdict import Call, Verdict
from intake.models import FindingRecord, SheetVersion, Submission

Body = Mapping[str, Any]

REFERENCE_SIGNS = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"  # no 0 O 1 I L: it is read out on the phone
LONGEST_REASON = 200


def new_submission(
    sheet: Sheet, verdict: Verdict, *, key: str, digest: str, language: str = ""
) -> Submission:
    """A request that has not been stored before, with a reference and a link of its own."""
    now = timezone.now()
    return Submission(
        reference="FG-" + "".join(secrets.choice(REFERENCE_SIGNS) for _ in range(6)),
        token=secrets.token_urlsafe(32),
        status=status_after(verdict.verdict).value,
        channel=sheet.channel,
        language=language,
        received_at=now,
        idempotency_key=key,
        body_digest=digest,
        **from_sheet(sheet, verdict, now),
    )


def from_sheet(sheet: Sheet, verdict: Verdict, since: datetime) -> dict[str, Any]:
    """The columns of a submission that follow its current sheet; ``since``: when it began to wait.

    A call that was put off is no longer: the sheet it was put off for has changed.
    """
    contact, call = sheet.contact, verdict.verdict
    return {
        "verdict": call.value,
        "contact_name": contact.name or "",
        "contact_phone": contact.phone or "",
        "contact_email": contact.email or "",
        "contact_role": contact.role or "",
        "job": sheet.job or "",
        "boat_name": sheet.boat_name or "",
        "boat_key": boat_key(sheet.boat_name),
        "station": sheet.station or "",
        "needed_by": _needed_by(sheet),
        "not_before": None,
        **(_waits(sheet, verdict, since) if call != Call.RELEASE else _NOBODY_WAITS),
    }


_NOBODY_WAITS = {"call_by": None, "call_why": "", "waits_since": None, "at_stake": None}


def _waits(sheet: Sheet, verdict: Verdict, since: datetime) -> dict[str, Any]:
    """Until when somebody must be called about this sheet, and what a wrong cut would cost."""
    case = verdict.case
    stake = at_stake(_priced(verdict), case.overall, case.limits.bar_facing_and_saw)
    need = call_need(timezone.localtime(since), _needed_by(sheet), stake, case.limits)
    return {
        "call_by": need.call_by,
        "call_why": need.why,
        "waits_since": since,
        "at_stake": stake,
    }


def _priced(verdict: Verdict) -> Iterator[PricedPart]:
    for match in verdict.parts:
        if part := verdict.case.stock.part(match.code):
            yield PricedPart(match.kind, part.price, part.per, match.quantity)


def _needed_by(sheet: Sheet) -> date | None:
    """When the boat must run or be lifted, whichever is sooner."""
    days = (sheet.part("needed_by", name) for name in ("run", "lift"))
    return min((day for day in days if day), default=None)


def status_after(verdict: Call) -> Status:
    """Where a verdict sends a submission."""
    return Status.READY if verdict == Call.RELEASE else Status.NEEDS_CALL


def new_version(
    submission: Submission,
    number: int,
    sheet: Sheet,
    verdict: Verdict,
    body: Body,
    *,
    beside: Mapping[str, Any],
    by: User | None,
    reason: str = "",
    said_by: str = "",
) -> SheetVersion:
    """All answers at one time, as typed and as read, with what was said of them.

    ``beside``: what was known beside the sheet, so that it can be judged by it again.
    """
    outcome = {**verdict.as_record(), KEY: dict(beside)}
    return SheetVersion(
        submission=submission,
        number=number,
        body=body,
        readings={slug: _reading(reading) for slug, reading in sheet.readings.items()},
        outcome=outcome,
        verdict=outcome["verdict"],
        fit_probability=(outcome["shaft"] or {}).get("fit_probability"),
        rules_version=outcome["rules_version"],
        made_by=by,
        reason=reason[:LONGEST_REASON],
        said_by=said_by,
    )


def _reading(reading: Reading) -> dict[str, Any]:
    return {
        "text": reading.text,
        "method": reading.method,
        "mm": reading.length.mm_text,
        "unit": reading.unit,
        "unit_written": reading.unit_written,
        "u_mm": f"{reading.u_nm / 1e6:.3f}",
    } | ({"again": _reading(reading.again)} if reading.again else {})


def finding_rows(
    submission: Submission, version: SheetVersion, seen: frozenset[str]
) -> list[FindingRecord]:
    """A row for each finding; ``seen`` are the checks already counted for this submission."""
    if not version.outcome["findings"]:
        return []
    month = month_of(submission.received_at)
    return [
        FindingRecord(
            sheet=version,
            position=position,
            check_id=finding["check"],
            severity=finding["severity"],
            answer=(finding["answers"] or [""])[0],
            message=finding["message"],
            question=finding["question"] or "",
            month=month,
            channel=submission.channel,
            counts=finding["severity"] != "note" and finding["check"] not in seen,
        )
        for position, finding in enumerate(version.outcome["findings"])
    ]


def month_of(moment: datetime) -> str:
    """The month a moment counts in, on the desk's own clock: "2026-11"."""
    return f"{timezone.localtime(moment):%Y-%m}"


def open_count(version: SheetVersion) -> str:
    """How much is left to ask, in words for the history."""
    held = sum(finding["severity"] != "note" for finding in version.outcome["findings"])
    return f"{held} to ask" if held else "nothing to ask"
