"""How often each size of a deviation came, against what a curve lets expect."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quotes.domain.charts.frame import WIDTH, Words, box, frame, line, nothing, path, text

_TOP, _ROOM = 16, 140


@dataclass(frozen=True, slots=True)
class Column:
    """One bin: the words below it ("" for none), how many, and how many were expected."""

    words: str
    n: int
    expected: float


def histogram(columns: Sequence[Column], words: Words) -> str:
    """Columns with their numbers on top, the expected ones as a line over them."""
    if not any(column.n for column in columns):
        return nothing(words, "Nothing heard yet that could be counted.")
    highest = max(max(column.n, column.expected) for column in columns)
    step, base = WIDTH / len(columns), _TOP + _ROOM
    drawn, curve = [line(0, base, WIDTH, base)], []
    for at, column in enumerate(columns):
        height = _ROOM * column.n / highest
        drawn.append(box(at * step + 1, base - height, step - 2, height, words.key, "fill-1"))
        if column.n:
            drawn.append(text(str(column.n), (at + 0.5) * step, base - height - 3))
        drawn.append(text(column.words, (at + 0.5) * step, base + 13, "chart-month"))
        curve.append(((at + 0.5) * step, base - _ROOM * column.expected / highest))
    drawn.append(path(curve, "trace-1"))
    drawn.append(line(0, base + 29, 22, base + 29, "trace-1"))
    drawn.append(text("what honest uncertainty lets expect", 28, base + 33, "chart-label"))
    return frame(words, base + 40, drawn)
