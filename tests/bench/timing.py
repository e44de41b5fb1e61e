"""Ratios: ours against a floor, taken in turns, so that a busy machine slows both."""

from __future__ import annotations

import gc
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass

PAIRS = 31  # fewer pairs spread too far
SLACK = 1.15  # what a median of 31 pairs cannot tell from the goal

Work = Callable[[], object]


@dataclass(frozen=True, slots=True)
class Ratio:
    """Median, lowest and highest ratio of the pairs; medians of each side in seconds."""

    value: float
    low: float
    high: float
    ours: float
    floor: float


def compare(
    ours: Work, floor: Work, *, pairs: int = PAIRS, calls: int = 1, floor_calls: int = 1
) -> Ratio:
    """Ours over the floor for one call of each; a sample times so many calls of it."""
    ours(), floor()  # what is built once is built now
    taken = [(_seconds(floor, floor_calls), _seconds(ours, calls)) for _ in range(pairs)]
    ratios = [of_ours / of_floor for of_floor, of_ours in taken]
    return Ratio(
        value=statistics.median(ratios),
        low=min(ratios),
        high=max(ratios),
        ours=statistics.median(of_ours for _, of_ours in taken),
        floor=statistics.median(of_floor for of_floor, _ in taken),
    )


def _seconds(work: Work, calls: int) -> float:
    """Seconds for one call, without the pause of a collection that others made due."""
    gc.collect()
    start = time.perf_counter()
    for _ in range(calls):
        work()
    return (time.perf_counter() - start) / calls
