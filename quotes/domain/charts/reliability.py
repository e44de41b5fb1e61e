"""What was stated against what came true, bin by bin, with what may be true as upright lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from quotes.domain.charts.frame import WIDTH, Words, frame, line, nothing, text

_LEFT, _TOP, _ROOM, _RIGHT = 44, 14, 170, 10
_STEPS = 10  # the scale begins at a tenth


@dataclass(frozen=True, slots=True)
class Point:
    """One bin: its words, shares stated and true, the ends of what may be true, how many."""

    words: str
    stated: float
    true: float
    low: float
    high: float
    n: int


def reliability(points: Sequence[Point], words: Words) -> str:
    """Where the square lies on the upright line, what was stated may be true.

    The scale begins where the surest bins end; a bin far below it is told in words at its place.
    """
    if not points:
        return nothing(words, "Nothing was stated that has been heard of.")
    least = min(min(point.low, point.stated) for point in points[-3:])
    low = max(0.0, int(least * _STEPS - 1e-9) / _STEPS)
    step = (WIDTH - _LEFT - _RIGHT) / len(points)
    drawn = [*_scale(low)]
    for at, point in enumerate(points):
        drawn += _point(point, _LEFT + step * (at + 0.5), low, step)
    return frame(words, _TOP + _ROOM + 64, [*drawn, *_legend()])


def _y(share: float, low: float) -> float:
    return _TOP + _ROOM * (1 - (max(share, low) - low) / ((1 - low) or 1))


def _scale(low: float) -> Iterator[str]:
    for part in (0.0, 0.5, 1.0):
        share = low + (1 - low) * part
        y = _y(share, low)
        yield line(_LEFT, y, WIDTH - _RIGHT, y)
        yield text(f"{share * 100:.3g} %", _LEFT - 4, y + 4, "chart-left")


def _point(point: Point, x: float, low: float, step: float) -> Iterator[str]:
    base = _TOP + _ROOM
    yield text(point.words, x, base + 14, "chart-month")
    yield text(f"{point.n}", x, base + 27, "chart-month")
    if point.high < low:
        yield text(f"↓ {point.true * 100:.0f} %", x, base - 6)
        return
    yield line(x, _y(point.low, low), x, _y(point.high, low), "tick")
    yield f'<circle class="spot" cx="{x:.1f}" cy="{_y(point.true, low):.1f}" r="4"/>'
    y = _y(point.stated, low)
    yield f'<rect class="spot stated" x="{x + 5:.1f}" y="{y - 3.5:.1f}" width="7" height="7"/>'


def _legend() -> Iterator[str]:
    y = _TOP + _ROOM + 54
    yield f'<circle class="spot" cx="6" cy="{y - 4}" r="4"/>'
    yield text("came true, and what it may be", 16, y, "chart-label")
    yield f'<rect class="spot stated" x="250" y="{y - 7.5}" width="7" height="7"/>'
    yield text("stated", 262, y, "chart-label")
