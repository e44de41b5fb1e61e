"""Rows of the published check values beside these tests."""

from __future__ import annotations

import csv
from pathlib import Path

_DATA = Path(__file__).parent / "data"


def rows(name: str) -> list[dict[str, str]]:
    with (_DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def sizing(number: str) -> dict[str, str]:
    """One row of the shaft sizing vectors, by its id (T1, T2, ...)."""
    return next(row for row in rows("shaft_sizing_vectors") if row["id"] == number)
