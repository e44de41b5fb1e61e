"""Rows for this room's pages: facts in, words out."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from catalog.domain.standards import TITLES, StandardValue, table
from catalog.domain.stock import StockPart
from catalog.models import KINDS, PER

_SIZES = ("diameter", "flange_od", "bolt_circle", "bore", "shell_od", "length", "stock_length")
_SIZE_WORDS = {
    "diameter": "Ø",
    "flange_od": "flange",
    "bolt_circle": "bolt circle",
    "bore": "bore",
    "shell_od": "shell",
    "length": "long",
    "stock_length": "bar",
}


@cache
def tables() -> tuple[dict[str, Any], ...]:
    """Every published table, in the order of TITLES, with rows ready to print."""
    return tuple(
        {"name": name, "title": title, "rows": tuple(map(_value_row, table(name)))}
        for name, title in TITLES.items()
    )


def _value_row(value: StandardValue) -> dict[str, str]:
    unit = "" if value.unit == "-" else value.unit
    return {
        "subject": value.subject,
        "quantity": value.quantity.replace("_", " "),
        "value": f"{value.value} {unit}".strip() or "–",
        "standard": value.standard,
        "source": value.source,
        "note": value.note,
        "confidence": value.confidence.value,
        "words": value.confidence.words,
    }


def part_row(part: StockPart) -> dict[str, Any]:
    """One line of the catalogue page."""
    return {
        "code": part.code,
        "kind": dict(KINDS)[part.kind.value],
        "description": part.description,
        "sizes": tuple(_sizes(part)),
        "alloy": part.alloy,
        "price": f"{part.price:.4f}".rstrip("0").rstrip(".")
        if _fine(part)
        else f"{part.price:.2f}",
        "per": dict(PER)[part.per],
        "on_hand": part.on_hand,
        "held": part.held,
    }


def _fine(part: StockPart) -> bool:
    """A price that two places would round, as of bar by the millimetre."""
    return part.price != round(part.price, 2)


def _sizes(part: StockPart) -> Iterator[str]:
    for name in _SIZES:
        size = getattr(part, name)
        if size is not None:
            system = "mm" if size.inch_text.startswith("≈") else "in"
            yield f"{_SIZE_WORDS[name]} {size.show(system)}"
