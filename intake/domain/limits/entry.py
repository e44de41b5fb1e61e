"""Limits of the entry: units and the hygiene of numbers. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches


@dataclass(frozen=True)
class EntryLimits:
    """Limits of the entry: units and the hygiene of numbers."""

    # Units.
    factor_25: float = 25.4
    factor_25_band: float = 0.04
    factors_cm: tuple[float, ...] = (2.54, 1 / 2.54, 10.0, 0.1)
    factors_cm_band: float = 0.03
    feet_inches: Length = inches("1/4")
    foot: Length = inches(12)
