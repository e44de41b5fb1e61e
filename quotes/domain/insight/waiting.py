"""How long do people wait from their request to their quote, and for whom?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

Waits = tuple[int, int, int]  # seconds: machine, desk, customer
WHO = ("machine", "desk", "customer")


@dataclass(frozen=True, slots=True)
class WaitRow:
    """Seconds that were waited for one of the three, or in all: half the people, nine of ten."""

    who: str
    median: float | None
    ninetieth: float | None
    mean: float | None


@dataclass(frozen=True, slots=True)
class Waiting:
    """Requests that were quoted, and what they waited for."""

    n: int
    rows: tuple[WaitRow, ...]
    whole: WaitRow


def waiting(waits: Sequence[Waits]) -> Waiting:
    """Median, ninetieth percentile and mean of each part, and of the whole."""
    rows = tuple(_row(who, [wait[at] for wait in waits]) for at, who in enumerate(WHO))
    return Waiting(len(waits), rows, _row("all", [sum(wait) for wait in waits]))


def _row(who: str, seconds: Sequence[int]) -> WaitRow:
    ranked = sorted(seconds)
    mean = math.fsum(ranked) / len(ranked) if ranked else None
    return WaitRow(who, quantile(ranked, 0.5), quantile(ranked, 0.9), mean)


def quantile(ranked: Sequence[float], share: float) -> float | None:
    """A quantile of sorted numbers, between neighbours in proportion; None of nothing.

    Definition 7 of R. J. Hyndman and Y. Fan, "Sample quantiles in statistical packages", The
    American Statistician 50 (1996), 361-365.

    >>> quantile([1, 2, 3, 4], 0.5)
    2.5
    """
    if not ranked:
        return None
    place = (len(ranked) - 1) * share
    below = math.floor(place)
    above = min(below + 1, len(ranked) - 1)
    return ranked[below] + (ranked[above] - ranked[below]) * (place - below)
