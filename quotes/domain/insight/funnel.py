"""What slips by, and where mistakes are caught: the later, the dearer."""

from __future__ import annotations

from dataclasses import dataclass

from intake.domain.shares import Share
from quotes.domain.insight.measures import Counts, Measure, by_key

# From the cheapest place to be found in to the dearest.
STAGES = ("entry", "call", "shop", "boat")


@dataclass(frozen=True, slots=True)
class FunnelStep:
    """One place: how many were caught there, of all that had come so far."""

    stage: str
    caught: int
    came: int

    @property
    def share(self) -> Share:
        """Caught here, of those that nobody had caught before."""
        return Share(self.caught, self.came)


def funnel(counts: Counts) -> tuple[FunnelStep, ...]:
    """Requests with a mistake, step by step; what is caught at the boat was caught by nobody."""
    caught = {stage: counted.n for stage, counted in by_key(counts, Measure.CAUGHT).items()}
    left, steps = sum(caught.get(stage, 0) for stage in STAGES), []
    for stage in STAGES:
        steps.append(FunnelStep(stage, caught.get(stage, 0), left))
        left -= caught.get(stage, 0)
    return tuple(steps)
