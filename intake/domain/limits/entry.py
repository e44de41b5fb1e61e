"""Limits of the entry: units and the hygiene of numbers. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm


@dataclass(frozen=True)
class EntryLimits:
    """Limits of the entry: units and the hygiene of numbers."""

    # Units.
    factor_25_band: float = 0.04
    factors_cm: tuple[float, ...] = (2.54, 1 / 2.54, 10.0, 0.1)
    factors_cm_band: float = 0.03
    feet_inches: Length = inches("1/4")

    # What engines can be: horsepower, turns a minute.
    power_least: float = 5.0
    power_most: float = 1000.0
    speed_least: int = 500
    speed_most: int = 6000

    # The day of measuring, in days before the request came in.
    stale_note: int = 60
    stale_ask: int = 365

    # A decimal that may stand for eighths: apart by this much it matters, and a reading closes the
    # sums within this many doubts.
    decimal_apart: Length = inches("1/16")
    decimal_closes_u: float = 2.0

    # What a tape or rule shows: marks of 1/32 in, half millimetres; a steel rule 1/64 in.
    tape_mark: Length = inches("1/32")
    rule_mark: Length = inches("1/64")
    tape_mark_metric: Length = mm("0.5")
    # A decimal this fine was worked out, unless it is the rounded name of a mark within half of it.
    decimal_fine: Length = inches("0.001")
    decimal_rounding: Length = inches("0.0005")
    # Coarser than a caliper shows.
    caliper_coarse: Length = inches("1/16")

    # Rounded numbers: how often people round before any number is seen (0.15 against 0.85), how
    # many numbers at least must be whole, and from which odds it is asked.
    rounding_prior: float = 0.15 / 0.85
    rounding_readings: int = 3
    rounding_odds: float = 20.0
    rounding_reads_to: Length = inches("1/8")

    # The form's own examples: this many of them on one sheet.
    copied_examples: int = 2
