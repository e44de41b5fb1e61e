"""Rates as values of data: how each is written, read from a person, and kept as exact text."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import Decimal
from itertools import pairwise
from typing import Any

from quotes.domain.lines import listed, plain
from quotes.domain.rate_fields import (
    CLASSES,
    COUNT,
    FIELDS,
    MONEY,
    PERCENT,
    TAXES,
    YES_NO,
    RateField,
    value_of,
)
from quotes.domain.rates import FreightClasses, Rates
from quotes.domain.tax import KINDS, TaxRule, percent, plain_place

_HUNDRED = Decimal(100)
_OVER = "over"
_YES_NO = {True: "yes", False: "no"}
_MOST_LINES = 200


class RateErrors(ValueError):
    """What cannot be taken: one sentence for each box."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(", ".join(errors))
        self.errors = dict(errors)


class _Fault(ValueError):
    pass


def rates_from(base: Rates, sets: Iterable[tuple[int, Mapping[str, str]]]) -> Rates:
    """The rates that a row of dated sets comes to, each changing what it names, the last wins."""
    changes: dict[str, Any] = {}
    lead, numbers = dict(base.lead_days), list(base.numbers)
    for number, values in sets:
        numbers.append(number)
        for name in (name for name in values if name in FIELDS):
            value = from_text(FIELDS[name], values[name])
            whole, _, inner = name.partition(".")
            if inner:
                lead[inner] = value
            else:
                changes[whole] = value
    return replace(base, **changes, lead_days=lead, numbers=tuple(numbers))


def read_changes(typed: Mapping[str, str], now: Rates, seen: Rates | None = None) -> dict[str, str]:
    """What a person typed, as it is kept: only what differs from ``now``. "" leaves it alone, and
    so does a table that is still the one that stood in its box, which is that of ``seen``.

    Raises RateErrors, a sentence for each box that cannot be taken.
    """
    errors: dict[str, str] = {}
    values: dict[str, str] = {}
    for name, text in typed.items():
        field = FIELDS.get(name)
        if field is None or not (text.strip() or field.kind == TAXES):
            continue
        try:
            value = _read(field, text.strip())
        except _Fault as fault:
            errors[name] = str(fault)
            continue
        untouched = field.is_long and value == value_of(seen or now, name)
        if value != value_of(now, name) and not untouched:
            values[name] = as_text(field, value)
    if errors:
        raise RateErrors(errors)
    return values


# --- As it is kept and shown ------------------------------------------------------------


def as_text(field: RateField, value: Any) -> str:
    """A value as it is kept: a fraction stays a fraction, tables are lines."""
    if field.kind == CLASSES:
        return "\n".join(
            f"{_OVER if top is None else plain(top)}: {listed(price)}" for top, price in value
        )
    if field.kind == TAXES:
        return "\n".join(_rule_text(rule) for rule in value)
    return _YES_NO[bool(value)] if field.kind == YES_NO else str(value)


def from_text(field: RateField, text: str) -> Any:
    """A kept value read back."""
    if field.kind == CLASSES:
        return _classes(text)
    if field.kind == TAXES:
        return _rules(text)
    if field.kind == YES_NO:
        return text == _YES_NO[True]
    return int(text) if field.kind == COUNT else Decimal(text)


def shown(field: RateField, value: Any) -> str:
    """A value for people: ``25 %``, ``120.00``, ``0.25 in``; a table in lines, as it is typed."""
    if field.is_long:
        return as_text(field, value) or "none"
    if field.kind == YES_NO:
        return _YES_NO[bool(value)]
    if field.kind == PERCENT:
        return f"{percent(value)} %"
    number = listed(value) if field.kind == MONEY else plain(Decimal(value))
    return f"{number} {field.unit}".strip()


def _rule_text(rule: TaxRule) -> str:
    said = (rule.country, rule.postcode, rule.kind, f"{percent(rule.rate)} %", rule.note)
    return "; ".join(said).rstrip("; ")


# --- As it is typed ---------------------------------------------------------------------


def _read(field: RateField, text: str) -> Any:
    if field.kind == CLASSES:
        return _classes(text)
    if field.kind == TAXES:
        return _rules(text)
    if field.kind == YES_NO:
        return _yes_no(text)
    number = _number(text.removesuffix("%" if field.kind == PERCENT else field.unit))
    if not field.least <= number <= field.most:
        least, most = plain(field.least), plain(field.most)
        raise _Fault(f"Please stay between {least} and {most}{f' {field.unit}'.rstrip()}.")
    if field.kind == COUNT:
        if number != int(number):
            raise _Fault("Please write a whole number.")
        return int(number)
    return number / _HUNDRED if field.kind == PERCENT else number


def _yes_no(text: str) -> bool:
    if text.casefold() not in _YES_NO.values():
        raise _Fault("Please write yes or no.")
    return text.casefold() == _YES_NO[True]


_NUMBER = re.compile(r"[0-9]{1,7}(?:[.,][0-9]{1,4})?", re.ASCII)


def _number(text: str) -> Decimal:
    if not _NUMBER.fullmatch(text.strip()):
        raise _Fault("Please write a plain number, such as 12.5.")
    return Decimal(text.strip().replace(",", "."))


def _lines(text: str) -> list[tuple[int, str]]:
    rows = [(number, line.strip()) for number, line in enumerate(text.splitlines(), start=1)]
    rows = [(number, line) for number, line in rows if line]
    if len(rows) > _MOST_LINES:
        raise _Fault(f"Please keep it under {_MOST_LINES} lines.")
    return rows


def _classes(text: str) -> FreightClasses:
    """Lines such as ``48: 22.00``, rising, the last one ``over: 190.00``."""
    rows = [_class(number, line) for number, line in _lines(text)]
    if not rows or rows[-1][0] is not None or any(top is None for top, _price in rows[:-1]):
        raise _Fault('The last line, and only that, must say "over", such as "over: 190".')
    tops = [top for top, _price in rows if top is not None]
    if any(one >= other for one, other in pairwise(tops)):
        raise _Fault("Each line must reach further than the one before it.")
    if any(one[1] > other[1] for one, other in pairwise(rows)):
        raise _Fault("No class may cost less than a smaller one.")
    return tuple(rows)


def _class(number: int, line: str) -> tuple[Decimal | None, Decimal]:
    top, colon, price = (part.strip() for part in line.partition(":"))
    if not colon:
        raise _Fault(f'Line {number}: write a size, a colon and a price, such as "48: 22".')
    try:
        return (None if top.casefold() == _OVER else _number(top)), _number(price)
    except _Fault as fault:
        raise _Fault(f"Line {number}: {fault}") from fault


def _rules(text: str) -> tuple[TaxRule, ...]:
    """Lines of country; start of postcode; goods, work or freight; per cent; note."""
    rules = tuple(_rule(number, line) for number, line in _lines(text))
    seen: dict[tuple[str, str, str], int] = {}
    for place, rule in enumerate(rules, start=1):
        for name in rule.country.split("/"):
            key = plain_place(name), plain_place(rule.postcode), rule.kind
            if key in seen:
                raise _Fault(f"Rules {seen[key]} and {place} speak of the same; keep one of them.")
            seen[key] = place
    return rules


def _rule(number: int, line: str) -> TaxRule:
    cells = [cell.strip() for cell in line.split(";", 4)]
    if len(cells) < 4:
        raise _Fault(
            f"Line {number}: write country; start of postcode; goods, work or freight; per cent."
        )
    country, postcode, kind, rate = cells[:4]
    if kind.casefold() not in KINDS:
        raise _Fault(f"Line {number}: the third entry is one of {', '.join(KINDS)}.")
    if postcode and not country:
        raise _Fault(f"Line {number}: a postcode needs its country.")
    note = cells[4] if len(cells) > 4 else ""
    return TaxRule(country[:200], postcode[:20], kind.casefold(), _part(number, rate), note[:200])


def _part(number: int, text: str) -> Decimal:
    try:
        part = _number(text.removesuffix("%"))
    except _Fault as fault:
        raise _Fault(f"Line {number}: {fault}") from fault
    if part > _HUNDRED:
        raise _Fault(f"Line {number}: a tax is 100 per cent at most.")
    return part / _HUNDRED
