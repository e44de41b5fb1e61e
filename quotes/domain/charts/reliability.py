"""What was stated against what came true, with what may be true as upright lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from quotes.domain.charts.frame import WIDTH, Words, frame, line, nothing, text

_LEFT, _TOP, _ROOM, _RIGHT = 44, 14, 190, 14


@dataclass(frozen=True, slots=True)
class Point:
    """One bin: shares stated and true, the ends of what may be true, how many."""

    stated: float
    true: float
    low: float
    high: float
    n: int


def reliability(points: Sequence[Point], words: Words) -> str:
    """Points on the diagonal are honest. The scale begins below the lowest end there is."""
    if not points:
        return nothing(words, "Nothing was stated that has been heard of.")
    least = min(min(point.low, point.stated) for point in points)
    low = max(0.0, int(least * 10) / 10)
    drawn = [*_axes(low)]
    for point in points:
        drawn += _point(point, low)
    return frame(words, _TOP + _ROOM + 48, drawn)


def _x(share: float, low: float) -> float:
    return _LEFT + (WIDTH - _LEFT - _RIGHT) * (share - low) / (1 - low or 1)


def _y(share: float, low: float) -> float:
    return _TOP + _ROOM * (1 - (share - low) / (1 - low or 1))


def _axes(low: float) -> Iterator[str]:
    for part in (0.0, 0.5, 1.0):
        share = low + (1 - low) * part
        x, y = _x(share, low), _y(share, low)
        yield line(_LEFT, y, WIDTH - _RIGHT, y)
        yield text(f"{share:.0%}".replace("%", " %"), _LEFT - 4, y + 4, "chart-left")
        yield text(f"{share:.0%}".replace("%", " %"), x, _TOP + _ROOM + 14, "chart-month")
    yield line(_x(low, low), _y(low, low), _x(1, low), _y(1, low), "target")
    yield text(
        "→ fit that was stated, ↑ fit that came true", _LEFT, _TOP + _ROOM + 32, "chart-label"
    )


def _point(point: Point, low: float) -> Iterator[str]:
    x = _x(point.stated, low)
    yield line(x, _y(point.low, low), x, _y(point.high, low), "tick")
    y = _y(point.true, low)
    yield f'<circle class="spot" cx="{x:.1f}" cy="{y:.1f}" r="4"/>'
    yield text(str(point.n), x - 7, y + 4, "chart-left")
