"""Judge a call that is still being typed: what cannot be read yet is set aside and named."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from intake import services
from intake.desk_asked import doubts_of, still_open
from intake.desk_order import CALL_ORDER
from intake.desk_show import Shown, label_for
from intake.desk_ways import FORMS
from intake.desk_words import Words
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from intake.likely import Doubts

_TRIES = 4


@dataclass(frozen=True, slots=True)
class ReadBack:
    """What one field says: a length in both systems and how it was taken, or what is wrong.

    ``method`` is how it is stored, ``way`` its word on the page; ``cannot``: there is none.
    """

    slug: str
    label: Words
    value: str = ""
    method: str = ""
    way: str = ""
    cannot: bool = False
    doubts: tuple[str, ...] = ()
    errors: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """The id of the line beside the box."""
        return f"f-answers-{self.slug}-read"


@dataclass(frozen=True, slots=True)
class Judged:
    """A verdict on what could be read, and a sentence for each answer that could not."""

    shown: Shown | None
    read: tuple[ReadBack, ...]
    errors: Mapping[str, list[str]] = field(default_factory=dict)
    stated: frozenset[str] = frozenset()  # questions answered with "there is none"

    @property
    def still_open(self) -> tuple[tuple[Words, str], ...]:
        """What the call has not come to yet, each with its chord."""
        return still_open(self.shown.outcome, self.stated) if self.shown else ()

    @property
    def doubts(self) -> Doubts:
        """What does not add up so far."""
        return doubts_of(self.shown.outcome if self.shown else {}, self.stated)

    @property
    def lines(self) -> list[ReadBack]:
        """The lengths that could be read."""
        return [line for line in self.read if line.value]

    @property
    def unread(self) -> list[tuple[Words, list[str]]]:
        """What could not be read: the short name and the sentences."""
        return [(label_for(key.split(".")[-1]), said) for key, said in self.errors.items()]


def judge(body: Mapping[str, Any]) -> Judged:
    """Read and check as much of the body as makes sense; store nothing."""
    good, sheet, errors = readable(body)
    if sheet is None or not good["answers"]:
        return Judged(None, _read_back(None, errors), errors)
    shown = Shown(services.dry_judge(sheet).as_record())
    return Judged(shown, _read_back(sheet, errors), errors, frozenset(sheet.states))


def readable(body: Mapping[str, Any]) -> tuple[dict[str, Any], Sheet | None, dict[str, list[str]]]:
    """The part of the body that reads, its sheet, and why the rest does not."""
    good: dict[str, Any] = {**body, "answers": dict(body.get("answers", {}))}
    # A name or a number still being typed is no matter of the checks.
    said: dict[str, list[str]] = {}
    for _try in range(_TRIES):
        try:
            return good, read_sheet(good), said
        except SheetErrors as error:
            said |= error.errors
            for key in error.errors:
                _set_aside(good, key.split("."))
    return good, None, said


def _set_aside(body: dict[str, Any], path: list[str]) -> None:
    """Take out the answer (whole, not one of its parts) that a sentence is about."""
    if path[0] == "answers" and len(path) > 1:
        body["answers"].pop(path[1], None)
    elif path[0] == "contact" and len(path) > 1:
        body["contact"] = {n: told for n, told in body.get("contact", {}).items() if n != path[1]}
    elif path[0] == "wants":
        body["wants"] = ["shaft"]  # nothing is ticked yet; the length is always of use
    else:
        body.pop(path[0], None)


def _read_back(sheet: Sheet | None, errors: Mapping[str, list[str]]) -> tuple[ReadBack, ...]:
    """One line for each field of the page that says something, in the order of the page."""
    said = {key.split(".")[1] for key in errors if "." in key}
    said |= {*sheet.readings, *sheet.states} if sheet else set()
    slugs = [slug for _key, _title, told in CALL_ORDER for slug in told if slug in said]
    lines = [_line(slug, sheet, errors) for slug in slugs]
    return tuple(line for line in lines if line.value or line.cannot or line.errors)


def _line(slug: str, sheet: Sheet | None, errors: Mapping[str, list[str]]) -> ReadBack:
    wrong = tuple(s for key, said in errors.items() if key.split(".")[1:2] == [slug] for s in said)
    reading = sheet.readings.get(slug) if sheet else None
    if reading is None:
        cannot = bool(sheet and sheet.cannot(slug))
        return ReadBack(slug, label_for(slug), cannot=cannot, errors=wrong)
    return ReadBack(
        slug,
        label_for(slug),
        value=reading.length.both(),
        method=reading.method,
        way=FORMS[reading.method][0],
        doubts=tuple(reading.doubts),
        errors=wrong,
    )
