"""What mistakes cost: by cause and by the stage they were found at."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from intake.domain.shares import Share
from quotes.domain.insight.measures import NOTHING, Counted, Counts, Measure, by_key

# From the cheapest place to find it in to the dearest.
FOUND = ("before_quote", "before_cut", "before_ship", "at_fitting")
UNKNOWN = "X"


@dataclass(frozen=True, slots=True)
class CauseRow:
    """One cause, or one family of them: how many, and cents, at each stage they were found at."""

    cause: str
    stages: Mapping[str, Counted] = field(default_factory=dict)

    @property
    def whole(self) -> Counted:
        """All stages together."""
        return sum(self.stages.values(), NOTHING)


@dataclass(frozen=True, slots=True)
class Cost:
    """Causes by cost, the dearest first; families likewise; and how many have no known cause."""

    causes: tuple[CauseRow, ...]
    families: tuple[CauseRow, ...]
    unknown: Share

    @property
    def whole(self) -> Counted:
        """Everything together."""
        return sum((row.whole for row in self.causes), NOTHING)

    def by_count(self) -> tuple[CauseRow, ...]:
        """The same causes, the most frequent first."""
        return tuple(sorted(self.causes, key=lambda row: (-row.whole.n, row.cause)))


def cost(counts: Counts) -> Cost:
    """Mistakes by cause, by family (the letter a cause begins with) and by stage."""
    found = by_key(counts, Measure.MISMATCH)
    causes = _rows((key.partition("|")[0], key, one) for key, one in found.items())
    families = _rows((key[:1], key, one) for key, one in found.items())
    everything = sum(one.n for one in found.values())
    unknown = sum(row.whole.n for row in causes if row.cause == UNKNOWN)
    return Cost(causes, families, Share(unknown, everything))


def _rows(found: Iterable[tuple[str, str, Counted]]) -> tuple[CauseRow, ...]:
    stages: dict[str, dict[str, Counted]] = {}
    for name, key, counted in found:
        mine, stage = stages.setdefault(name, {}), key.partition("|")[2]
        mine[stage] = mine.get(stage, NOTHING) + counted
    rows = (CauseRow(name, mine) for name, mine in stages.items())
    return tuple(sorted(rows, key=lambda row: (-row.whole.amount, -row.whole.n, row.cause)))
