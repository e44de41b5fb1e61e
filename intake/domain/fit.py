"""The gap a length will leave: its goal, what rounding does to it, how sure it is to be fair."""

from __future__ import annotations

import math
from dataclasses import dataclass

from catalog.domain.lengths import Length, mm
from intake.domain.diameter import Size
from intake.domain.limits import Limits

_SQRT2 = math.sqrt(2.0)
_HALF_MM = mm("0.5")


@dataclass(frozen=True, slots=True)
class Band:
    """The least, wanted and greatest gap for one shaft size."""

    least: Length
    goal: Length
    most: Length


def gap_band(size: Size, limits: Limits) -> Band:
    """The gap wanted behind the strut for a nominal size.

    1/2, 3/4, 1 in is common practice, no source; the cap of one diameter is ABYC P-6, from memory.
    """
    if size.system == "inch":
        most = min(limits.gap_most, size.diameter)
        whole = size.diameter >= limits.gap_most
        middle = Length((limits.gap_least.nm + most.nm) // 2)
        return Band(limits.gap_least, limits.gap_goal if whole else middle, most)
    most = min(limits.gap_most_metric, size.diameter)
    if size.diameter >= limits.gap_goal_full_from_metric:
        return Band(limits.gap_least_metric, limits.gap_goal_metric, most)
    middle_nm = (limits.gap_least_metric.nm + most.nm) / 2
    # A middle between two half millimetres goes up: 17.45 -> 17.5, 16.35 -> 16.5.
    goal = Length(math.floor(middle_nm / _HALF_MM.nm + 0.5) * _HALF_MM.nm)
    return Band(limits.gap_least_metric, goal, most)


def fit_probability(gap_nm: float, u_nm: float, band: Band) -> float:
    """The chance that the gap lands inside its band, from noise alone (JCGM 106, two-sided).

    ``gap_nm`` is the predicted gap, ``u_nm`` its standard uncertainty (> 0), in nanometres.
    """
    above = (band.most.nm - gap_nm) / (u_nm * _SQRT2)
    below = (band.least.nm - gap_nm) / (u_nm * _SQRT2)
    return 0.5 * (math.erf(above) - math.erf(below))


def rounded(exact: Length, step: Length, known_good: Length | None = None) -> Length:
    """The cut length: nearest step; a tie goes long, unless a known-good length is one of the two.

    A long shaft can be shortened; a short one cannot be mended.

    >>> from catalog.domain.lengths import inches
    >>> rounded(inches("59 7/16"), inches("1/8")).inch_text
    '59 1/2'
    >>> rounded(inches("40 13/16"), inches("1/8"), inches("40 3/4")).inch_text
    '40 3/4'
    """
    shorter, rest = divmod(exact.nm, step.nm)
    if rest * 2 == step.nm and known_good is not None and known_good.nm == shorter * step.nm:
        return known_good
    return Length((shorter + (rest * 2 >= step.nm)) * step.nm)
