"""The page of rates as data: each rate in words, what is in force, what is to come, what was."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from django.conf import settings

from quotes.domain.rate_fields import FIELDS, RateField, value_of
from quotes.domain.rate_values import as_text, from_text, rates_from, shown
from quotes.domain.rates import Rates
from quotes.rate_sets.models import RateSet

_OWN = {"name": "Name", "reason": "Why", "from_day": "From", "values": ""}


@dataclass(frozen=True, slots=True)
class RateRow:
    """One rate: its words, the value in force, what was typed for it and what is wrong with it."""

    field: RateField
    current: str
    typed: str
    error: str

    @property
    def id(self) -> str:
        """The id of its box."""
        return f"rate-{self.field.name.replace('.', '-')}"

    @property
    def lines(self) -> int:
        """How high its box is, where it has lines."""
        return max(3, self.typed.count("\n") + 2)


@dataclass(frozen=True, slots=True)
class Change:
    """One rate that a set changed: what it was on its day without the set, and what it became."""

    words: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Adopted:
    """One set with what it changed. ``stands``: in force, to come, or earlier."""

    row: RateSet
    changes: tuple[Change, ...]
    is_to_come: bool


@dataclass(frozen=True)
class RatesPage:
    """Everything the page shows. ``sets`` newest first."""

    rates: Rates
    sets: Sequence[RateSet]
    today: date
    typed: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def groups(self) -> list[tuple[str, list[RateRow]]]:
        """The rates under their headings."""
        groups: dict[str, list[RateRow]] = {}
        for one in FIELDS.values():
            groups.setdefault(one.group, []).append(self._row(one))
        return list(groups.items())

    def _row(self, one: RateField) -> RateRow:
        value = value_of(self.rates, one.name)
        usual = as_text(one, value) if one.is_long else ""
        typed = self.typed.get(one.name, usual)
        return RateRow(one, shown(one, value), typed, self.errors.get(one.name, ""))

    @property
    def wrong(self) -> list[tuple[str, str, str]]:
        """Each error: the id of its box, its words, the sentence."""
        return [
            (
                "" if name == "values" else f"rate-{name.replace('.', '-')}",
                _OWN[name] if name in _OWN else FIELDS[name].words,
                said,
            )
            for name, said in self.errors.items()
        ]

    @cached_property
    def in_force(self) -> RateSet | None:
        """The set whose day came last; None while the settings alone speak."""
        come = [row for row in self.sets if row.from_day <= self.today]
        return max(come, key=lambda row: (row.from_day, row.number), default=None)

    @cached_property
    def history(self) -> list[Adopted]:
        """Every set with what it changed, the latest day first."""
        told, sets = [], sorted(self.sets, key=lambda row: (row.from_day, row.number))
        before = Rates.of(settings.SHOP)
        for row in sets:
            after = rates_from(before, [(row.number, row.values)])
            told.append(Adopted(row, _changes(row, before), row.from_day > self.today))
            before = after
        return told[::-1]

    @property
    def coming(self) -> list[Adopted]:
        """Sets whose day has not come, the nearest first."""
        return [one for one in self.history if one.is_to_come][::-1]

    @property
    def earlier(self) -> list[Adopted]:
        """Sets whose day has come, the latest first."""
        return [one for one in self.history if not one.is_to_come]


def _changes(row: RateSet, before: Rates) -> tuple[Change, ...]:
    known = [FIELDS[name] for name in row.values if name in FIELDS]
    return tuple(
        Change(
            one.words,
            shown(one, value_of(before, one.name)),
            shown(one, from_text(one, row.values[one.name])),
        )
        for one in known
    )
