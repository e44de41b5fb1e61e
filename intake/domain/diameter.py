"""Which nominal size was that: a posterior over the sizes of both systems."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from functools import lru_cache

from catalog.domain.lengths import Length
from intake.domain.diameter_evidence import NO_EVIDENCE, Evidence, agreeing, weights
from intake.domain.limits import Limits
from intake.domain.sizes import (
    COMMON,
    INCH_SIZES,
    METRIC_SIZES,
    SIZES,
    Size,
    nearest_size,
    steps_apart,
)

__all__ = [
    "INCH_SIZES",
    "METRIC_SIZES",
    "Diameter",
    "Size",
    "judge_diameter",
    "nearest_size",
    "steps_apart",
]

# A size further off than this many standard deviations is no candidate: exp(-32) of a share.
_FAR = 8.0
_PLACES = [size.diameter.nm for size in SIZES]


@dataclass(frozen=True, slots=True)
class Diameter:
    """The best size for a reading, how probable it is, and the nearest size of the other system.

    ``residual_nm`` is the reading less the best size (wear allowed for); ``spread_nm`` the
    standard deviation it is judged by. ``rival_share`` is the posterior of the likeliest size of
    the other system. ``agreed`` names the other kinds of evidence that speak for the best size and
    not for the rival: thread, mark, taper, keyway.
    """

    best: Size
    probability: float
    residual_nm: float
    spread_nm: float
    rival: Size
    rival_off_nm: float
    rival_share: float
    agreed: tuple[str, ...] = ()


@lru_cache(maxsize=8192)
def judge_diameter(
    reading_nm: int,
    u_nm: float,
    tape_unit: str | None,
    limits: Limits,
    evidence: Evidence = NO_EVIDENCE,
) -> Diameter:
    """The posterior over nominal sizes for one reading with standard uncertainty ``u_nm``.

    Reading ~ N(size - wear, sqrt(u^2 + u_wear^2)); the priors depend on the tape's unit ("in",
    "mm", None where it is not known); ``evidence`` multiplies what the reading says.
    """
    wear = limits.wear.nm
    spread = math.hypot(u_nm, limits.u_wear.nm)
    best, found, other, total = _scores(reading_nm + wear, spread, tape_unit, limits, evidence)
    size = found or nearest_size(Length(reading_nm))
    rival = nearest_size(Length(reading_nm), "mm" if size.system == "inch" else "inch")
    return Diameter(
        best=size,
        probability=best / total,
        residual_nm=reading_nm - size.diameter.nm + wear,
        spread_nm=spread,
        rival=rival,
        rival_off_nm=abs(rival.diameter.nm - reading_nm),
        rival_share=other / total,
        agreed=agreeing(evidence, size, rival, limits),
    )


def _scores(
    centre: float, spread: float, tape_unit: str | None, limits: Limits, evidence: Evidence
) -> tuple[float, Size | None, float, float]:
    """The best score and size, the best score of the other system, and the sum of all.

    The size is None, and the sum 1, where no size could have given the reading.
    """
    first = bisect_left(_PLACES, centre - _FAR * spread)
    last = bisect_right(_PLACES, centre + _FAR * spread)
    priors, told = _priors(tape_unit, limits), weights(evidence, limits)
    best, size, total = 0.0, None, 0.0
    of = {"inch": 0.0, "mm": 0.0}
    for at in range(first, last):
        off = (centre - _PLACES[at]) / spread
        score = priors[at] * told[at] * math.exp(-0.5 * off * off)
        total += score
        here = SIZES[at]
        of[here.system] = max(of[here.system], score)
        if score > best:
            best, size = score, here
    return best, size, min(of.values()), total or 1.0


@lru_cache(maxsize=64)
def _priors(tape_unit: str | None, limits: Limits) -> tuple[float, ...]:
    """How often each size is met, in the order of the sizes, by whoever owns such a tape."""
    rarer = {
        "in": {"mm": limits.metric_rarer},
        "mm": {"inch": limits.inch_rarer},
    }.get(tape_unit or "", {})
    return tuple(COMMON[size] / rarer.get(size.system, 1.0) for size in SIZES)
