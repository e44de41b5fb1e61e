"""What the pages of call-backs show of a finding: its causes, where it is, what else is open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext_lazy as _

from intake.desk_show import label_for
from intake.desk_words import Words
from intake.domain.cause_listen import listen_for
from intake.domain.drawing import ASKED, drive_line
from intake.domain.svg import to_svg
from intake.likely import LikelyCause, likely_causes
from intake.models import SheetVersion

Finding = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Cause:
    """A likely cause with its share, and what to listen for."""

    likely: LikelyCause
    listen: str


def causes_of(finding: Finding | None) -> list[Cause]:
    """The first causes of a finding, the likeliest first."""
    return [Cause(one, listen_for(one.code)) for one in likely_causes(finding or {})]


def sketch_of(finding: Finding | None, sheet: SheetVersion) -> SafeString:
    """The drive line with what is asked about lit, and no number on it; empty where none is drawn.

    Only the kind of drive and the side are the boat's own: whoever reads blind sees no length.
    """
    drawn = [slug for slug in (finding or {}).get("answers", ()) if slug in ASKED]
    if not drawn:
        return SafeString("")
    answers = sheet.body.get("answers") or {}
    known = {"layout": answers.get("drive_layout"), "station": _station(answers)}
    drawing = drive_line({key: told for key, told in known.items() if told}, lit=drawn[0])
    return mark_safe(to_svg(drawing, ident="asked"))  # noqa: S308 - to_svg escapes


def _station(answers: Mapping[str, Any]) -> Any:
    named = answers.get("boat_name_and_station")
    return named.get("station") if isinstance(named, dict) else None


@dataclass(frozen=True, slots=True)
class OpenLine:
    """One finding that waits for its answer; ``here`` is the one on this card."""

    check: str
    answer: str
    severity: str
    label: Words
    question: str
    here: bool


def open_lines(sheet: SheetVersion, here: Finding | None = None) -> list[OpenLine]:
    """What still holds a sheet, dearest first, in words that tell no number: it is read blind."""
    return [
        OpenLine(
            *key_of(finding),
            finding["severity"],
            label_of(key_of(finding)[1]),
            finding["question"] or "",
            here=here is not None and key_of(finding) == key_of(here),
        )
        for finding in open_findings(sheet)
    ]


def label_of(slug: str) -> Words:
    """The short name of what is asked about; empty for nothing."""
    if slug.startswith("contact."):
        return _("how they are reached")
    return label_for(slug) if slug else ""


def open_findings(sheet: SheetVersion) -> list[Finding]:
    """The findings that hold a sheet, dearest first."""
    return [row for row in sheet.outcome.get("findings") or () if row["severity"] != "note"]


def key_of(finding: Finding) -> tuple[str, str]:
    """What tells one finding of a sheet from the others: its check and the answer asked about."""
    return finding["check"], (finding["answers"] or [""])[0]


def next_open(sheet: SheetVersion, done: tuple[str, str]) -> Finding | None:
    """What is asked next: another question than the one just put, else that one once more."""
    left = open_findings(sheet)
    others = [finding for finding in left if key_of(finding) != done]
    return next(iter(others or left), None)
