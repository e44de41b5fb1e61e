"""A part as its trail tells it: the catalogue's columns by name, as text."""

from __future__ import annotations

from dataclasses import fields
from decimal import Decimal

from catalog.domain.lengths import Length
from catalog.domain.stock import StockPart

_NEW = ("description", "price", "per")  # what is told of a part that came with a table


def told(part: StockPart) -> dict[str, str]:
    """Every column that says something; sizes exact, with their unit."""
    names = [one.name for one in fields(part) if one.compare]
    every = {name.replace("_", " "): _text(getattr(part, name)) for name in names}
    return {name: text for name, text in every.items() if text}


def told_of_new(part: StockPart) -> dict[str, str]:
    """Enough to know it by: a table of ten thousand new parts is told in as many short lines."""
    return {name: _text(getattr(part, name)) for name in _NEW}


def _text(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, Length):
        exact = f"{value.mm_text.rstrip('0').rstrip('.')} mm"
        return exact if value.inch_text.startswith("≈") else value.show("in")
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    return str(value)
