"""A period judged again: what would have been asked, caught and missed under other limits. Pure.

Two judgements of one sheet are compared, made from the same facts: by the limits in force, and by
the changed ones. What differs between these two is the change's doing, and nothing else is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from decimal import Decimal
from typing import Any

from intake.domain.shares import Share
from intake.domain.verdict import Severity, Verdict
from quotes.domain.cost_model import CostModel
from quotes.domain.money import to_money

# Causes that lie in the catalogue, the shop, on the way or at fitting: the sheet was right.
NOT_OF_THE_SHEET = frozenset("CSTF")

Holding = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Judged:
    """What a judgement comes to: its verdict, and what holds it (check, severity), sorted."""

    verdict: str
    holding: Holding

    @property
    def is_held(self) -> bool:
        """Whether somebody would be called."""
        return self.verdict != "release"


def judged(verdict: Verdict) -> Judged:
    """A verdict, reduced to what is compared. Notes hold nothing."""
    held = {(f.check, f.severity.value) for f in verdict.findings if f.severity != Severity.NOTE}
    return Judged(verdict.verdict.value, tuple(sorted(held)))


@dataclass(frozen=True, slots=True)
class Compared:
    """One sheet, judged by the limits in force and by the changed ones.

    ``drifted``: what is in force judges it otherwise today than was stored. ``wrong``: it is known
    that its numbers were wrong, and ``cost`` what that costs where it is let through.
    """

    before: Judged
    after: Judged
    drifted: bool = False
    wrong: bool = False
    cost: Decimal = Decimal(0)

    @property
    def differs(self) -> bool:
        """Whether the change does anything to this sheet."""
        return self.before != self.after


def cost_if_let_through(booked: Decimal, parts: str, costs: CostModel) -> Decimal:
    """What a wrong sheet costs that nobody holds: what was booked, else the model's figure.

    ``parts``: first letters of what was wanted, "s" a shaft. A shaft is taken to be made again:
    which way it would have been wrong is not known of one that was caught.
    """
    if booked:
        return booked
    return costs.shaft_too_short if "s" in parts else costs.wrong_part


def is_of_the_sheet(cause: str) -> bool:
    """Whether a mistake of this cause means that the sheet was wrong.

    >>> is_of_the_sheet("R-BURN-X"), is_of_the_sheet("S-CUT")
    (True, False)
    """
    return cause[:1] not in NOT_OF_THE_SHEET


@dataclass(slots=True)
class Tally:
    """Counts of a replay; two parts of one add up. Costs are whole cents.

    ``unread``: sheets that cannot be read any more. ``drifted``: judged otherwise today by what is
    in force (the catalogue or the program has changed). ``moved``: the same verdict, held by other
    checks. ``let_through``: what known wrong sheets cost that nobody holds. ``facts_kept``: sheets
    with which was kept what was known beside them.
    """

    sheets: int = 0
    unread: int = 0
    facts_kept: int = 0
    drifted: int = 0
    changed: int = 0
    moved: int = 0
    calls_before: int = 0
    calls_after: int = 0
    stops_before: int = 0
    stops_after: int = 0
    wrong: int = 0
    caught_before: int = 0
    caught_after: int = 0
    let_through_before: int = 0
    let_through_after: int = 0
    checks_before: dict[str, int] = field(default_factory=dict)
    checks_after: dict[str, int] = field(default_factory=dict)

    def add(self, one: Compared) -> None:
        """Count one sheet."""
        before, after = one.before, one.after
        self.sheets += 1
        self.drifted += one.drifted
        self.changed += before.verdict != after.verdict
        self.moved += before.verdict == after.verdict and one.differs
        self.calls_before += before.is_held
        self.calls_after += after.is_held
        self.stops_before += before.verdict == "stop"
        self.stops_after += after.verdict == "stop"
        _count(self.checks_before, before)
        _count(self.checks_after, after)
        if one.wrong:
            self._add_wrong(one)

    def _add_wrong(self, one: Compared) -> None:
        cents = int(one.cost * 100)
        self.wrong += 1
        self.caught_before += one.before.is_held
        self.caught_after += one.after.is_held
        self.let_through_before += 0 if one.before.is_held else cents
        self.let_through_after += 0 if one.after.is_held else cents

    def plus(self, other: Tally) -> Tally:
        """Both together."""
        return Tally(**{
            one.name: _sum(getattr(self, one.name), getattr(other, one.name))
            for one in fields(Tally)
        })  # fmt: skip

    def as_json(self) -> dict[str, Any]:
        """As it is stored."""
        return {one.name: getattr(self, one.name) for one in fields(Tally)}

    @property
    def false_before(self) -> int:
        """Sheets held of which nothing wrong is known."""
        return self.calls_before - self.caught_before

    @property
    def false_after(self) -> int:
        """The same under the changed limits."""
        return self.calls_after - self.caught_after

    @property
    def missed_before(self) -> int:
        """Known wrong sheets that nobody would hold."""
        return self.wrong - self.caught_before

    @property
    def missed_after(self) -> int:
        """The same under the changed limits."""
        return self.wrong - self.caught_after

    @property
    def is_few(self) -> bool:
        """Too few known wrong sheets for a share."""
        return self.caught_share_before.is_small

    @property
    def caught_share_before(self) -> Share:
        """Of the known wrong sheets, those that are held."""
        return Share(self.caught_before, self.wrong)

    @property
    def caught_share_after(self) -> Share:
        """The same under the changed limits."""
        return Share(self.caught_after, self.wrong)


def tally_of(kept: Mapping[str, Any]) -> Tally:
    """Counts as they were stored."""
    known = {one.name for one in fields(Tally)}
    return Tally(**{name: value for name, value in kept.items() if name in known})


def _sum(one: Any, other: Any) -> Any:
    if isinstance(one, int):
        return one + other
    return {key: one.get(key, 0) + other.get(key, 0) for key in sorted({*one, *other})}


def _count(checks: dict[str, int], one: Judged) -> None:
    for check in {check for check, _severity in one.holding}:
        checks[check] = checks.get(check, 0) + 1


# --- Money ------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Money:
    """What the change costs in calls and saves in wrong parts; below nothing: it costs less."""

    calls_before: Decimal
    calls_after: Decimal
    wrong_before: Decimal
    wrong_after: Decimal

    @property
    def before(self) -> Decimal:
        """Calls and wrong parts together."""
        return self.calls_before + self.wrong_before

    @property
    def after(self) -> Decimal:
        """The same under the changed limits."""
        return self.calls_after + self.wrong_after

    @property
    def difference(self) -> Decimal:
        """What the change comes to."""
        return self.after - self.before


def money_of(tally: Tally, call: Decimal) -> Money:
    """Counts as money; ``call`` is what one call-back costs. A held sheet counts as one call."""
    return Money(
        to_money(tally.calls_before * call),
        to_money(tally.calls_after * call),
        Decimal(tally.let_through_before) / 100,
        Decimal(tally.let_through_after) / 100,
    )
