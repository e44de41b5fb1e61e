"""What of the trail is asked for, read from an address; what makes no sense is left out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode

from django.http import QueryDict
from django.utils.dateparse import parse_date

_LONGEST = 80


@dataclass(frozen=True, slots=True)
class Asked:
    """Kind of record, which one, who, between which days; "" and None ask for all."""

    record: str = ""
    key: str = ""
    by: str = ""
    first: date | None = None
    last: date | None = None
    after: int | None = None

    @property
    def query(self) -> str:
        """The same as an address says it, without the page."""
        told = {
            "record": self.record,
            "key": self.key,
            "by": self.by,
            "from": self.first.isoformat() if self.first else "",
            "to": self.last.isoformat() if self.last else "",
        }
        return urlencode({name: value for name, value in told.items() if value})


def read(asked: QueryDict) -> Asked:
    """An address as it is meant."""
    after = asked.get("after", "")
    return Asked(
        record=_text(asked, "record"),
        key=_text(asked, "key"),
        by=_text(asked, "by"),
        first=_day(asked, "from"),
        last=_day(asked, "to"),
        after=int(after) if after.isascii() and after.isdigit() and len(after) < 18 else None,
    )


def _text(asked: QueryDict, name: str) -> str:
    return asked.get(name, "").replace("\x00", "").strip()[:_LONGEST]


def _day(asked: QueryDict, name: str) -> date | None:
    try:
        return parse_date(asked.get(name, "").strip())
    except ValueError:
        return None
