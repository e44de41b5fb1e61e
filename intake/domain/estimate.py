"""A length as a sum of readings that remembers how much each of them moves it.

Two routes that share a reading (boat and tail share the strut distance; tail and old shaft share
the gap) are so compared honestly: what is shared cancels or doubles as it should.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple


class Estimate(NamedTuple):
    """A length in nanometres and, reading by reading, what one standard deviation of it moves."""

    nm: int
    moves: Mapping[str, float]

    @property
    def u_nm(self) -> float:
        """Combined standard uncertainty, readings independent (JCGM 100, 5.1.2)."""
        return math.hypot(*self.moves.values())

    def plus(self, other: Estimate) -> Estimate:
        """The sum; a reading in both moves it twice."""
        return Estimate(self.nm + other.nm, _summed(self.moves, other.moves, 1.0))

    def minus(self, other: Estimate) -> Estimate:
        """The difference; a reading in both cancels."""
        return Estimate(self.nm - other.nm, _summed(self.moves, other.moves, -1.0))


def _summed(one: Mapping[str, float], other: Mapping[str, float], sign: float) -> dict[str, float]:
    total = dict(one)
    for name, move in other.items():
        total[name] = total.get(name, 0.0) + sign * move
    return total


def blend(one: Estimate, other: Estimate) -> Estimate:
    """The mean weighted by 1/u^2; two equal lengths give exactly that length."""
    weight_one, weight_other = one.u_nm**-2, other.u_nm**-2
    share = weight_other / (weight_one + weight_other)
    # Written as a step from the first, so that no rounding can part two equal lengths.
    nm = one.nm + round((other.nm - one.nm) * share)
    moves = {name: move * (1 - share) for name, move in one.moves.items()}
    for name, move in other.moves.items():
        moves[name] = moves.get(name, 0.0) + move * share
    return Estimate(nm, moves)
