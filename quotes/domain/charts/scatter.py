"""Two shares against each other, a circle for each thing; the larger the circle, the more."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from quotes.domain.charts.frame import LETTER, WIDTH, Words, frame, line, nothing, text

_LEFT, _TOP, _ROOM, _RIGHT = 38, 12, 190, 22
_LARGEST, _LEAST = 15.0, 4.0
_NOTHING = 1e-9
_LINE, _TRIES = 11.0, 16
_Box = tuple[float, float, float]  # of a label: left end, base line, width


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
    taken: list[_Box] = []
    labels: list[str] = []
    for dot in sorted(dots, key=lambda one: -one.size):
        x = _LEFT + (WIDTH - _LEFT - _RIGHT) * dot.x / most_x
        y = _TOP + _ROOM * (1 - dot.y / most_y)
        radius = _LEAST + (_LARGEST - _LEAST) * math.sqrt(dot.size / largest)
        drawn.append(f'<circle class="dot" cx="{x:.1f}" cy="{y:.1f}" r="{radius:.1f}"/>')
        middle, base = _free(dot.label, x, y, radius, taken)
        labels.append(text(dot.label, middle, base, "chart-value strong"))
    return frame(words, _TOP + _ROOM + 50, [*drawn, *labels])


def _free(label: str, x: float, y: float, radius: float, taken: list[_Box]) -> tuple[float, float]:
    """Where a label stands free of the others: on its circle, or as near to it as there is room."""
    aside = radius + len(label) * LETTER / 2 + 2
    ways = [(x, y + 4), (x + aside, y + 4), (x - aside, y + 4), (x, y - radius - 3)]
    for step in range(1, _TRIES + 1):
        heights = (y - radius - 3 - step * _LINE, y + radius + step * _LINE)
        ways += [(x + off, base) for base in heights for off in (0.0, aside, -aside)]
    width = len(label) * LETTER
    written = [(round(at, 1), round(base, 1)) for at, base in ways]  # as a picture writes them
    boxes = [(at - width / 2, base, width) for at, base in written]
    inside = [
        box
        for box in boxes
        if box[0] >= 0 and box[0] + box[2] <= WIDTH and _LINE <= box[1] <= _TOP + _ROOM
    ]
    free = [box for box in inside if not any(_meet(box, other) for other in taken)]
    left, base, _ = (free or inside or boxes)[0]
    taken.append((left, base, width))
    return left + width / 2, base


def _meet(one: _Box, other: _Box) -> bool:
    apart = one[0] + one[2] <= other[0] or other[0] + other[2] <= one[0]
    return not apart and abs(one[1] - other[1]) < _LINE


def _end(most: float) -> float:
    """The end of a scale: a round share above the largest.

    >>> _end(0.031), _end(0.0), _end(0.97)
    (0.04, 0.01, 1.0)
    """
    if most < _NOTHING:
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
