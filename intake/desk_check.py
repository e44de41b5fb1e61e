"""Judge a call that is still being typed: what cannot be read yet is set aside and named."""

from __future__ import annotations

import copy
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from intake import services
from intake.desk_fields import lengths_asked
from intake.desk_show import Shown, label_for
from intake.desk_words import Words
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors

_TRIES = 4


@dataclass(frozen=True, slots=True)
class ReadBack:
    """What one box of a length says: the value in both systems, its doubts, or what is wrong."""

    slug: str
    label: Words
    value: str = ""
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
    good, sheet, errors = _readable(body)
    if sheet is None or not good["answers"]:
        return Judged(None, _read_back(None, errors), errors)
    shown = Shown(services.dry_check(body=good).as_record())
    return Judged(shown, _read_back(sheet, errors), errors)


def _readable(body: Mapping[str, Any]) -> tuple[dict[str, Any], Sheet | None, dict[str, list[str]]]:
    """The part of the body that reads, its sheet, and why the rest does not."""
    good: dict[str, Any] = copy.deepcopy(dict(body))
    good.setdefault("answers", {})
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
        body.get("contact", {}).pop(path[1], None)
    elif path[0] == "wants":
        body["wants"] = ["shaft"]  # nothing is ticked yet; the length is always of use
    else:
        body.pop(path[0], None)


def _read_back(sheet: Sheet | None, errors: Mapping[str, list[str]]) -> tuple[ReadBack, ...]:
    """One line for each length of the page, empty where nothing is typed."""
    lines = []
    for slug in lengths_asked():
        reading = sheet.readings.get(slug) if sheet else None
        wrong = [s for key, said in errors.items() if key.split(".")[1:2] == [slug] for s in said]
        lines.append(
            ReadBack(
                slug,
                label_for(slug),
                value=reading.length.both() if reading else "",
                doubts=tuple(reading.doubts) if reading else (),
                errors=tuple(wrong),
            )
        )
    return tuple(lines)
