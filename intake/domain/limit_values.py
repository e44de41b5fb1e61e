"""Limits as values of data: what each may be, how it is written, how it is read from a person.

A set is kept as the fields that differ from the code's defaults, each as exact text: a length in
millimetres with six places, a number as Python writes it. Reading a stored set back gives the very
values that were adopted. Rules that are no numbers are kept beside them (`limit_rules`).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import lru_cache
from itertools import pairwise
from typing import Any, get_type_hints

from catalog.domain.lengths import NM_PER_INCH, Length, mm
from catalog.domain.materials import material
from catalog.domain.tape import LengthError, read_length
from intake.domain.limit_rules import (
    is_rule,
    kept_rules,
    needed_in,
    severities_in,
    take_rule,
)
from intake.domain.limit_words import label
from intake.domain.limits import DEFAULT_LIMITS, Limits

LONGEST_NAME = 20
# How far a person may take a limit from its default: a slip of the keyboard is further off.
_MOST_TIMES = 10
_STEPS = ("note", "ask", "stop", "least", "goal", "most")
_KINDS: dict[Any, str] = {Length: "length", float: "number", int: "count", str: "text"}


class LimitErrors(ValueError):
    """What cannot be adopted: one kind sentence for each field."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(", ".join(errors))
        self.errors = dict(errors)


@dataclass(frozen=True, slots=True)
class LimitField:
    """One limit. ``kind`` is length, share (0 to 1), number, count, text, or table (read only)."""

    name: str
    kind: str
    group: str
    about: str
    default: Any

    @property
    def is_editable(self) -> bool:
        """Tables are changed in the code, with their sources."""
        return self.kind != "table"


@lru_cache(maxsize=1)
def limit_fields() -> Mapping[str, LimitField]:
    """Every limit by its name, in the order of the checks."""
    hints = get_type_hints(Limits)
    homes = {
        name: home
        for home in reversed(Limits.__mro__)
        for name in vars(home).get("__annotations__", {})
    }
    found = {
        field.name: _field(field.name, hints[field.name], homes[field.name])
        for field in fields(Limits)
        if field.name not in ("name", "cause_counts", "severities", "needed")
    }
    order = {base.__name__: place for place, base in enumerate(Limits.__bases__)}
    return dict(sorted(found.items(), key=lambda item: order.get(item[1].group, len(order))))


def _field(name: str, kind: Any, home: type) -> LimitField:
    default = getattr(DEFAULT_LIMITS, name)
    word = _KINDS.get(kind, "table")
    if word == "number" and 0.0 <= default <= 1.0:
        word = "share"
    about = (home.__doc__ or "").strip().splitlines()[0].partition(". ")[0].removesuffix(".")
    return LimitField(name, word, home.__name__, about, default)


def limits_from(name: str, values: Mapping[str, str], counts: Mapping[str, int]) -> Limits:
    """The set of limits a stored one stands for. What the code no longer knows has no reader."""
    known = limit_fields()
    read = {
        field: from_text(known[field], text) for field, text in values.items() if field in known
    }
    return Limits(
        name=name,
        cause_counts=dict(counts),
        severities=severities_in(values),
        needed=needed_in(values),
        **read,
    )


def as_text(value: Any) -> str:
    """A value as it is kept."""
    if isinstance(value, Length):
        return value.mm_text
    return value if isinstance(value, str) else repr(value)


def from_text(field: LimitField, text: str) -> Any:
    """A kept value read back."""
    if field.kind == "length":
        return mm(text)
    if field.kind == "count":
        return int(text)
    return text if field.kind == "text" else float(text)


def shown(value: Any) -> str:
    """A limit for people: a length in both systems, to the last place that counts.

    >>> shown(mm("9.525")), shown(mm("0.0508")), shown(0.97), shown(8)
    ('3/8 in · 9.525 mm', '0.002 in · 0.051 mm', '0.97', '8')
    """
    if isinstance(value, Length):
        exact = value.inch_text
        inch = f"{value.in_inches:.4f}".rstrip("0").rstrip(".") if "≈" in exact else exact
        return f"{inch} in · {_places(value.in_mm, 3)} mm"
    return _places(value, 4) if isinstance(value, float) else str(value)


def _places(number: float, places: int) -> str:
    return f"{number:.{places}f}".rstrip("0").rstrip(".") or "0"


def read_values(typed: Mapping[str, str], current: Limits) -> dict[str, str]:
    """What a person typed, as it is kept; on top of what the current set has changed.

    An empty text goes back to the default. Raises LimitErrors with a sentence for each field that
    is not known, not of its kind, out of a sane range or out of order with its neighbours.
    """
    known, values = limit_fields(), changed_values(current)
    errors: dict[str, str] = {}
    for name, text in typed.items():
        if is_rule(name):
            take_rule(name, text.strip(), values, errors)
            continue
        if name not in known:
            errors[name] = f"There is no limit called {name}."
            continue
        try:
            new = _read(known[name], text.strip()) if text.strip() else known[name].default
        except ValueError as error:
            errors[name] = f"{error} {_as_it_is(known[name], current)}"
        else:
            values[name] = as_text(new)
    kept = {
        name: text
        for name, text in values.items()
        if is_rule(name) or text != as_text(known[name].default)
    }
    errors |= {} if errors else _out_of_order(limits_from("", kept, {}), typed)
    if errors:
        raise LimitErrors(errors)
    return kept


def changed_values(limits: Limits) -> dict[str, str]:
    """The fields of a set that differ from the defaults, as they are kept."""
    return kept_rules(limits) | {
        name: as_text(getattr(limits, name))
        for name, field in limit_fields().items()
        if field.is_editable and getattr(limits, name) != field.default
    }


def _as_it_is(field: LimitField, current: Limits) -> str:
    now = getattr(current, field.name)
    return f"Now it is {shown(now)}; the usual value is {shown(field.default)}."


def _read(field: LimitField, text: str) -> Any:
    """One value, or a ValueError with its sentence."""
    if field.kind == "length":
        return _read_length(field, text)
    if field.kind == "text":
        return _read_text(field, text)
    if field.kind == "table":
        raise ValueError("A table is changed in the program, with its source.")
    return _read_number(field, text)


def _read_length(field: LimitField, text: str) -> Length:
    if text.startswith(("-", "−")):
        raise ValueError("A limit cannot be below nothing.")
    try:
        read = read_length(text, None)
    except LengthError as error:
        raise ValueError(error.message) from error
    if not read.unit_written:
        raise ValueError("Please write the unit too, like 3/8 in or 9.5 mm.")
    usual = field.default.nm
    least, most = Length(usual // _MOST_TIMES), Length(usual * _MOST_TIMES or NM_PER_INCH)
    if not least <= read.length <= most:
        raise ValueError(f"Please stay between {shown(least)} and {shown(most)}.")
    return read.length


def _read_text(field: LimitField, text: str) -> str:
    if field.name.startswith("alloy") and material(text) is None:
        raise ValueError("This alloy is not in the table of materials.")
    if len(text) > 40:
        raise ValueError("Please keep it under 40 characters.")
    return text


_NUMBER = re.compile(r"[0-9]{1,9}(?:[.,][0-9]{1,9})?")


def _read_number(field: LimitField, text: str) -> float | int:
    if not _NUMBER.fullmatch(text):
        raise ValueError("Please write a plain number without a unit.")
    number = float(text.replace(",", "."))
    if field.kind == "count" and number != int(number):
        raise ValueError("Please write a whole number.")
    is_share, usual = field.kind == "share", float(field.default)
    least, most = (0.0, 1.0) if is_share else (usual / _MOST_TIMES, usual * _MOST_TIMES)
    if not least <= number <= most:
        raise ValueError(f"Please stay between {_places(least, 4)} and {_places(most, 4)}.")
    return int(number) if field.kind == "count" else number


def _out_of_order(limits: Limits, typed: Mapping[str, str]) -> dict[str, str]:
    """Limits that are steps of one rule keep the order they have by default."""
    wrong: dict[str, str] = {}
    for steps in _steps():
        for lower, upper in pairwise(steps):
            if getattr(limits, lower) > getattr(limits, upper):
                name = upper if upper in typed else lower
                pair = f"{label(lower)} must not be above {label(upper)}"
                wrong[name] = f"These two go together: {pair}."
    return wrong


@lru_cache(maxsize=1)
def _steps() -> tuple[tuple[str, ...], ...]:
    """Fields that grade one thing (note, ask, stop; least, goal, most), lowest default first."""
    groups: dict[tuple[str, str], list[str]] = {}
    for name, field in limit_fields().items():
        parts = name.removesuffix("_metric").split("_")
        if field.kind in ("length", "number", "share", "count") and parts[-1] in _STEPS:
            system = "metric" if name.endswith("_metric") else ""
            groups.setdefault(("_".join(parts[:-1]), system + _KIND_OF[field.kind]), []).append(
                name
            )
    return tuple(
        tuple(sorted(names, key=lambda name: limit_fields()[name].default))
        for names in groups.values()
        if len(names) > 1
    )


_KIND_OF = {"length": "length", "number": "number", "share": "number", "count": "number"}
