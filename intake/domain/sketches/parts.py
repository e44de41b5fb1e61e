"""What the sketches are put together from: labels, dimensions, cut walls, nuts, bolts, discs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from intake.domain.dimensions import arrow, arrow_up
from intake.domain.shapes import Line, Polygon, Shape, Text, ellipse, hatch, rectangle

WIDTH = 110.0  # paper mm of every sketch
SIZE = 4.4


def word(x: float, y: float, text: str, anchor: str = "middle", kind: str = "word") -> Text:
    """A label at a baseline."""
    return Text(x, y, text, SIZE, anchor, kind)


def leader(x1: float, y1: float, x2: float, y2: float) -> Iterator[Shape]:
    """A thin line from a label to its thing, with a dot where it touches."""
    yield Line(x1, y1, x2, y2, "thin")
    yield Polygon(ellipse(x2, y2, 0.6, 0.6, 10), "arrow")


def along(
    x1: float, x2: float, y: float, text: str, tops: tuple[float, float], kind: str = "lit"
) -> Iterator[Shape]:
    """A level dimension at ``y`` from ``x1`` to ``x2``; extension lines start at ``tops``."""
    thin = "tape" if kind == "lit" else "dimension"
    for x, top in zip((x1, x2), tops, strict=True):
        yield Line(x, top, x, y + 1.4, thin)
    yield Line(x1, y, x2, y, kind)
    for x, way in ((x1, 1), (x2, -1)):
        yield replace(arrow(x, y, way), kind=kind if kind == "lit" else "arrow")
    yield word((x1 + x2) / 2, y + SIZE + 0.6, text, kind="lit" if kind == "lit" else "word")


def upright(x: float, y1: float, y2: float, kind: str = "lit") -> Iterator[Shape]:
    """A standing dimension line with its arrows."""
    yield Line(x, y1, x, y2, kind)
    for y, way in ((y1, 1), (y2, -1)):
        yield replace(arrow_up(x, y, way), kind=kind if kind == "lit" else "arrow")


def push(x1: float, x2: float, y: float) -> Iterator[Shape]:
    """A bold arrow along the axis, from ``x1`` to its tip at ``x2``."""
    way = 1 if x2 > x1 else -1
    yield Line(x1, y, x2 - way * 2, y, "outline")
    yield Polygon(((x2, y), (x2 - way * 3.2, y - 1.4), (x2 - way * 3.2, y + 1.4)), "arrow")


def box(x1: float, y1: float, x2: float, y2: float, fill: str = "paper") -> Polygon:
    """An outlined part."""
    return rectangle(x1, y1, x2, y2, "outline", fill)


def walls(x1: float, x2: float, axis: float, inner: float, outer: float) -> Iterator[Shape]:
    """A bored part cut open: its walls above and below the axis, hatched."""
    for top, bottom in ((-outer, -inner), (inner, outer)):
        yield box(x1, axis + top, x2, axis + bottom)
        yield from hatch(x1, axis + top, x2, axis + bottom, 1.5)


def disc(x: float, y: float, r: float, fill: str = "", kind: str = "outline") -> Polygon:
    """A round thing seen from its end."""
    return Polygon(ellipse(x, y, r, r, 48), kind, fill)


def bolt(x1: float, x2: float, y: float) -> Iterator[Shape]:
    """A bolt along the axis with head and nut."""
    yield box(x1, y - 0.9, x2, y + 0.9)
    yield box(x1 - 1.8, y - 1.9, x1, y + 1.9)
    yield box(x2 - 1.8, y - 1.9, x2, y + 1.9)


def nut(x1: float, x2: float, y: float, half: float) -> Iterator[Shape]:
    """A hexagon nut seen on its corners."""
    yield box(x1, y - half, x2, y + half)
    for sign in (-1, 1):
        yield Line(x1, y + sign * half / 2, x2, y + sign * half / 2, "thin")


def bar(x1: float, x2: float, y: float, half: float) -> Iterator[Shape]:
    """A piece of round bar, cut off left and right."""
    yield rectangle(x1, y - half, x2, y + half, "word", "paper")
    for sign in (-1, 1):
        yield Line(x1, y + sign * half, x2, y + sign * half)


def coupling(face: float, y: float, way: int, *, flange: float = 11.0) -> Iterator[Shape]:
    """Half a coupling: its face at ``face``, its hub toward ``way`` (1 right, -1 left)."""
    yield box(*sorted_x(face + way * 3, face + way * 13, y - 5, y + 5))
    yield box(*sorted_x(face, face + way * 3, y - flange, y + flange))


def sorted_x(x1: float, x2: float, y1: float, y2: float) -> tuple[float, float, float, float]:
    """The corners of a box with the left one first."""
    return min(x1, x2), y1, max(x1, x2), y2
