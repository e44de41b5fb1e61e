"""The form of a replay: its days, every limit as it is in force, what was typed and is wrong."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cached_property

from django.utils.dateparse import parse_date

from intake.domain.limit_rules import is_rule, rule_names
from intake.domain.limit_values import from_text, limit_fields
from intake.domain.limits import Limits
from intake.limit_rows import RuleRow, rule_id, words_of
from intake.limits_page import LimitRow, LimitsPage
from quotes.replay.models import Replay
from quotes.replay.services import Asked

OWN = {
    "name": "Name",
    "first_day": "First day",
    "last_day": "Last day",
    "note": "Why",
    "values": "",
}
_LONGEST = 500
_USUAL_PERIOD = timedelta(days=90)

Row = LimitRow | RuleRow


@dataclass(frozen=True, slots=True)
class Group:
    """Some rows under one heading, open where they were typed, refused or looked for."""

    title: str
    rows: list[Row]
    is_open: bool


@dataclass(frozen=True)
class ReplayForm:
    """Everything the form shows."""

    limits: Limits
    today: date
    typed: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)

    @property
    def sought(self) -> str:
        """The words that limits are looked for by."""
        return " ".join(self.typed.get("q", "").split())[:60]

    @property
    def first_day(self) -> str:
        """As typed; the last three months unless told."""
        return self.typed.get("first_day", (self.today - _USUAL_PERIOD).isoformat())

    @property
    def last_day(self) -> str:
        """As typed; today unless told."""
        return self.typed.get("last_day", self.today.isoformat())

    @cached_property
    def groups(self) -> list[Group]:
        """What was typed, first and together; then the limits that are looked for."""
        every = list(self._all())
        touched = [row for _title, rows in every for row in rows if row.typed or row.error]
        found = [Group("What you change", touched, is_open=True)] if touched else []
        for title, rows in every:
            if shown := [row for row in rows if self._is_sought(row)]:
                found.append(Group(title, shown, is_open=bool(self.sought)))
        return found

    def _all(self) -> Iterator[tuple[str, list[Row]]]:
        page = LimitsPage(self.limits, [], {}, self.typed, self.errors)
        for title, rows in page.groups:
            yield title, [row for row in rows if row.field.is_editable]
        yield "How severe each check is", list(page.severities)
        yield "What must be answered", list(page.musts)

    def _is_sought(self, row: Row) -> bool:
        if row.typed or row.error:
            return False
        told = f"{row.words} {_name(row)}".casefold().replace("_", " ")
        return all(word in told for word in self.sought.casefold().split())

    @property
    def finds_nothing(self) -> bool:
        """Whether no limit has those words."""
        return bool(self.sought) and not any(map(self._is_sought, self._rows()))

    def _rows(self) -> Iterator[Row]:
        yield from (row for _title, rows in self._all() for row in rows)

    @property
    def wrong(self) -> list[dict[str, str]]:
        """Each error: the id of its box, its words, the sentence."""
        return [
            {
                "id": "" if name == "values" else _box(name),
                "label": OWN[name] if name in OWN else words_of(name),
                "message": said,
            }
            for name, said in self.errors.items()
        ]


def _box(name: str) -> str:
    return f"replay-{name}" if name in OWN else rule_id(name)


def _name(row: Row) -> str:
    return row.name if isinstance(row, RuleRow) else row.field.name


def read_form(posted: Mapping[str, str]) -> tuple[Asked, dict[str, str]]:
    """What was asked for, and all that was typed, to be shown again."""
    typed = {name: str(text)[:_LONGEST] for name, text in posted.items()}
    names = (*limit_fields(), *rule_names())
    asked = Asked(
        name=typed.get("name", ""),
        first_day=_day(typed.get("first_day", "")),
        last_day=_day(typed.get("last_day", "")),
        typed={name: typed[name] for name in names if typed.get(name, "").strip()},
        note=typed.get("note", ""),
    )
    return asked, typed


def _day(text: str) -> date | None:
    try:
        return parse_date(text.strip())
    except ValueError:
        return None


def typed_like(replay: Replay) -> dict[str, str]:
    """An earlier replay as it would be typed again."""
    told = {name: _as_typed(name, text) for name, text in replay.changes.items()}
    return {
        **told,
        "first_day": replay.first_day.isoformat(),
        "last_day": replay.last_day.isoformat(),
        "note": replay.note,
    }


def _as_typed(name: str, text: str) -> str:
    """A kept value as a person would type it; the usual one where it goes back to that."""
    if is_rule(name):
        return text
    one = limit_fields()[name]
    value = from_text(one, text) if text else one.default
    return f"{value.mm_text} mm" if one.kind == "length" else f"{value}"
