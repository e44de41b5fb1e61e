"""Is our uncertainty honest, and is the probability?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from intake.domain.shares import Share
from quotes.domain.insight.measures import Counts, Measure, by_key, total

MILLION = 1_000_000
FIT_EDGES = (0.90, 0.97, 0.985, 0.995)
FIT_WORDS = ("below 90 %", "90 to 97 %", "97 to 98.5 %", "98.5 to 99.5 %", "from 99.5 %")
_STEP, _FIRST, _LAST = 0.5, -4.0, 3.5
EDGES = tuple(_FIRST + _STEP * at for at in range(int((_LAST - _FIRST) / _STEP) + 1))
_BELOW, _ABOVE = "-inf", "inf"
KEYS = (_BELOW, *(f"{edge:.1f}" for edge in EDGES), _ABOVE)


def z_key(z: float) -> str:
    """The bin of a deviation in standard uncertainties: half wide, named by its lower edge.

    >>> z_key(0.2), z_key(-0.2), z_key(-9.0), z_key(4.0)
    ('0.0', '-0.5', '-inf', 'inf')
    """
    if z < _FIRST:
        return _BELOW
    if z >= _LAST + _STEP:
        return _ABOVE
    return f"{math.floor(z / _STEP) * _STEP + 0.0:.1f}"


def fit_key(stated: float) -> str:
    """The bin of a stated fit, "0" to "4"."""
    return str(sum(stated >= edge for edge in FIT_EDGES))


@dataclass(frozen=True, slots=True)
class ZBin:
    """How many fell between two edges, and how many a normal curve lets expect."""

    key: str
    n: int
    expected: float


@dataclass(frozen=True, slots=True)
class Uncertainty:
    """Fitted gap less predicted, over its standard uncertainty, where no mistake is known.

    95.45 % are expected within two; the standard deviation should be 1. ``deviation`` is None of
    fewer than two.
    """

    bins: tuple[ZBin, ...]
    within_two: Share
    mean: float | None
    deviation: float | None


def uncertainty(counts: Counts) -> Uncertainty:
    """The histogram of z against the normal curve, its middle and its spread."""
    found = by_key(counts, Measure.Z)
    n = sum(counted.n for counted in found.values())
    bins = tuple(
        ZBin(key, found[key].n if key in found else 0, n * chance)
        for key, chance in zip(KEYS, _chances(), strict=True)
    )
    inside = sum(
        one.n for one in bins if one.key not in (_BELOW, _ABOVE) and -2 <= float(one.key) < 2
    )
    sums = sum(counted.amount for counted in found.values()) / MILLION
    squares = total(counts, Measure.Z_SQUARED).amount / MILLION
    return Uncertainty(bins, Share(inside, n), sums / n if n else None, _spread(n, sums, squares))


def _spread(n: int, sums: float, squares: float) -> float | None:
    if n < 2:
        return None
    return math.sqrt(max(squares - sums * sums / n, 0.0) / (n - 1))


def _chances() -> tuple[float, ...]:
    """What the normal curve gives each bin, from below the first to above the last."""
    edges = [*EDGES, _LAST + _STEP]
    below = [_normal(edge) for edge in edges]
    inner = [upper - lower for lower, upper in pairwise(below)]
    return (below[0], *inner, 1 - below[-1])


def _normal(z: float) -> float:
    """The share of a standard normal curve below z."""
    return 0.5 * (1 + math.erf(z / math.sqrt(2)))


@dataclass(frozen=True, slots=True)
class FitBin:
    """Shafts that left with a stated fit in one bin: what was said on the average, what landed."""

    words: str
    landed: Share
    stated: float | None

    @property
    def is_honest(self) -> bool | None:
        """Whether what was stated lies inside what may be true; None of nothing."""
        return None if self.stated is None else self.landed.low <= self.stated <= self.landed.high


def reliability(counts: Counts) -> tuple[FitBin, ...]:
    """Five bins of the stated fit, each with what became of it."""
    return tuple(_bin(counts, str(at), words) for at, words in enumerate(FIT_WORDS))


def _bin(counts: Counts, key: str, words: str) -> FitBin:
    said = total(counts, Measure.FIT_STATED, key=key)
    landed = total(counts, Measure.FIT_LANDED, key=key).n
    stated = said.amount / MILLION / said.n if said.n else None
    return FitBin(words, Share(landed, said.n), stated)
