"""Limits and rules in words, and the rows of what is chosen rather than typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from intake.checks import BY_ID
from intake.domain.limit_rules import (
    LEVELS,
    NEEDED,
    SEVERITY,
    is_rule,
    rule_label,
    rule_names,
    rule_shown,
    usual_rule,
)
from intake.domain.limit_values import from_text, limit_fields, shown
from intake.domain.limit_words import label
from intake.domain.questions import QUESTIONS


@dataclass(frozen=True, slots=True)
class RuleRow:
    """A check's severity, or whether a question must be answered; chosen, not typed."""

    name: str
    now: str
    usual_value: str
    typed: str = ""
    error: str = ""

    @property
    def words(self) -> str:
        """The check or the question, in words."""
        if self.name.startswith(NEEDED):
            return QUESTIONS[self.name.removeprefix(NEEDED)].ask
        return BY_ID[self.name.removeprefix(SEVERITY)].why.partition("\n")[0]

    @property
    def current(self) -> str:
        """What is in force."""
        return rule_shown(self.name, self.now)

    @property
    def usual(self) -> str:
        """What it is by itself."""
        return rule_shown(self.name, self.usual_value)

    @property
    def is_changed(self) -> bool:
        """Whether the desk goes by another one than the usual."""
        return self.now != self.usual_value

    @property
    def options(self) -> list[tuple[str, str]]:
        """What may be chosen."""
        if self.name.startswith(NEEDED):
            return [("yes", "yes"), ("no", "no")]
        return list(LEVELS.items())

    @property
    def id(self) -> str:
        """The id of its box."""
        return rule_id(self.name)


def rule_id(name: str) -> str:
    """The id of a limit's or a rule's box."""
    return f"limit-{name.replace(':', '-')}"


def is_known(name: str) -> bool:
    """Whether the program still has this limit or rule; a stored set may hold older ones."""
    return name in limit_fields() or name in rule_names()


def words_of(name: str) -> str:
    """A limit or a rule in words."""
    return rule_label(name) if is_rule(name) else label(name)


def kept_words(name: str, values: Mapping[str, str]) -> str:
    """A kept value for people; the usual one where a set leaves it alone."""
    if is_rule(name):
        return rule_shown(name, values.get(name) or usual_rule(name))
    one = limit_fields()[name]
    return shown(from_text(one, values[name]) if name in values else one.default)
