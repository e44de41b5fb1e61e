"""Limits of the gap behind the strut. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm


@dataclass(frozen=True)
class GapLimits:
    """Limits of the gap behind the strut."""

    # The gap behind the strut: 1/2 least, 3/4 goal, 1 most, and never more than one diameter
    # (ABYC P-6 overhang, from memory: verify).
    gap_least: Length = inches("1/2")
    gap_goal: Length = inches("3/4")
    gap_most: Length = inches(1)
    gap_goal_metric: Length = mm(19)
    gap_least_metric: Length = mm("12.7")
    gap_most_metric: Length = mm("25.4")
    gap_goal_full_from_metric: Length = mm(25)

    # The gap as it is.
    gap_now_ask: Length = inches("1 1/2")
    gap_now_stop: Length = inches(3)

    # The gap against one shaft size, and against what is doubtful in it.
    gap_doubts: float = 2.0
    soft_mount_room: Length = inches("1/8")
    # Room to either side of what is clamped on the shaft between strut and propeller.
    room_between: Length = inches("1/8")

    # A gap taken to the root of a blade is too wide by this much.
    blade_least: Length = inches("1/4")
    blade_most: Length = inches("3/4")
