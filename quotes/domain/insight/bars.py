"""Where do our bars go? Sawn for shafts, put back, or thrown away."""

from __future__ import annotations

from dataclasses import dataclass

from quotes.domain.insight.measures import NOTHING, Counts, Measure, by_key


@dataclass(frozen=True, slots=True)
class BarRow:
    """One size of bar. Lengths in whole nanometres."""

    size: str
    sawn: int
    used_nm: int
    kept_nm: int
    dropped_nm: int

    @property
    def waste(self) -> float | None:
        """What was thrown away, of what is in no rack any more; None of nothing."""
        gone = self.used_nm + self.dropped_nm
        return self.dropped_nm / gone if gone else None


def bars(counts: Counts) -> tuple[BarRow, ...]:
    """Each size, the one most was thrown away of first."""
    used, kept, dropped = (
        by_key(counts, measure)
        for measure in (Measure.BAR_USED, Measure.BAR_KEPT, Measure.BAR_DROPPED)
    )
    rows = (
        BarRow(
            size,
            one.n,
            one.amount,
            kept.get(size, NOTHING).amount,
            dropped.get(size, NOTHING).amount,
        )
        for size, one in used.items()
    )
    return tuple(sorted(rows, key=lambda row: (-row.dropped_nm, row.size)))
