"""Between what the gap will lie, nineteen times in twenty: slips included."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from catalog.domain.lengths import NM_PER_MM, Length, mm
from intake.domain.explain import Explanation

NINETEEN_IN_TWENTY = 0.95
_TOO_RARE = 0.0001  # rarer than this moves no figure that is printed
_STARTS = 11  # how many ranges of the same chance are compared, from the left tail to the right
_NEAR_MM = 0.02
_SQRT2 = math.sqrt(2.0)


class Chance(NamedTuple):
    """One way in which the gap may come out: how likely, and where, in millimetres."""

    probability: float
    mean_mm: float
    sd_mm: float


def as_record(explained: Sequence[Explanation]) -> list[list[float]]:
    """What is kept of the explanations beside the drawing: chance, mean and spread in mm."""
    return [
        [round(one.probability, 6), round(one.mean_nm / NM_PER_MM, 4), one.sd_nm / NM_PER_MM]
        for one in explained
        if one.probability >= _TOO_RARE
    ]


def likely_range(stack: Mapping[str, Any]) -> tuple[Length, Length] | None:
    """The narrowest range that holds 19 of 20 gaps; None where no gap is predicted.

    Records that were made before slips were weighed have the noise alone.
    """
    gap = stack.get("predicted_gap")
    if not gap:
        return None
    chances = [Chance(*row) for row in stack.get("explained") or ()]
    if not chances:
        u = float(stack.get("u_mm") or 0)
        chances = [Chance(1.0, 0.0, u)] if u > 0 else []
    if not chances:
        return mm(gap), mm(gap)
    low, high = _narrowest(chances)
    return _moved(gap, low), _moved(gap, high)


def _moved(gap: str, by_mm: float) -> Length:
    return mm(gap) + Length(round(by_mm * NM_PER_MM))


def _narrowest(chances: Sequence[Chance]) -> tuple[float, float]:
    left_out = 1.0 - NINETEEN_IN_TWENTY
    tails = [left_out * (step + 0.5) / _STARTS for step in range(_STARTS)]
    outcomes = _Outcomes(chances)
    ranges = [
        (outcomes.quantile(tail), outcomes.quantile(tail + NINETEEN_IN_TWENTY)) for tail in tails
    ]
    return min(ranges, key=lambda ends: ends[1] - ends[0])


class _Outcomes:
    """Everything that may come out. The searches meet on the same places, each weighed once."""

    def __init__(self, chances: Sequence[Chance]) -> None:
        self.low = min(one.mean_mm - 6 * one.sd_mm for one in chances)
        self.high = max(one.mean_mm + 6 * one.sd_mm for one in chances)
        self.total = sum(one.probability for one in chances)
        self.shapes = [(one.probability * 0.5, one.mean_mm, one.sd_mm * _SQRT2) for one in chances]
        self.known: dict[float, float] = {}

    def quantile(self, share: float) -> float:
        """Where that share of the outcomes lies below, in mm from the predicted gap, to 0.02 mm."""
        low, high, known = self.low, self.high, self.known
        while high - low > _NEAR_MM:
            middle = (low + high) / 2
            below = known.get(middle)
            if below is None:
                below = known[middle] = self._below(middle)
            low, high = (middle, high) if below < share else (low, middle)
        return (low + high) / 2

    def _below(self, at_mm: float) -> float:
        erf = math.erf
        below = [half * (1 + erf((at_mm - mean) / wide)) for half, mean, wide in self.shapes]
        return sum(below) / self.total
