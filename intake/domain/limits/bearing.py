"""Limits of the bearing and the strut. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches


@dataclass(frozen=True)
class BearingLimits:
    """Limits of the bearing and the strut."""

    # The wall between bore and shell, and how near a listed bearing must be.
    wall_least: Length = inches("1/8")
    wall_most: Length = inches("3/8")
    bearing_od_near: Length = inches("0.010")
    bearing_length_near: Length = inches("1/8")
    # Strut bore less shell: a slip fit or a light press. Beyond what the tools can tell, noted;
    # past the last figure asked.
    shell_press: Length = inches("0.001")
    shell_slip: Length = inches("0.003")
    shell_fit_ask: Length = inches("0.010")
    shell_fit_note_u: float = 2.0
    shell_fit_ask_u: float = 3.0
    # Bearings may stand out of their barrel by this much together, and fill this share of it.
    past_barrel: Length = inches("1/4")
    barrel_share: float = 0.5
    # Length to bore: asked outside; within it the classic four diameters, or a short-strut length.
    bearing_ratio_least: float = 1.5
    bearing_ratio_most: float = 6.0
    bearing_ratio_usual: tuple[float, float] = (3.5, 4.5)
    bearing_lengths_usual: tuple[Length, ...] = (inches(2), inches(3))
    # Shells that corrode where they touch such a strut.
    shells_of_metal: tuple[str, ...] = ("brass", "bronze")
    struts_that_mind: tuple[str, ...] = ("aluminium", "steel")
    # A bearing this old is changed while the shaft is out (200 to 300 hours).
    bearing_old_hours: int = 200
    # Lift at the strut beyond which a bearing is worn out.
    play_worn: Length = inches("1/16")
