"""What a list of calls is narrowed to, and where its page begins, from an address and back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import NamedTuple
from urllib.parse import urlencode

SHOWN = ("", "mine", "free", "later", "late")
VERDICTS = ("stop", "ask")
CHANNELS = ("form", "phone", "email", "paper", "api")


class Place(NamedTuple):
    """A row of a list in the order of a moment and a key: the page begins after it."""

    at: datetime
    pk: int

    def __str__(self) -> str:
        return f"{self.at.isoformat()}~{self.pk}"


def read_place(text: str) -> Place | None:
    """A place from an address; what is none is the beginning.

    >>> read_place("2026-11-25T10:30:00+00:00~7").pk, read_place("~"), read_place("")
    (7, None, None)
    """
    moment, _tilde, key = text.partition("~")
    try:
        at = datetime.fromisoformat(moment)
    except ValueError:
        return None
    is_key = key.isascii() and key.isdigit() and len(key) < 19
    sane = bool(at.tzinfo) and 1970 < at.year < 9000
    return Place(at, int(key)) if is_key and sane else None


@dataclass(frozen=True, slots=True)
class CallFilters:
    """The queue's: ``show`` is due ("", all whose turn it is), mine, free, later or late."""

    show: str = ""
    verdict: str = ""
    channel: str = ""
    after: Place | None = None

    def query(self, after: Place | None = None) -> str:
        """These filters as they stand in an address, for the page after that row."""
        told = {"show": self.show, "verdict": self.verdict, "channel": self.channel}
        return _query({**told, "after": str(after) if after else ""})

    @property
    def narrowed(self) -> bool:
        """Whether somebody may be waiting who is not shown."""
        return bool(self.show or self.verdict or self.channel)


def read_filters(typed: Mapping[str, str]) -> CallFilters:
    """Filters from an address; a word that is none is left out."""
    return CallFilters(
        _one_of(typed.get("show", ""), SHOWN),
        _one_of(typed.get("verdict", ""), VERDICTS),
        _one_of(typed.get("channel", ""), CHANNELS),
        read_place(typed.get("after", "")),
    )


@dataclass(frozen=True, slots=True)
class CallsMadeFilters:
    """Of calls made: one day, one person (its key)."""

    day: date | None = None
    person: int | None = None
    after: Place | None = None

    def query(self, after: Place | None = None) -> str:
        """These filters as they stand in an address, for the page after that row."""
        told = {"day": str(self.day or ""), "person": str(self.person or "")}
        return _query({**told, "after": str(after) if after else ""})


def read_made_filters(typed: Mapping[str, str]) -> CallsMadeFilters:
    """Filters from an address; what cannot be read is left out."""
    try:
        day = date.fromisoformat(typed.get("day", ""))
    except ValueError:
        day = None
    # The last day of the calendar has no next one.
    day = day if day and date(1970, 1, 2) < day < date(9000, 1, 1) else None
    person = typed.get("person", "")
    is_key = person.isascii() and person.isdigit() and len(person) < 10
    return CallsMadeFilters(
        day, int(person) if is_key else None, read_place(typed.get("after", ""))
    )


def _one_of(typed: str, known: tuple[str, ...]) -> str:
    return typed if typed in known else ""


def _query(told: Mapping[str, str]) -> str:
    return urlencode({name: text for name, text in told.items() if text})
