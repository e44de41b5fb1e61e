"""The history of a submission in sentences: who did what, and what changed with each version."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from intake.desk_show import label_for, told
from intake.desk_words import Words
from intake.domain.causes import CAUSES
from intake.domain.lifecycle import LABELS, Status
from intake.models import CallRecord, Event, SheetVersion
from intake.selectors import Entry

_NOBODY = gettext_lazy("the desk, by itself")


@dataclass(frozen=True, slots=True)
class Change:
    """One answer that differs between two versions, both as typed; empty where there was none."""

    label: Words
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that happened."""

    at: datetime
    who: str
    title: str
    details: tuple[str, ...] = ()
    changes: tuple[Change, ...] = ()
    verdict: str = ""


def history_lines(entries: Iterable[Entry]) -> list[Line]:
    """Oldest first, as the selector gives them."""
    lines, before = [], None
    for entry in entries:
        row = entry.row
        if isinstance(row, SheetVersion):
            lines.append(_sheet(row, before))
            before = row
        elif isinstance(row, CallRecord):
            lines.append(_call(row))
        else:
            lines.append(_event(row))
    return lines


def changes(before: Mapping[str, Any], after: Mapping[str, Any]) -> tuple[Change, ...]:
    """What differs between the answers of two bodies."""
    old, new = before.get("answers", {}), after.get("answers", {})
    slugs = dict.fromkeys([*old, *new])
    return tuple(
        Change(label_for(slug), told(old.get(slug)), told(new.get(slug)))
        for slug in slugs
        if old.get(slug) != new.get(slug)
    )


def _sheet(row: SheetVersion, before: SheetVersion | None) -> Line:
    """A version: why it was made, what changed."""
    details = [row.reason] if row.reason else []
    if row.said_by:
        details.append(_("Said by %(name)s") % {"name": row.said_by})
    return Line(
        row.made_at,
        str(row.made_by or _NOBODY) if before else str(row.made_by or _("the customer")),
        _("Version %(number)d of the sheet") % {"number": row.number},
        tuple(details),
        changes(before.body, row.body) if before else (),
        row.verdict,
    )


def _call(row: CallRecord) -> Line:
    """A question put to a person and what came of it."""
    details = [f"“{row.question_as_asked}”"] if row.question_as_asked else []
    if row.said_by:
        details.append(_("Said by %(name)s") % {"name": row.said_by})
    if row.cause:
        details.append(_("Cause: %(cause)s") % {"cause": CAUSES.get(row.cause, row.cause)})
    also = ", ".join(CAUSES.get(code, code) for code in row.contributing)
    if also:
        details.append(_("Also: %(causes)s") % {"causes": also})
    if row.again_at:
        again = timezone.localtime(row.again_at)
        details.append(_("Try again on %(at)s") % {"at": f"{again:%-d %b %Y, %H:%M}"})
    if row.note:
        details.append(row.note)
    title = _("Call about %(check)s: %(outcome)s") % {
        "check": row.check_id,
        "outcome": row.get_outcome_display(),
    }
    return Line(row.at, str(row.by or _NOBODY), title, tuple(details))


def _event(row: Event) -> Line:
    """A change of status."""
    title = _status(row.new_status).capitalize()
    details = (row.reason,) if row.reason else ()
    return Line(row.at, str(row.by or _NOBODY), title, details)


def _status(value: str) -> str:
    return str(LABELS.get(Status(value), value)) if value in set(Status) else value
