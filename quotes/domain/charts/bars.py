"""A bar for each thing, its number on it; a bar may have parts, each with a fill of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from quotes.domain.charts.frame import FILLS, LETTER, WIDTH, Words, box, frame, line, nothing, text

_ROW, _BAR, _LABEL_Y, _LEGEND = 40, 14, 12, 18
_LONGEST = 46


@dataclass(frozen=True, slots=True)
class Bar:
    """One thing: its name, the parts it is made of (none below zero), what is written at its end.

    ``mark``: a second value on the same scale, drawn as a tick (a percentile, a target).
    """

    label: str
    parts: tuple[float, ...]
    said: str
    mark: float | None = None

    @property
    def whole(self) -> float:
        """How long it is."""
        return sum(self.parts)


def bars(rows: Sequence[Bar], words: Words, legend: Sequence[str] = (), empty: str = "") -> str:
    """Draw them below each other to one scale; ``legend`` names the parts."""
    if not rows:
        return nothing(words, empty or "Nothing to draw.")
    longest = max(max(row.whole, row.mark or 0) for row in rows) or 1
    room = WIDTH - max(len(row.said) for row in rows) * LETTER - 8
    top = _LEGEND * len(legend) + (6 if legend else 0)
    drawn = [*_legend(legend, words.key)]
    for at, row in enumerate(rows):
        drawn += _row(row, top + at * _ROW, max(room, 60) / longest, words.key)
    return frame(words, top + len(rows) * _ROW, drawn)


def _legend(names: Sequence[str], key: str) -> Iterator[str]:
    for at, name in enumerate(names):
        yield box(0, at * _LEGEND, 18, 12, key, FILLS[at % len(FILLS)])
        yield text(name, 24, at * _LEGEND + 10, "chart-label", _LONGEST)


def _row(row: Bar, top: float, scale: float, key: str) -> Iterator[str]:
    yield text(row.label, 0, top + _LABEL_Y, "chart-label", _LONGEST)
    x, y = 0.0, top + _LABEL_Y + 6
    for part, fill in zip(row.parts, FILLS, strict=False):
        if part > 0:
            yield box(x, y, part * scale, _BAR, key, fill)
            x += part * scale
    if row.mark is not None:
        yield line(row.mark * scale, y - 3, row.mark * scale, y + _BAR + 3, "tick")
        x = max(x, row.mark * scale)
    yield text(row.said, x + 5, y + 11, "chart-end")
