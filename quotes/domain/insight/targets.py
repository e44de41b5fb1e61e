"""Whether a figure meets what we aim at, or is too small to say."""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum

from intake.domain.shares import SMALL_NUMBER, Share


class Standing(StrEnum):
    """How a figure stands to its target."""

    MET = "on target"
    SHORT = "short of it"
    OPEN = "too close or too few to say"


def at_least(share: Share, target: Decimal) -> Standing:
    """A share that shall reach its target. Open while the target is inside what may be true."""
    return between(share.low, share.high, share.of, target, more_is_better=True)


def at_most(share: Share, target: Decimal) -> Standing:
    """A share that shall stay under its target."""
    return between(share.low, share.high, share.of, target, more_is_better=False)


def between(low: float, high: float, of: int, target: Decimal, *, more_is_better: bool) -> Standing:
    """The same for any figure that is known to lie between two ends, from so many cases."""
    if of < SMALL_NUMBER or low <= target <= high:
        return Standing.OPEN
    return Standing.MET if (low > target) == more_is_better else Standing.SHORT
