"""What list was asked for: words, filters, order. What makes no sense is left out."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from urllib.parse import urlencode

from intake.domain.lifecycle import Status
from intake.domain.search_query import Query, read_query
from intake.domain.search_words import filtered
from intake.finding.words import NOBODY, RANKS

CHANNELS = ("form", "phone", "email", "paper", "api")
_MONTH = re.compile(r"\d{4}-(0[1-9]|1[0-2])")
_NUMBER = re.compile(r"[0-9]{1,18}")


@dataclass(frozen=True, slots=True)
class Sort:
    """An order: the column that comes first, if any, and which way the newest come."""

    name: str
    column: str = ""
    newest_first: bool = True


SORTS = {
    sort.name: sort
    for sort in (
        Sort("newest"),
        Sort("oldest", newest_first=False),
        Sort("needed", "needed"),
        Sort("verdict", "rank"),
        Sort("boat", "boat"),
        Sort("waiting", "waiting", newest_first=False),
    )
}
FILTERS = ("status", "verdict", "channel", "month", "by")


@dataclass(frozen=True, slots=True)
class Asked:
    """One list: the same address always means the same list."""

    text: str = ""
    sort: Sort = SORTS["newest"]
    filters: Mapping[str, str] = field(default_factory=dict)
    after: int | None = None
    before: int | None = None

    @property
    def words(self) -> Query:
        """What was typed into the box, as it is looked for."""
        return read_query(self.text)

    @property
    def query(self) -> Query:
        """Words and filters together."""
        return self.words.also(*(_as_word(name, value) for name, value in self.filters.items()))

    @property
    def columns(self) -> dict[str, str | int | None]:
        """The filters as columns of a line."""
        return dict(_as_column(name, value) for name, value in self.filters.items())

    def address(self, **changes: str) -> str:
        """The list as the query of an address, from its first page, with some of it changed."""
        told = {"q": self.text, **self.filters, "sort": self.sort.name, **changes}
        if told["sort"] == "newest":
            del told["sort"]
        return urlencode({name: value for name, value in told.items() if value})


def asked_for(typed: Mapping[str, str]) -> Asked:
    """The list that an address asks for.

    >>> asked_for({"q": " 58 5/8 ", "status": "ready", "sort": "unheard of"}).address()
    'q=58+5%2F8&status=ready'
    """
    return Asked(
        text=" ".join(typed.get("q", "").replace("\0", "").split())[:300],
        sort=SORTS.get(typed.get("sort", ""), SORTS["newest"]),
        filters={name: typed[name] for name in FILTERS if _is_known(name, typed.get(name, ""))},
        after=_key(typed.get("after", "")),
        before=_key(typed.get("before", "")),
    )


def _key(text: str) -> int | None:
    return int(text) if _NUMBER.fullmatch(text) else None


def _is_known(name: str, value: str) -> bool:
    if name == "month":
        return _MONTH.fullmatch(value) is not None
    if name == "by":
        return _NUMBER.fullmatch(value) is not None
    known = {"status": [status.value for status in Status], "verdict": RANKS, "channel": CHANNELS}
    return value in known[name]


def _as_word(name: str, value: str) -> str:
    return filtered(name[0], str(RANKS[value]) if name == "verdict" else value)


def _as_column(name: str, value: str) -> tuple[str, str | int | None]:
    if name == "verdict":
        return "rank", RANKS[value]
    if name == "by":
        return "last_by", None if value == NOBODY else int(value)
    return name, value
