"""What a drawing is made of: lines, polygons and texts in paper millimetres, y downwards.

The same shapes become SVG (:mod:`intake.domain.svg`) and PDF, so a drawing is thought out once.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, pi, sin

Point = tuple[float, float]

# Line kinds after ISO 128: outline wide (0.5 mm); thin, dimension and hatch narrow; axis long-dash
# dot; dashed for hidden edges and for what is assumed; lit for the thing asked now.
KINDS = ["outline", "thin", "axis", "hatch", "dashed", "dimension", "arrow", "lit", "tape", "word"]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line. ``part`` is "plain", or "ends" for what shows only when the slug is lit."""

    x1: float
    y1: float
    x2: float
    y2: float
    kind: str = "outline"
    slug: str = ""
    part: str = "plain"


@dataclass(frozen=True, slots=True)
class Polygon:
    """A run of points; ``fill`` is a token ("", paper, metal, water, dark, fog-1, fog-2, band)."""

    points: tuple[Point, ...]
    kind: str = "outline"
    fill: str = ""
    closed: bool = True
    slug: str = ""
    part: str = "plain"


@dataclass(frozen=True, slots=True)
class Text:
    """Words at a baseline; ``size`` is the font size in mm; anchor start, middle or end."""

    x: float
    y: float
    text: str
    size: float = 3.6
    anchor: str = "middle"
    kind: str = "word"
    slug: str = ""
    part: str = "plain"

    @property
    def runs(self) -> tuple[tuple[str, str], ...]:
        """The text in pieces for setting: role ``plain``, ``over`` and ``under`` of a fraction."""
        return runs(self.text)

    @property
    def span(self) -> tuple[float, float]:
        """Left and right edge, estimated, in mm."""
        wide = text_width(self.text, self.size)
        left = self.x - {"start": 0.0, "middle": wide / 2, "end": wide}[self.anchor]
        return left, left + wide


Shape = Line | Polygon | Text


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes on a paper of ``width_mm`` by ``height_mm``, with words for who cannot see it."""

    shapes: tuple[Shape, ...]
    width_mm: float
    height_mm: float
    title: str
    description: str
    lit: str = ""


_FRACTION = re.compile(r"(\d+)/(\d+)")
# Widths in em of a wide sans serif, so that a narrower one always has room.
_EM = dict.fromkeys("ijl.,:;'|I ()/", 0.32) | dict.fromkeys("rtf", 0.41)
_EM |= dict.fromkeys("mwMW", 0.95) | dict.fromkeys("≈⌀—", 0.9) | dict.fromkeys("cksvxyz", 0.56)
BOLD = 1.13


def runs(text: str) -> tuple[tuple[str, str], ...]:
    """Split off every fraction, so that it can be set as one.

    >>> runs("44 1/8 in")
    (('44', 'plain'), ('1', 'over'), ('8', 'under'), (' in', 'plain'))
    """
    pieces: list[tuple[str, str]] = []
    at = 0
    for found in _FRACTION.finditer(text):
        before = text[at : found.start()]
        before = before[:-1] if before[-2:-1].isdigit() and before.endswith(" ") else before
        pieces += [(before, "plain"), (found[1], "over"), (found[2], "under")]
        at = found.end()
    pieces.append((text[at:], "plain"))
    return tuple(piece for piece in pieces if piece[0])


def text_width(text: str, size: float) -> float:
    """About how wide a text runs, in mm, for a plain sans serif of ``size`` mm.

    >>> round(text_width("44 1/8 in", 4), 1)
    14.1
    """
    total = 0.0
    for piece, role in runs(text):
        wide = sum(_EM.get(letter, 0.63) for letter in piece)
        total += wide if role == "plain" else 0.66 * wide + (0.17 if role == "under" else 0.0)
    return total * size


def rectangle(
    x1: float, y1: float, x2: float, y2: float, kind: str = "outline", fill: str = "paper"
) -> Polygon:
    """A box between two corners."""
    return Polygon(((x1, y1), (x2, y1), (x2, y2), (x1, y2)), kind, fill)


def path(points: Sequence[Point], kind: str = "thin") -> Polygon:
    """An open run of points."""
    return Polygon(tuple(points), kind, closed=False)


def curve(a: Point, b: Point, c: Point, d: Point, steps: int = 24) -> tuple[Point, ...]:
    """A cubic Bézier as points, ends included."""

    def at(t: float) -> Point:
        p, q, r, s = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        return (
            p * a[0] + q * b[0] + r * c[0] + s * d[0],
            p * a[1] + q * b[1] + r * c[1] + s * d[1],
        )

    return tuple(at(step / steps) for step in range(steps + 1))


def ellipse(x: float, y: float, rx: float, ry: float, steps: int = 20) -> tuple[Point, ...]:
    """A closed ellipse as points."""
    turns = (2 * pi * step / steps for step in range(steps))
    return tuple((x + rx * cos(turn), y + ry * sin(turn)) for turn in turns)


def hatch(x1: float, y1: float, x2: float, y2: float, pitch: float = 1.1) -> list[Line]:
    """Lines at 45 degrees in a box: a cut surface (ISO 128-3)."""
    high, lines, c = y2 - y1, [], x1 - (y2 - y1) + pitch
    while c < x2 - 1e-9:
        left, right = max(c, x1), min(c + high, x2)
        lines.append(Line(left, y2 - (left - c), right, max(y2 - (right - c), y1), "hatch"))
        c += pitch
    return lines


def height_of(points: Sequence[Point], x: float) -> float:
    """y of a left-to-right run of points at ``x``."""
    for (x1, y1), (x2, y2) in pairwise(points):
        if x1 <= x <= x2 and x2 > x1:
            return y1 + (y2 - y1) * (x - x1) / (x2 - x1)
    return points[-1][1] if x > points[-1][0] else points[0][1]
