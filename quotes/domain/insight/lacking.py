"""What are we asked for and do not have?"""

from __future__ import annotations

from quotes.domain.insight.measures import Counts, Measure, by_key


def lacking(counts: Counts) -> tuple[tuple[str, int], ...]:
    """What has no match in the catalogue, in words, the most asked for first."""
    return tuple((words, one.n) for words, one in by_key(counts, Measure.LACKING).items())
