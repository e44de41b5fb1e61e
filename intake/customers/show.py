"""How records are shown: lengths in both systems, what differs between two, the trail in words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from catalog.domain.lengths import Length
from intake.customers.models import Boat, Customer, Merge
from intake.insights import month_name
from intake.records.models import ShaftFitted
from staff.models import Change


@dataclass(frozen=True, slots=True)
class ShaftRow:
    """One shaft that was supplied, in words."""

    row: ShaftFitted

    @property
    def month(self) -> str:
        """When it was sent."""
        return month_name(self.row.month)

    @property
    def length(self) -> str:
        """From coupling face to thread end."""
        return Length(self.row.length_nm).both()

    @property
    def diameter(self) -> str:
        """Of the bar."""
        return Length(self.row.diameter_nm).both()

    @property
    def gap(self) -> str:
        """As it was fitted; empty where nobody told."""
        return Length(self.row.gap_nm).both() if self.row.gap_nm is not None else ""

    @property
    def outcome(self) -> str:
        """Whether it fitted. Nobody's silence counts as a yes."""
        if self.row.misfit:
            return "did not fit"
        return "fitted" if self.row.gap_nm is not None else "not told"


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing two records tell, and whether they tell the same."""

    label: str
    one: str
    other: str

    @property
    def differs(self) -> bool:
        """True where both tell something, and not the same."""
        return self.one != self.other


def customers_beside(one: Customer, other: Customer) -> list[Difference]:
    """Two customers, line by line."""
    names = ("name", "phone", "email", "role")
    lines = [Difference(name, getattr(one, name), getattr(other, name)) for name in names]
    return [*lines, Difference("known since", _day(one.made_at), _day(other.made_at))]


def boats_beside(one: Boat, other: Boat) -> list[Difference]:
    """Two boats, line by line."""
    lines = [Difference(name, getattr(one, name), getattr(other, name)) for name in _BOAT]
    return [*lines, Difference("known since", _day(one.made_at), _day(other.made_at))]


_BOAT = ("name", "station")


def _day(moment: datetime) -> str:
    return f"{moment:%Y-%m-%d}"


@dataclass(frozen=True, slots=True)
class TrailLine:
    """One change: when, who, why, and each value before and after."""

    at: datetime
    who: str
    why: str
    values: tuple[tuple[str, str, str], ...]


def trail_lines(changes: Iterable[Change]) -> list[TrailLine]:
    """Newest first, as they come."""
    return [
        TrailLine(
            change.at,
            str(change.by) if change.by else "the desk, by itself",
            change.why,
            tuple((name, _text(told[0]), _text(told[1])) for name, told in change.what.items()),
        )
        for change in changes
    ]


def _text(value: object) -> str:
    return "" if value is None else str(value)


def merge_words(merge: Merge, pk: int) -> str:
    """What a merge did to the record that is looked at."""
    if merge.kept == pk:
        return f"{merge.kind} {merge.gone} became one with this one"
    return f"this one became one with {merge.kind} {merge.kept}"
