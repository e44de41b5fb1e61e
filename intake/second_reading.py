"""A second reading taken blind: who is asked for it, and what it makes of the sheet.

A sheet with one way to the length cannot show a slip in it. The customer can answer that without a
call: the same length once more, from another mark of the tape, without the first number in view.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from intake.models import SheetVersion

SINGLE_ROUTE = "single-route"  # the check that asks to measure once more from another mark
SAID_BY = "customer, on the status page"
REASON = "measured once more"


@dataclass(frozen=True, slots=True)
class SecondReading:
    """What the answer leads to: a new body and its sheet, and why there is a new version."""

    sheet: Sheet
    body: Mapping[str, Any]
    reason: str = REASON
    said_by: str = SAID_BY


def asked_again(sheet: SheetVersion) -> str:
    """The answer to be read once more, or "" where nobody is asked to, or it was done already."""
    for finding in sheet.outcome.get("findings") or ():
        if finding["check"] == SINGLE_ROUTE and finding["severity"] != "note":
            slug = str(finding["answers"][0])
            return "" if _first(sheet, slug).get("again") else slug
    return ""


def is_there(sheet: SheetVersion, again: Mapping[str, str]) -> bool:
    """Whether a current sheet holds this very second reading: it was sent twice."""
    told = sheet.body.get("answers", {}).values()
    filled = _filled(again)
    return any(isinstance(answer, dict) and answer.get("again") == filled for answer in told)


def with_second(sheet: SheetVersion, slug: str, again: Mapping[str, str]) -> SecondReading:
    """The sheet with ``again`` (text, start_mark, method) beside the first reading.

    Raises SheetErrors keyed "text", "start_mark" or "" where it cannot be read.
    """
    filled = _filled(again)
    if "text" not in filled:
        raise SheetErrors({"text": ["Please write the number you read."]})
    answers = {**sheet.body["answers"], slug: {**_first(sheet, slug), "again": filled}}
    body = {**sheet.body, "answers": answers}
    try:
        return SecondReading(read_sheet(body, contact_needed=True), body)
    except SheetErrors as refused:
        raise SheetErrors(_by_box(refused.errors)) from refused


def _first(sheet: SheetVersion, slug: str) -> dict[str, Any]:
    """The first reading as the API writes it with parts."""
    told = sheet.body.get("answers", {}).get(slug)
    return dict(told) if isinstance(told, dict) else {"text": told}


def _filled(again: Mapping[str, str]) -> dict[str, str]:
    return {part: text.strip() for part, text in again.items() if text and text.strip()}


def _by_box(errors: Mapping[str, list[str]]) -> dict[str, list[str]]:
    """The reader names answers; the page has a box for the number and one for the mark."""
    by_box: dict[str, list[str]] = {}
    for path, said in errors.items():
        box = "start_mark" if path.endswith("start_mark") else "text"
        by_box.setdefault(box, []).extend(said)
    return by_box
