"""A number read again without seeing the first: both as typed, and how far apart they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from catalog.domain.lengths import Length
from intake.calling.models import BlindReading
from intake.desk_show import told
from intake.desk_words import Words
from intake.domain.blind import apart
from intake.domain.reading import read_sheet
from intake.domain.sheet import Reading, SheetErrors
from intake.models import SheetVersion


@dataclass(frozen=True, slots=True)
class Pair:
    """The first answer and the second as typed; ``difference_nm`` None: no two lengths."""

    first: str
    second: str
    difference_nm: int | None


@dataclass(frozen=True, slots=True)
class Compared:
    """What is shown once the second is typed: every reading of one answer, the newest last."""

    slug: str
    label: Words
    unit: str
    rows: Sequence[BlindReading]
    errors: Sequence[str] = ()

    @property
    def count(self) -> int:
        """How many readings the page knows of: a repeat of the last one is no new reading."""
        return len(self.rows)

    @property
    def lines(self) -> list[tuple[BlindReading, str]]:
        """Each reading with how far it is from the first."""
        return [(row, _apart(row, self.unit)) for row in self.rows]


def _apart(row: BlindReading, unit: str) -> str:
    if row.difference_nm is None:
        return "the same answer" if row.first == row.second else "another answer"
    return apart(Length(0), Length(row.difference_nm), unit)


def has_first(sheet: SheetVersion, slug: str) -> bool:
    """Whether there is a first answer to compare with."""
    first = (sheet.body.get("answers") or {}).get(slug)
    return bool(first) and not (isinstance(first, dict) and first.get("state"))


def unit_of(sheet: SheetVersion, slug: str) -> str:
    """The unit the first was typed in."""
    return str((sheet.readings.get(slug) or {}).get("unit") or "in")


def pair_of(sheet: SheetVersion, slug: str, now: Any) -> Pair:
    """The first answer of a sheet and the one typed now (the API's shape).

    A second reading that is to join the first (``again``) is compared by itself. Raises SheetErrors
    where it cannot be read.
    """
    first = (sheet.body.get("answers") or {}).get(slug)
    before, after = _reading(sheet.body, slug, first), _reading(sheet.body, slug, now)
    again = now.get("again") if isinstance(now, dict) else None
    second = after.again if again and after else after
    off = second.length.nm - before.length.nm if before and second else None
    return Pair(_short(told(_alone(first), slug)), _short(told(again or now, slug)), off)


def _alone(first: Any) -> Any:
    """The first answer without a second that joined it earlier."""
    if not isinstance(first, dict):
        return first
    return {part: text for part, text in first.items() if part != "again"}


def _reading(body: Mapping[str, Any], slug: str, answer: Any) -> Reading | None:
    """One answer as it reads on this sheet; nothing else of the sheet is read for it."""
    alone = {**body, "answers": {slug: answer}}
    try:
        return read_sheet(alone).readings.get(slug)
    except SheetErrors as refused:
        mine = {
            path: said
            for path, said in refused.errors.items()
            if path.startswith(f"answers.{slug}")
        }
        raise SheetErrors(mine or refused.errors) from refused


def _short(text: str) -> str:
    return text[:200]
