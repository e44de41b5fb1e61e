"""Costs and targets one by one: what each is called, between what it may lie, how it is typed."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from decimal import Decimal

from quotes.domain.cost_model import USUAL, CostModel
from quotes.domain.money import to_money

MONEY, SHARE, COUNT, RATIO = "money", "share", "count", "ratio"


@dataclass(frozen=True, slots=True)
class CostField:
    """One figure. ``least`` and ``most`` as it is typed: money, per cent, whole, or a number."""

    name: str
    kind: str
    group: str
    words: str
    least: Decimal
    most: Decimal
    unit: str = ""


def _field(
    group: str, name: str, kind: str, words: str, least: str, most: str, unit: str = ""
) -> CostField:
    return CostField(name, kind, group, words, Decimal(least), Decimal(most), unit)


_COST, _AIM, _TOLD = "What it costs", "What we aim at", "When a cause is told of"
_ALL = (
    _field(_COST, "call", MONEY, "One call-back", "0", "1000"),
    _field(_COST, "shaft_too_short", MONEY, "A shaft too short, made again", "0", "100000"),
    _field(_COST, "shaft_too_long", MONEY, "A shaft too long, shortened", "0", "100000"),
    _field(_COST, "wrong_part", MONEY, "A wrong coupling or bearing, swapped", "0", "100000"),
    _field(_AIM, "first_time_right", SHARE, "Fitted first time, at least", "1", "100", "%"),
    _field(_AIM, "coverage", SHARE, "Heard of, at least", "1", "100", "%"),
    _field(_AIM, "precision", SHARE, "Flags that are right, at least", "1", "100", "%"),
    _field(_AIM, "recall", SHARE, "Mistakes a check had held, at least", "1", "100", "%"),
    _field(_AIM, "again", SHARE, "Causes that come back, at most", "0", "100", "%"),
    _field(_AIM, "flags_per_request", RATIO, "Flags for each request, at most", "0.01", "20"),
    _field(_AIM, "unknown_cause", SHARE, "Causes not known, at most", "0", "100", "%"),
    _field(_TOLD, "alarm_after", COUNT, "After so many", "2", "100", "times"),
    _field(_TOLD, "alarm_days", COUNT, "Within", "7", "366", "days"),
)
FIELDS: Mapping[str, CostField] = {field.name: field for field in _ALL}


class CostErrors(ValueError):
    """What cannot be adopted: one kind sentence for each box."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(", ".join(errors))
        self.errors = dict(errors)


def as_text(value: Decimal | int) -> str:
    """A value as it is kept: exact."""
    return str(value)


def model_from(*sets: Mapping[str, str]) -> CostModel:
    """The usual figures and, over them, what each set changed, in their order."""
    known = {field.name for field in fields(CostModel)}
    changed: dict[str, Decimal | int] = {}
    for values in sets:
        for name, text in values.items():
            if name in known:
                changed[name] = int(text) if FIELDS[name].kind == COUNT else Decimal(text)
    return replace(USUAL, **changed)  # type: ignore[arg-type]


def shown(field: CostField, value: Decimal | int) -> str:
    """A value as people read and type it.

    >>> shown(FIELDS["recall"], Decimal("0.90")), shown(FIELDS["call"], Decimal("12"))
    ('90', '12.00')
    """
    if field.kind == SHARE:
        text = f"{Decimal(value) * 100:f}"
        return text.rstrip("0").rstrip(".") if "." in text else text
    return f"{value:.2f}" if field.kind in (MONEY, RATIO) else str(value)


def read_changes(typed: Mapping[str, str], now: CostModel) -> dict[str, str]:
    """What was typed and differs from what is in force, as it is kept; empty boxes keep it.

    Raises CostErrors with a sentence for each box that cannot be read.
    """
    errors: dict[str, str] = {}
    values: dict[str, str] = {}
    for name, field in FIELDS.items():
        text = typed.get(name, "").strip()
        if not text:
            continue
        try:
            value = _read(field, text)
        except ValueError as error:
            errors[name] = str(error)
            continue
        if value != getattr(now, name):
            values[name] = as_text(value)
    if errors:
        raise CostErrors(errors)
    return values


_NUMBER = re.compile(r"[0-9]{1,9}(?:[.,][0-9]{1,4})?", re.ASCII)


def _read(field: CostField, text: str) -> Decimal | int:
    """One value, or a ValueError with its sentence."""
    if not _NUMBER.fullmatch(text):
        raise ValueError("Please write a plain number, such as 12 or 12.50.")
    number = Decimal(text.replace(",", "."))
    if not field.least <= number <= field.most:
        raise ValueError(f"Please stay between {field.least} and {field.most}.")
    if field.kind == COUNT:
        if number != int(number):
            raise ValueError("Please write a whole number.")
        return int(number)
    if field.kind == MONEY:
        return to_money(number)
    return number / 100 if field.kind == SHARE else number
