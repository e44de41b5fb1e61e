"""A table as a picture: how often, by thing and month. Each cell has its number."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from quotes.domain.charts.frame import WIDTH, Words, frame, nothing, text

_CELL, _LABEL, _HEAD, _STEPS = 20, 15, 16, 4
_MOST_NAMES = 5


@dataclass(frozen=True, slots=True)
class HeatRow:
    """One thing with one whole number for each month."""

    label: str
    counts: tuple[int, ...]


def heat(rows: Sequence[HeatRow], months: Sequence[str], words: Words) -> str:
    """Draw it: the more, the darker, in four steps; nothing stays empty."""
    if not rows or not months:
        return nothing(words, "Nothing in these months.")
    highest = max((n for row in rows for n in row.counts), default=0) or 1
    step = WIDTH / len(months)
    drawn = list(_heads(months, step))
    for at, row in enumerate(rows):
        drawn += _row(row, _HEAD + at * (_CELL + _LABEL), step, highest)
    return frame(words, _HEAD + len(rows) * (_CELL + _LABEL), drawn)


def _heads(months: Sequence[str], step: float) -> Iterator[str]:
    every = max(1, -(-len(months) // _MOST_NAMES))
    for at, month in enumerate(months):
        if at % every == 0:
            yield text(month, at * step + step / 2, 10, "chart-month")


def _row(row: HeatRow, top: float, step: float, highest: int) -> Iterator[str]:
    yield text(row.label, 0, top + 11, "chart-label", 50)
    for at, count in enumerate(row.counts):
        level = -(-count * _STEPS // highest)
        x, y = at * step, top + _LABEL
        yield (
            f'<rect class="heat heat-{level}" x="{x + 0.5:.1f}" y="{y:.1f}" '
            f'width="{step - 1:.1f}" height="{_CELL - 2}"/>'
        )
        if count:
            yield text(str(count), x + step / 2, y + 13, f"chart-value on-{level}")
