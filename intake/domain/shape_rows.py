"""Shapes as plain rows, for who draws them elsewhere: to a hundredth of a millimetre."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from intake.domain.shapes import Line, Polygon, Shape


def rows(shapes: Iterable[Shape]) -> list[list[Any]]:
    """Each shape as a row that begins with its letter: Line, Polygon or Text.

    >>> rows([Line(0, 1, 2, 3.14159)])
    [['L', 0, 1, 2, 3.14, 'outline']]
    """
    return [_row(shape) for shape in shapes]


def _row(shape: Shape) -> list[Any]:
    if isinstance(shape, Line):
        return ["L", *map(_n, (shape.x1, shape.y1, shape.x2, shape.y2)), shape.kind]
    if isinstance(shape, Polygon):
        flat = [_n(value) for point in shape.points for value in point]
        return ["P", flat, shape.kind, shape.fill, int(shape.closed)]
    x, y, size = map(_n, (shape.x, shape.y, shape.size))
    return ["T", x, y, shape.text, size, shape.anchor, shape.kind]


def _n(value: float) -> float:
    short = round(value, 2)
    return int(short) if short == int(short) else short
