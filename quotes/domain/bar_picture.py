"""A bar with its cuts, drawn to scale: shafts in metal, what is left in paper, scrap hatched."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from catalog.domain.lengths import Length
from intake.domain.shapes import Drawing, Line, Polygon, Shape
from quotes.domain.nesting import SCRAP_UNDER

WIDE, HIGH = 180.0, 9.0  # mm of paper
_EDGE = 1.0
_HATCH = 2.5  # mm between two strokes


def bar_picture(
    title: str, length: Length, cuts: Sequence[Length], words: str, longest: Length
) -> Drawing:
    """One piece; ``cuts`` from its left end, saw cut counted in each. ``words``: the same, said.

    ``longest``: what fills the paper's width, so that pieces shown together keep one scale.
    """
    scale = (WIDE - 2 * _EDGE) / max(longest.nm, length.nm, 1)
    return Drawing(tuple(_shapes(length, cuts, scale)), WIDE, HIGH, title, words)


def _shapes(length: Length, cuts: Sequence[Length], scale: float) -> Iterator[Shape]:
    at = 0
    for cut in cuts:
        yield _block(at, at + cut.nm, scale, "metal")
        at += cut.nm
    if at < length.nm:
        yield _block(at, length.nm, scale, "paper")
        if cuts and length.nm - at < SCRAP_UNDER.nm:
            yield from _strokes(_EDGE + at * scale, _EDGE + length.nm * scale)


def _block(start: int, end: int, scale: float, fill: str) -> Polygon:
    left, right = _EDGE + start * scale, _EDGE + end * scale
    top, bottom = _EDGE, HIGH - _EDGE
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    return Polygon(corners, kind="thin", fill=fill)


def _strokes(left: float, right: float) -> Iterator[Line]:
    """Slanting strokes, cut off at the end of the bar."""
    x, rise = left, HIGH - 2 * _EDGE
    while x < right:
        run = min(rise, right - x)
        yield Line(x, HIGH - _EDGE, x + run, HIGH - _EDGE - run, "hatch")
        x += _HATCH
