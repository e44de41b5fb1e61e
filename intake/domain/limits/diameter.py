"""Limits of the shaft's diameter. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm


@dataclass(frozen=True)
class DiameterLimits:
    """Limits of the shaft's diameter."""

    # Diameter.
    wear: Length = inches("0.002")
    u_wear: Length = inches("0.003")
    diameter_sure: float = 0.95
    diameter_residual_u: float = 3.0
    rival_u: float = 2.0
    rival_share: float = 0.02
    odd_sixteenths: tuple[Length, ...] = (
        inches("15/16"),
        inches("1 1/16"),
        inches("1 3/16"),
        inches("1 5/16"),
    )
    snap_u: float = 3.0
    snap_least: Length = mm("0.198437")  # half of 1/64 in: what no tape can tell
