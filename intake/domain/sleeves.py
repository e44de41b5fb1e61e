"""Shells that published sleeve bearings have, bore by bore."""

from __future__ import annotations

from functools import cache

from catalog.domain.lengths import Length, inches
from catalog.domain.standards import table

_TABLE = "sleeve_bearings_inch"


@cache
def published_shells() -> dict[Length, frozenset[Length]]:
    """Bore -> outside diameters, from the published and remembered rows of the table."""
    shells: dict[Length, set[Length]] = {}
    for row in table(_TABLE):
        if row.quantity == "shell_od":
            bore = _size(row.subject.removesuffix(" in shaft"))
            words = row.value.partition("(")[0].split(";")
            shells.setdefault(bore, set()).update(_size(word) for word in words)
    return {bore: frozenset(outsides) for bore, outsides in shells.items()}


def _size(text: str) -> Length:
    return inches(text.strip().replace("-", " "))
