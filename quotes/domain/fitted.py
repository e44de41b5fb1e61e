"""What was expected of a shaft, and how far the gap it was fitted with lies from that."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import NM_PER_MM, Length, mm


@dataclass(frozen=True, slots=True)
class Expected:
    """The gap a shaft should leave, and its band. ``u`` is one standard uncertainty (over 0)."""

    gap: Length
    u: Length
    least: Length
    goal: Length
    most: Length
    length: Length
    system: str

    def is_fair(self, gap: Length) -> bool:
        """Whether a gap lies inside the band; its ends belong to it."""
        return self.least <= gap <= self.most


def expected(stack: Mapping[str, Any], made: Length | None = None) -> Expected | None:
    """What the stored stack-up of a sheet predicts; None where it predicts no gap.

    ``made``: coupling face to thread end as it was made. A shaft made longer stands the propeller
    further aft, so the gap grows by as much: g = L - X - hub - nut.
    """
    if not stack.get("predicted_gap") or not stack.get("length"):
        return None
    ordered = mm(stack["length"])
    length = ordered if made is None else made
    return Expected(
        gap=mm(stack["predicted_gap"]) + (length - ordered),
        u=Length(round(Decimal(str(stack.get("u_mm") or 0)) * NM_PER_MM)),
        least=mm(stack["gap_min"]),
        goal=mm(stack["gap_goal"]),
        most=mm(stack["gap_max"]),
        length=length,
        system=str(stack.get("system") or "inch"),
    )
