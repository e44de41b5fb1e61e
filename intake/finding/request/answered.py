"""What became of each question: open, answered, released over, or settled by another answer."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.utils.translation import gettext as _

from intake.desk_show import label_for
from intake.desk_words import Words
from intake.models import CallRecord, SheetVersion

_NOT_AN_ANSWER = ("not_reached",)


@dataclass(frozen=True, slots=True)
class Told:
    """One check that has held this request at some time, and what settled it."""

    check: str
    about: Words
    message: str
    severity: str
    state: str  # "open", "answered", "overridden" or "gone"
    how: str = ""
    by: str = ""
    at: datetime | None = None
    note: str = ""

    @property
    def word(self) -> str:
        """The state in a word."""
        return {
            "open": _("open"),
            "answered": _("answered"),
            "overridden": _("released over"),
            "gone": _("no longer found"),
        }[self.state]


def all_told(sheets: Sequence[SheetVersion], calls: Iterable[CallRecord]) -> list[Told]:
    """Every check that has ever held the request: the open ones first, then in the order found."""
    held: dict[str, dict[str, Any]] = {}
    for sheet in sheets:
        for finding in _holding(sheet):
            held.setdefault(finding["check"], {}).update(finding)
    still = {finding["check"] for finding in _holding(sheets[-1])}
    newest = {call.check_id: call for call in calls if call.outcome not in _NOT_AN_ANSWER}
    told = [_told(finding, still, newest) for finding in held.values()]
    return sorted(told, key=lambda one: one.state != "open")


def _holding(sheet: SheetVersion) -> list[dict[str, Any]]:
    findings = sheet.outcome.get("findings") or ()
    return [finding for finding in findings if finding["severity"] != "note"]


def _told(finding: dict[str, Any], still: set[str], newest: dict[str, CallRecord]) -> Told:
    check, answers = finding["check"], finding["answers"]
    about = label_for(answers[0]) if answers else check
    call = newest.get(check)
    if check in still:
        return Told(check, about, finding["message"], finding["severity"], "open")
    if call is None:
        return Told(check, about, finding["message"], finding["severity"], "gone")
    return Told(
        check,
        about,
        finding["message"],
        finding["severity"],
        "overridden" if call.outcome == "overridden" else "answered",
        str(call.get_outcome_display()),
        str(call.by or call.said_by),
        call.at,
        call.note,
    )
