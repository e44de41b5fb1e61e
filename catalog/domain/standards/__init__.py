"""Published tables as data: every value with its unit, its source and how sure we are of it.

The tables are the CSV files beside this one, one value a row. They are read once, when first
asked for, and refused whole when a row does not hold (see ``validation``).

>>> value("j755_shaft_ends", "1 in", "taper_length_C").length.inch_text
'2 3/4'
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping
from functools import cache
from importlib import resources
from types import MappingProxyType

from catalog.domain.standards.validation import StandardError, faults
from catalog.domain.standards.values import (
    TITLES,
    WORST_FIRST,
    Confidence,
    StandardValue,
    worst,
)

__all__ = [
    "TITLES",
    "WORST_FIRST",
    "Confidence",
    "StandardError",
    "StandardValue",
    "read_table",
    "subjects",
    "table",
    "value",
    "worst",
]


@cache
def table(name: str) -> tuple[StandardValue, ...]:
    """All values of one table, in printed order. Raises KeyError for a table we do not have."""
    if name not in TITLES:
        raise KeyError(name)
    text = resources.files(__package__).joinpath(f"{name}.csv").read_text(encoding="utf-8")
    return read_table(name, text.splitlines())


def read_table(name: str, lines: Iterable[str]) -> tuple[StandardValue, ...]:
    """Read and check the lines of a table; raises StandardError naming every row at fault."""
    values = tuple(StandardValue.from_row(name, row) for row in csv.DictReader(lines))
    if found := faults(name, values):
        raise StandardError(name, found)
    return values


@cache
def _index(name: str) -> Mapping[tuple[str, str], StandardValue]:
    return MappingProxyType({(v.subject, v.quantity): v for v in table(name)})


def value(name: str, subject: str, quantity: str) -> StandardValue:
    """One value; raises KeyError where the table has none."""
    return _index(name)[subject, quantity]


def subjects(name: str) -> tuple[str, ...]:
    """The rows' subjects (sizes, alloys, services), in printed order, each once."""
    return tuple(dict.fromkeys(v.subject for v in table(name)))
