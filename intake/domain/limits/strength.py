"""Limits of strength, speed and material. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class StrengthLimits:
    """Limits of strength, speed and material."""

    # Strength: least safety factor by service (Gerr; school note citing ABYC P-6 practice).
    safety_pleasure: float = 3.0
    safety_work: float = 5.0
    safety_passenger: float = 7.5
    safety_stop_share: float = 2 / 3

    # The desk's default alloys.
    alloy_inch: str = "S20910"
    alloy_metric: str = "1.4462"
