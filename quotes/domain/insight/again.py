"""Do causes come back? Mistakes whose cause was seen in the ninety days before."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from intake.domain.shares import Share
from quotes.domain.insight.measures import Counts, Measure, by_key, total

DAYS = 90


@dataclass(frozen=True, slots=True)
class AgainRow:
    """One cause: how many in each month, and how many of them had been seen shortly before."""

    cause: str
    months: tuple[int, ...]
    again: Share


@dataclass(frozen=True, slots=True)
class Again:
    """The repeat rate, and a row for each cause by the months asked for, most frequent first."""

    rate: Share
    months: tuple[str, ...]
    rows: tuple[AgainRow, ...]

    @property
    def highest(self) -> int:
        """The fullest cell."""
        return max((n for row in self.rows for n in row.months), default=0)


def again(counts: Counts, months: tuple[str, ...]) -> Again:
    """Repeat rate, and cause by month, over the months given (oldest first)."""
    seen: Counter[tuple[str, str]] = Counter()
    for (month, measure, key), counted in counts.items():
        if measure == Measure.MISMATCH:
            seen[key.partition("|")[0], month] += counted.n
    back = by_key(counts, Measure.AGAIN)
    rows = []
    for cause in {cause for cause, _ in seen}:
        in_months = tuple(seen[cause, month] for month in months)
        all_of_it = sum(n for (name, _), n in seen.items() if name == cause)
        repeats = back[cause].n if cause in back else 0
        rows.append(AgainRow(cause, in_months, Share(repeats, all_of_it)))
    rows.sort(key=lambda row: (-row.again.of, row.cause))
    rate = Share(total(counts, Measure.AGAIN).n, sum(seen.values()))
    return Again(rate, months, tuple(rows))
