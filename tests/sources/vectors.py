"""Rows of the published check values beside these tests."""

from __future__ import annotations

import csv
from pathlib import Path

from catalog.domain.lengths import Length
from intake.domain.fit import Band

HERE = Path(__file__).parent
# Further off than any value or any tail of a distribution: a limit on one side only.
_FAR = Length(10**15)


def rows(name: str) -> list[dict[str, str]]:
    with (HERE / "data" / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def sizing(number: str) -> dict[str, str]:
    """One row of the shaft sizing vectors, by its id (T1, T2, ...)."""
    return next(row for row in rows("shaft_sizing_vectors") if row["id"] == number)


def metrology(number: str) -> dict[str, str]:
    """One row of the metrology vectors, by its id (M1 to M27)."""
    return next(row for row in rows("metrology_vectors") if row["id"] == number)


def limits_of(least: int | None = None, most: int | None = None) -> Band:
    """Tolerance limits as a band of ours, in whole nanometres; None: no limit on that side."""
    low = -_FAR if least is None else Length(least)
    return Band(low, Length(0), _FAR if most is None else Length(most))
