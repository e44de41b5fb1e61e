"""Limits of what lies along the shaft, and of the cut. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches


@dataclass(frozen=True)
class PiecesLimits:
    """Limits of the pieces along the shaft, and of what rounding may cost."""

    # Hubs that go on a standard taper: from this share of its length to this much more
    # (SAE J755 geometry; 2 to 3-3/8 in on a 1 in shaft).
    implied_hub_share: float = 0.72
    implied_hub_past_taper: Length = inches("5/8")

    # Pieces against the whole.
    pieces_near: Length = inches("1/4")
    pieces_u: float = 3.0
    u_pieces: Length = inches("0.15")

    # A bearing that stands out of the strut by less shifts nothing.
    rubber_least: Length = inches("1/16")

    # The bright band of the strut bearing on the old shaft.
    u_polished_band: Length = inches("0.10")
    polished_near: Length = inches("1/4")
    polished_u: float = 3.0

    # The uncertainty that still lands 97 in 100 gaps at dead centre, as a share of half the band:
    # 0.115 in of 1/4 in (JCGM 106; arithmetic).
    u_share_of_half_band: float = 0.46

    # What rounding may take from the fit probability.
    rounding_cost: float = 0.02

    # What a shaft cut short costs against one cut long (invented), and the least shift that counts.
    cost_short: float = 470.0
    cost_long: float = 180.0
    long_shift: Length = inches("1/32")
