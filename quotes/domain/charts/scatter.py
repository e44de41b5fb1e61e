"""Two shares against each other, a circle for each thing; the larger the circle, the more."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from quotes.domain.charts.frame import WIDTH, Words, frame, line, nothing, text

_LEFT, _TOP, _ROOM, _RIGHT = 38, 12, 190, 22
_LARGEST, _LEAST = 15.0, 4.0


@dataclass(frozen=True, slots=True)
class Dot:
    """``x`` and ``y`` on their scales, ``size`` in whatever is compared, ``label`` beside it."""

    label: str
    x: float
    y: float
    size: float


def scatter(dots: Sequence[Dot], words: Words, x_words: str, y_words: str) -> str:
    """Draw them; the scales begin at nothing and end above the largest."""
    if not dots:
        return nothing(words, "Nothing to draw.")
    most_x, most_y = (_end(max(getattr(dot, axis) for dot in dots)) for axis in "xy")
    largest = max(dot.size for dot in dots) or 1
    drawn = [*_axes(most_x, most_y, x_words, y_words)]
    for dot in sorted(dots, key=lambda one: -one.size):
        x = _LEFT + (WIDTH - _LEFT - _RIGHT) * dot.x / most_x
        y = _TOP + _ROOM * (1 - dot.y / most_y)
        radius = _LEAST + (_LARGEST - _LEAST) * math.sqrt(dot.size / largest)
        drawn.append(f'<circle class="dot" cx="{x:.1f}" cy="{y:.1f}" r="{radius:.1f}"/>')
        drawn.append(text(dot.label, x, y + 4, "chart-value strong"))
    return frame(words, _TOP + _ROOM + 50, drawn)


def _end(most: float) -> float:
    """The end of a scale: a round share above the largest.

    >>> _end(0.031), _end(0.0), _end(0.97)
    (0.04, 0.01, 1.0)
    """
    if most <= 0:
        return 0.01
    step = 10.0 ** math.floor(math.log10(most))
    return min(math.ceil(most / step + 1e-9) * step, 1.0) if most < 1 else 1.0


def _axes(most_x: float, most_y: float, x_words: str, y_words: str) -> Iterator[str]:
    bottom = _TOP + _ROOM
    yield line(_LEFT, bottom, WIDTH - _RIGHT, bottom)
    yield line(_LEFT, _TOP, _LEFT, bottom)
    for part in (0.0, 0.5, 1.0):
        x = _LEFT + (WIDTH - _LEFT - _RIGHT) * part
        yield text(_percent(most_x * part), x, bottom + 14, "chart-month")
        yield text(_percent(most_y * part), _LEFT - 4, _TOP + _ROOM * (1 - part) + 4, "chart-left")
    yield text(f"→ {x_words}", _LEFT, bottom + 30, "chart-label", 46)
    yield text(f"↑ {y_words}", _LEFT, bottom + 45, "chart-label", 46)


def _percent(share: float) -> str:
    return f"{share * 100:.3g} %"
