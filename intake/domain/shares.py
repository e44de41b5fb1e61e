"""Shares of small counts, with what they may really be."""

from __future__ import annotations

import math
from dataclasses import dataclass

Z_95 = 1.959963984540054  # the normal quantile that leaves 2.5 % on each side
SMALL_NUMBER = 20  # below it counts are shown, no percentages


def wilson(hits: float, of: float, z: float = Z_95) -> tuple[float, float]:
    """The interval a share may really lie in (95 %): lower and upper end; (0, 1) of nothing.

    Source: E. B. Wilson, "Probable inference, the law of succession, and statistical inference",
    Journal of the American Statistical Association 22 (1927), 209-212.
    """
    if of <= 0:
        return 0.0, 1.0
    share, spread = hits / of, z * z / of
    middle = (share + spread / 2) / (1 + spread)
    half = z * math.sqrt(share * (1 - share) / of + spread / (4 * of)) / (1 + spread)
    return max(middle - half, 0.0), min(middle + half, 1.0)


@dataclass(frozen=True, slots=True)
class Share:
    """So many hits of so many; whole numbers, no hit more than there are.

    >>> half = Share(10, 20)
    >>> half.rate, round(half.low, 3), round(half.high, 3), half.is_small
    (0.5, 0.299, 0.701, False)
    """

    hits: int
    of: int

    @property
    def rate(self) -> float | None:
        """The share itself, 0 to 1; None of nothing."""
        return self.hits / self.of if self.of else None

    @property
    def low(self) -> float:
        """The lower end of what it may really be."""
        return wilson(self.hits, self.of)[0]

    @property
    def high(self) -> float:
        """The upper end of what it may really be."""
        return wilson(self.hits, self.of)[1]

    @property
    def is_small(self) -> bool:
        """Too few for a percentage."""
        return self.of < SMALL_NUMBER

    def __add__(self, other: Share) -> Share:
        return Share(self.hits + other.hits, self.of + other.of)


def newcombe(after: Share, before: Share) -> tuple[float, float]:
    """What the difference of two shares may really be (95 %): ``after`` less ``before``.

    The hybrid of two Wilson intervals, without a correction; (-1, 1) where one is of nothing.
    Source: R. G. Newcombe, "Interval estimation for the difference between independent
    proportions: comparison of eleven methods", Statistics in Medicine 17 (1998), 873-890,
    method 10.
    """
    if after.rate is None or before.rate is None:
        return -1.0, 1.0
    middle = after.rate - before.rate
    low = math.hypot(after.rate - after.low, before.high - before.rate)
    high = math.hypot(after.high - after.rate, before.rate - before.low)
    return middle - low, middle + high
