"""A bar for each thing, its number on it; a bar may have parts, each with a fill of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from quotes.domain.charts.frame import (
    FILLS,
    LETTER,
    WIDTH,
    Words,
    box,
    frame,
    line,
    nothing,
    path,
    text,
)

_ROW, _BAR, _LABEL_Y, _LEGEND = 40, 14, 12, 18
_LONGEST = 46


@dataclass(frozen=True, slots=True)
class Bar:
    """One thing: its name, the parts it is made of (none below zero), what is written at its end.

    ``marks``: other values on the same scale: the first is drawn as a diamond, the next as a tick
    (the median, the ninetieth percentile).
    """

    label: str
    parts: tuple[float, ...]
    said: str
    marks: tuple[float, ...] = ()

    @property
    def whole(self) -> float:
        """How long it is."""
        return sum(self.parts)


def bars(
    rows: Sequence[Bar],
    words: Words,
    legend: Sequence[str] = (),
    empty: str = "",
    marked: Sequence[str] = (),
) -> str:
    """Draw them below each other to one scale; ``legend`` names the parts, ``marked`` the marks."""
    if not rows:
        return nothing(words, empty or "Nothing to draw.")
    longest = max(max(row.whole, *row.marks, 0) for row in rows) or 1
    room = WIDTH - max(len(row.said) for row in rows) * LETTER - 8
    named = len(legend) + len(marked)
    top = _LEGEND * named + (6 if named else 0)
    drawn = [*_legend(legend, words.key), *_marked(marked, _LEGEND * len(legend))]
    for at, row in enumerate(rows):
        drawn += _row(row, top + at * _ROW, max(room, 60) / longest, words.key)
    return frame(words, top + len(rows) * _ROW, drawn)


def _legend(names: Sequence[str], key: str) -> Iterator[str]:
    for at, name in enumerate(names):
        yield box(0, at * _LEGEND, 18, 12, key, FILLS[at % len(FILLS)])
        yield text(name, 24, at * _LEGEND + 10, "chart-label", _LONGEST)


def _marked(names: Sequence[str], top: float) -> Iterator[str]:
    for at, name in enumerate(names):
        yield _mark(at, 9, top + at * _LEGEND, 12)
        yield text(name, 24, top + at * _LEGEND + 10, "chart-label", _LONGEST)


def _mark(at: int, x: float, y: float, height: float) -> str:
    if at:
        x = max(x, 1.0)
        return line(x, y - 3, x, y + height + 3, "tick")
    x, middle = max(x, 4.0), y + height / 2
    return path([(x - 4, middle), (x, middle - 5), (x + 4, middle), (x, middle + 5)], "spot",
                closed=True)  # fmt: skip


def _row(row: Bar, top: float, scale: float, key: str) -> Iterator[str]:
    yield text(row.label, 0, top + _LABEL_Y, "chart-label", _LONGEST)
    x, y = 0.0, top + _LABEL_Y + 6
    for part, fill in zip(row.parts, FILLS, strict=False):
        if part > 0:
            yield box(x, y, part * scale, _BAR, key, fill)
            x += part * scale
    for at, mark in enumerate(row.marks):
        yield _mark(at, mark * scale, y, _BAR)
        x = max(x, mark * scale)
    yield text(row.said, x + 5, y + 11, "chart-end")
