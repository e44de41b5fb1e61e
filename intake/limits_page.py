"""The manager's page of limits as data: each limit in words, what was changed, what was learned."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from intake.cause_words import Words, cause_words
from intake.check_book import value_words
from intake.domain.limit_rules import NEEDED, SEVERITY, rule_names, rule_now, usual_rule
from intake.domain.limit_values import LimitField, limit_fields, limits_from
from intake.domain.limit_words import group_title, label
from intake.domain.limits import Limits
from intake.domain.slips import OK, learned, weights
from intake.limit_rows import RuleRow, kept_words, rule_id, words_of
from intake.models import LimitSet


@dataclass(frozen=True, slots=True)
class LimitRow:
    """One limit: its words, the usual value, the one in force, and what was typed for it."""

    field: LimitField
    current: str
    usual: str
    typed: str = ""
    error: str = ""

    @property
    def words(self) -> str:
        """What it is, for people."""
        return label(self.field.name)

    @property
    def is_changed(self) -> bool:
        """Whether the desk goes by another value than the usual one."""
        return self.current != self.usual

    @property
    def id(self) -> str:
        """The id of its box."""
        return f"limit-{self.field.name}"


@dataclass(frozen=True, slots=True)
class CauseRow:
    """One cause: how often it was guessed to happen, how often it did, what that comes to."""

    words: Words
    prior: str
    count: int
    learned: str


@dataclass(frozen=True, slots=True)
class Changed:
    """One limit that a set changed, in words; empty where there was none before."""

    words: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Adopted:
    """One set in the history, with what it changed against the one before it."""

    row: LimitSet
    changes: list[Changed]
    sheets: int  # learned from, where this set took causes over; else 0

    @property
    def who(self) -> str:
        """Who adopted it."""
        return str(self.row.adopted_by)


@dataclass(frozen=True)
class LimitsPage:
    """Everything the page shows. ``sets`` newest first; ``counts`` what the desk has recorded."""

    limits: Limits
    sets: list[LimitSet]
    counts: Mapping[str, int]
    typed: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def groups(self) -> list[tuple[str, list[LimitRow]]]:
        """The limits under their headings, in the order of the checks."""
        groups: dict[str, list[LimitRow]] = {}
        for one in limit_fields().values():
            groups.setdefault(one.about, []).append(self._row(one))
        return [(group_title(about), rows) for about, rows in groups.items()]

    def _row(self, one: LimitField) -> LimitRow:
        return LimitRow(
            one,
            value_words(getattr(self.limits, one.name)),
            value_words(one.default),
            self.typed.get(one.name, ""),
            self.errors.get(one.name, ""),
        )

    @cached_property
    def severities(self) -> list[RuleRow]:
        """How severe each check is, in the order of the checks."""
        return [self._rule(name) for name in rule_names() if name.startswith(SEVERITY)]

    @cached_property
    def musts(self) -> list[RuleRow]:
        """Which questions must be answered, in the order in which they are asked."""
        return [self._rule(name) for name in rule_names() if name.startswith(NEEDED)]

    def _rule(self, name: str) -> RuleRow:
        return RuleRow(
            name,
            rule_now(name, self.limits),
            usual_rule(name),
            self.typed.get(name, ""),
            self.errors.get(name, ""),
        )

    @property
    def wrong(self) -> list[tuple[str, str, str]]:
        """Each error: the id of its box, its words, the sentence."""
        own = {"name": "Name", "reason": "Why", "values": " "}
        return [
            (rule_id(name) if name != "values" else "", own.get(name) or words_of(name), said)
            for name, said in self.errors.items()
        ]

    @property
    def changed_count(self) -> int:
        """How many limits differ from the usual ones."""
        limits = sum(row.is_changed for _title, rows in self.groups for row in rows)
        return limits + sum(row.is_changed for row in (*self.severities, *self.musts))

    @cached_property
    def causes(self) -> list[CauseRow]:
        """Each cause with its share before and after learning, the most frequent first."""
        before = weights(limits_from("", self._values, {}))
        after, whole = learned(before, self.counts), sum(before.values())
        ranked = sorted(before, key=lambda cause: -after[cause])
        return [
            CauseRow(
                _("nothing wrong") if cause == OK else cause_words(cause),
                _tenths(before[cause] / whole),
                self.counts.get(cause, 0),
                _tenths(after[cause] / whole),
            )
            for cause in ranked
        ]

    @property
    def _values(self) -> Mapping[str, str]:
        return self.sets[0].values if self.sets else {}

    @property
    def recorded(self) -> str:
        """What the desk has recorded among the sheets counted, in words."""
        found = sum(count for cause, count in self.counts.items() if cause != OK)
        causes = ngettext("%(n)d cause", "%(n)d causes", found) % {"n": found}
        sheets = ngettext("%(n)d sheet", "%(n)d sheets", self.sheets) % {"n": self.sheets}
        return _("%(causes)s in %(sheets)s") % {"causes": causes, "sheets": sheets}

    @property
    def sheets(self) -> int:
        """Decided sheets with both ways to the length."""
        return sum(self.counts.values())

    @property
    def learned_sheets(self) -> int:
        """Sheets that the limits in force have learned from."""
        return sum(self.limits.cause_counts.values())

    @property
    def can_learn(self) -> bool:
        """Whether there is something the limits in force do not know."""
        return bool(self.counts) and dict(self.counts) != dict(self.limits.cause_counts)

    @property
    def history(self) -> list[Adopted]:
        """Every set with what it changed, newest first."""
        older: list[LimitSet | None] = [*self.sets, None][1:]
        return [_adopted(row, before) for row, before in zip(self.sets, older, strict=True)]


def _adopted(row: LimitSet, before: LimitSet | None) -> Adopted:
    old = before.values if before else {}
    every = (*limit_fields(), *rule_names())
    names = [name for name in every if row.values.get(name) != old.get(name)]
    learned_now = row.cause_counts != (before.cause_counts if before else {})
    sheets = sum(row.cause_counts.values()) if learned_now else 0
    return Adopted(row, [_change(name, old, row.values) for name in names], sheets)


def _change(name: str, old: Mapping[str, str], new: Mapping[str, str]) -> Changed:
    return Changed(words_of(name), kept_words(name, old), kept_words(name, new))


def _tenths(part: float) -> str:
    """A small share for people, in tenths of a per cent: "1.4 %"."""
    return f"{part * 100:.1f} %"
