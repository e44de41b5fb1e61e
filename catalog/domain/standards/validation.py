"""What must hold in every table before a value of it is used: the sieve for misprints."""

from __future__ import annotations

from collections.abc import Sequence

from catalog.domain.standards.values import Confidence, StandardValue


class StandardError(ValueError):
    """A table that does not hold; ``faults`` says which rows and why."""

    def __init__(self, table: str, faults: Sequence[str]) -> None:
        super().__init__(f"{table}: {'; '.join(faults)}")
        self.faults = tuple(faults)


def faults(name: str, values: Sequence[StandardValue]) -> list[str]:
    """Every fault of a table, in row order, as sentences; none when it holds."""
    return [fault for v in values for fault in _row_faults(v)]


def _row_faults(v: StandardValue) -> list[str]:
    where = f"{v.subject} {v.quantity}"
    found = [
        f"{where}: {column} is missing"
        for column in ("subject", "quantity", "unit", "standard", "source")
        if not getattr(v, column)
    ]
    if (v.confidence is Confidence.GAP) != (not v.value):
        found.append(f"{where}: a gap has no value, and only a gap has none")
    return found
