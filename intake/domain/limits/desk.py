"""Limits of the desk: bars, parcels, its own records. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm


@dataclass(frozen=True)
class DeskLimits:
    """Limits of the desk: bars, parcels, its own records."""

    # Bar.
    bar_facing_and_saw: Length = inches("1/4")
    bar_longest: Length = inches(144)
    bar_longest_metric: Length = mm(4000)
