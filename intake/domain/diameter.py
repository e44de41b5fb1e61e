"""Which nominal size was that: a posterior over the sizes of both systems."""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm
from intake.domain.limits import Limits

# How often the desk meets each size (common practice, no source).
_INCH = {
    "3/4": 6,
    "7/8": 10,
    "1": 30,
    "1 1/8": 26,
    "1 1/4": 12,
    "1 3/8": 6,
    "1 1/2": 5,
    "1 3/4": 3,
    "2": 2,
}
_METRIC = {
    "20": 4,
    "22": 4,
    "25": 30,
    "28": 6,
    "30": 26,
    "32": 6,
    "35": 12,
    "38": 2,
    "40": 10,
    "45": 5,
    "50": 3,
}
# A tape's own system makes the other system's sizes rarer by this much.
_METRIC_RARER, _INCH_RARER = 30.0, 3.2


@dataclass(frozen=True, slots=True)
class Size:
    """A nominal shaft size."""

    system: str
    diameter: Length

    @property
    def name(self) -> str:
        """As the trade says it: ``1 1/8 in``, ``30 mm``."""
        if self.system == "inch":
            return f"{self.diameter.inch_text} in"
        return f"{self.diameter.mm_text.rstrip('0').rstrip('.')} mm"


INCH_SIZES: tuple[Size, ...] = tuple(Size("inch", inches(name)) for name in _INCH)
METRIC_SIZES: tuple[Size, ...] = tuple(Size("mm", mm(name)) for name in _METRIC)


def _in_order(sizes: tuple[Size, ...]) -> tuple[tuple[Size, ...], list[int]]:
    ordered = tuple(sorted(sizes, key=lambda size: size.diameter.nm))
    return ordered, [size.diameter.nm for size in ordered]


_IN_ORDER: dict[str | None, tuple[tuple[Size, ...], list[int]]] = {
    "inch": _in_order(INCH_SIZES),
    "mm": _in_order(METRIC_SIZES),
    None: _in_order(INCH_SIZES + METRIC_SIZES),
}


def _priors(inch_share: float, metric_share: float) -> tuple[tuple[Size, int, float], ...]:
    rows = [
        (s, s.diameter.nm, p * inch_share) for s, p in zip(INCH_SIZES, _INCH.values(), strict=True)
    ]
    rows += [
        (s, s.diameter.nm, p * metric_share)
        for s, p in zip(METRIC_SIZES, _METRIC.values(), strict=True)
    ]
    return tuple(rows)


_PRIORS = {
    "in": _priors(1.0, 1 / _METRIC_RARER),
    "mm": _priors(1 / _INCH_RARER, 1.0),
    None: _priors(1.0, 1.0),
}


@dataclass(frozen=True, slots=True)
class Diameter:
    """The best size for a reading, how probable it is, and the nearest size of the other system.

    ``residual_nm`` is the reading less the best size (wear allowed for); ``spread_nm`` the
    standard deviation it is judged by. ``rival_share`` is the rival's posterior.
    """

    best: Size
    probability: float
    residual_nm: float
    spread_nm: float
    rival: Size | None
    rival_off_nm: float
    rival_share: float


def judge_diameter(reading_nm: int, u_nm: float, tape_unit: str | None, limits: Limits) -> Diameter:
    """The posterior over nominal sizes for one reading with standard uncertainty ``u_nm``.

    Reading ~ N(size - wear, sqrt(u^2 + u_wear^2)); the priors depend on the tape's unit.
    """
    wear = limits.wear.nm
    spread = math.hypot(u_nm, limits.u_wear.nm)
    scored = []
    total = 0.0
    for size, nominal, prior in _PRIORS[tape_unit]:
        off = (reading_nm - nominal + wear) / spread
        score = prior * math.exp(-0.5 * off * off) if -30.0 < off < 30.0 else 0.0
        total += score
        scored.append((score, size))
    if total == 0.0:
        best = nearest_size(Length(reading_nm))
        best_score, total = 0.0, 1.0
    else:
        best_score, best = max(scored, key=lambda pair: pair[0])
    rival = nearest_size(Length(reading_nm), "mm" if best.system == "inch" else "inch")
    rival_score = next(score for score, size in scored if size is rival)
    return Diameter(
        best=best,
        probability=best_score / total,
        residual_nm=reading_nm - best.diameter.nm + wear,
        spread_nm=spread,
        rival=rival,
        rival_off_nm=abs(rival.diameter.nm - reading_nm),
        rival_share=rival_score / total,
    )


def nearest_size(length: Length, system: str | None = None) -> Size:
    """The stocked size nearest to a length, of one system or of either."""
    sizes, places = _IN_ORDER[system]
    after = bisect_left(places, length.nm)
    if after == 0 or after == len(sizes):
        return sizes[min(after, len(sizes) - 1)]
    nearer_before = length.nm - places[after - 1] <= places[after] - length.nm
    return sizes[after - nearer_before]


def steps_apart(one: Size, other: Size) -> int | None:
    """How many stock steps lie between two sizes of one system; None across systems."""
    if one.system != other.system:
        return None
    sizes = INCH_SIZES if one.system == "inch" else METRIC_SIZES
    return abs(sizes.index(one) - sizes.index(other))
