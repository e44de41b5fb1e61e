"""Limits of the bearing and the strut. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches


@dataclass(frozen=True)
class BearingLimits:
    """Limits of the bearing and the strut."""

    # Bearing.
    wall_least: Length = inches("1/8")
    wall_most: Length = inches("3/8")
    bearing_od_near: Length = inches("0.010")
    bearing_length_near: Length = inches("1/8")
