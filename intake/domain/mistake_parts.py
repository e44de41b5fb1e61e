"""What the pictures of mistakes are put together from: a tape right or wrong, and boat parts.

Every scene has 62 by 25 mm, its axis at y 12. Right is brass with a tick; wrong is ink with a
cross, and a dashed line shows where the end should have been.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import cos, radians, sin

from intake.domain.dimensions import arrow, arrow_up
from intake.domain.shapes import Line, Point, Polygon, Shape, Text, curve, ellipse, path, rectangle

WIDE, AXIS = 62.0, 12.0


def tick(x: float, y: float, size: float = 1.0) -> Polygon:
    """The mark of what is right."""
    points = ((x - 2.1 * size, y), (x - 0.5 * size, y + 1.7 * size), (x + 2.3 * size, y - 2 * size))
    return path(points, "lit")


def cross(x: float, y: float, size: float = 1.0) -> Polygon:
    """The mark of what is wrong: a filled cross."""
    reach, thick = 2.0 * size, 0.75 * size
    corner = (thick, 0.0), (reach, reach - thick), (reach - thick, reach), (0.0, thick)
    turns = ((1, 1), (-1, 1), (-1, -1), (1, -1))
    points = []
    for number, (sx, sy) in enumerate(turns):
        run = corner if number % 2 == 0 else corner[::-1]
        points += [(x + sx * px, y + sy * py) for px, py in run]
    return Polygon(tuple(points), "arrow")


def blade(x1: float, x2: float, y: float, good: bool, half: float = 1.4) -> Iterator[Shape]:
    """A tape's blade with its marks."""
    kind, fill = ("tape", "") if good else ("thin", "paper")
    yield Polygon(((x1, y - half), (x2, y - half), (x2, y + half), (x1, y + half)), kind, fill)
    marks = int((x2 - x1 - 0.4) / 2)
    for mark in range(1, marks + 1):
        x = x1 + 2 * mark
        yield Line(x, y - half, x, y - half + (1.5 if mark % 4 == 0 else 0.8), kind)


def hook(x: float, top: float, bottom: float, good: bool) -> Polygon:
    """The plate at a tape's end: it touches at ``x`` and stands to the left of it."""
    kind = "lit" if good else "outline"
    return rectangle(x - 0.9, top, x, bottom, kind, "paper")


def thumb(x: float, y: float, good: bool) -> Iterator[Shape]:
    """A thumb on the tape, its edge at ``x``."""
    kind, thin = ("lit", "tape") if good else ("outline", "thin")
    yield Polygon(ellipse(x + 1.6, y + 0.7, 1.6, 2.5), kind, "paper")
    yield Polygon(ellipse(x + 1.2, y - 0.4, 0.7, 1.0), thin, "paper")


def should(x: float, top: float, bottom: float, good: bool) -> Line:
    """The right end: lit where it was taken, dashed where it was missed."""
    return Line(x, top, x, bottom, "lit" if good else "dashed")


def span(x1: float, x2: float, y: float, good: bool, top: float = 0.0) -> Iterator[Shape]:
    """A level dimension with arrows, its extension lines from ``top`` down to it."""
    kind, thin = ("lit", "tape") if good else ("outline", "dimension")
    for x in (x1, x2):
        yield Line(x, top or y - 2, x, y + 1.3, thin)
    yield Line(x1, y, x2, y, kind)
    for x, way in ((x1, 1), (x2, -1)):
        yield replace(arrow(x, y, way), kind="lit" if good else "arrow")


def upright(x: float, y1: float, y2: float, good: bool) -> Iterator[Shape]:
    """A standing dimension with arrows."""
    yield Line(x, y1, x, y2, "lit" if good else "outline")
    for y, way in ((y1, 1), (y2, -1)):
        yield replace(arrow_up(x, y, way), kind="lit" if good else "arrow")


def box(x1: float, y1: float, x2: float, y2: float, fill: str = "paper") -> Polygon:
    """An outlined part."""
    return rectangle(x1, y1, x2, y2, "outline", fill)


def bar(x1: float, x2: float, half: float = 4.0, y: float = AXIS) -> Iterator[Shape]:
    """A stretch of the shaft."""
    yield rectangle(x1, y - half, x2, y + half, "word", "paper")
    for sign in (-1, 1):
        yield Line(x1, y + sign * half, x2, y + sign * half)


def torn(x: float, half: float = 4.0, y: float = AXIS) -> Polygon:
    """The break line of a bar that goes on."""
    return path(curve((x, y - half), (x - 1.4, y - half / 3), (x + 1.4, y + half / 3),
                      (x, y + half), 8))  # fmt: skip


def gear_flange(face: float) -> Iterator[Shape]:
    """The gearbox with its output flange, whose face is at ``face``."""
    yield box(face - 16, AXIS - 6.5, face - 8, AXIS + 6.5, "metal")
    yield box(face - 8, AXIS - 4, face - 4, AXIS + 4)
    yield box(face - 4, AXIS - 9, face, AXIS + 9)


def label(x: float, y: float, key: str) -> Text:
    """A word of the pictures by its key, in whatever language they are drawn."""
    return Text(x, y, f"={key}", 3.4)


def half_coupling(face: float) -> Iterator[Shape]:
    """The shaft's half of the coupling behind ``face``, its hub pointing aft."""
    yield box(face + 4, AXIS - 5.5, face + 13, AXIS + 5.5)
    yield box(face, AXIS - 9, face + 4, AXIS + 9)


def strut(x1: float, x2: float, proud: float = 0.0) -> Iterator[Shape]:
    """The strut's barrel with its leg above and its bearing inside, ``proud`` mm out of it."""
    left, right = x1 + 0.25 * (x2 - x1), x2 - 0.2 * (x2 - x1)
    top = curve((left - 2.4, 1.2), (left + 0.6, -0.6), (right - 5, 2.2), (right - 2.4, 0.4), 8)
    yield Polygon(((right, AXIS - 7), (left, AXIS - 7), *top), "word", "metal")
    yield path(((left, AXIS - 7), top[0]), "outline")
    yield path(((right, AXIS - 7), top[-1]), "outline")
    yield path(top)
    for sign in (-1, 1):
        a, b = sorted((AXIS + sign * 4.2, AXIS + sign * 5.3))
        yield rectangle(x1, a, x2 + proud, b, "outline", "dark")
        a, b = sorted((AXIS + sign * 5.3, AXIS + sign * 7.2))
        yield box(x1, a, x2, b, "metal")


def hub(x1: float, x2: float, blade_from: float = 0.25, blade_to: float = 0.8) -> Iterator[Shape]:
    """A propeller's hub with the root of a blade above it, given as shares of the hub."""
    long = x2 - x1
    yield from propeller_blade(x1 + blade_from * long, x1 + blade_to * long)
    yield Polygon(
        ((x1, AXIS - 6.4), (x2, AXIS - 5.4), (x2, AXIS + 5.4), (x1, AXIS + 6.4)), "outline", "paper"
    )


def propeller_blade(a: float, b: float, reach: float = 1.0) -> Iterator[Shape]:
    """The lower part of a blade from its root ``a`` to ``b``; its edge reaches beyond ``b``."""
    leading = curve((a, AXIS - 5.4), (a - 1.0, AXIS - 8), (a - 1.5, 3.4), (a + 0.4, 0.6), 8)
    far = b + reach
    tip = curve((a + 0.4, 0.6), (a + 3, -0.8), (far - 4, 2.4), (far, 0.4), 8)
    trailing = curve((far, 0.4), (far + 1.8, 3.6), (b + 1.4, AXIS - 7.4), (b, AXIS - 5.0), 8)
    yield Polygon((*leading, *tip[1:], *trailing[1:]), "word", "metal")
    yield path(leading, "outline")
    yield path(tip)
    yield path(trailing, "outline")


def nut(x1: float, x2: float, half: float = 4.4) -> Iterator[Shape]:
    """A nut seen on its corners."""
    yield box(x1, AXIS - half, x2, AXIS + half)
    for sign in (-1, 1):
        yield Line(x1, AXIS + sign * half / 2, x2, AXIS + sign * half / 2, "thin")


def thread(x1: float, x2: float) -> Iterator[Shape]:
    """The threaded end of the shaft."""
    yield box(x1, AXIS - 2.5, x2, AXIS + 2.5)
    count = int((x2 - x1) / 1.1)
    yield from (Line(x1 + 1.1 * n, AXIS - 2.5, x1 + 1.1 * n - 0.6, AXIS + 2.5, "thin")
                for n in range(1, count + 1))  # fmt: skip


def nose(x1: float, x2: float) -> Iterator[Shape]:
    """The smaller plain nose with its hole."""
    yield box(x1, AXIS - 1.8, x2, AXIS + 1.8)
    yield Polygon(ellipse((x1 + x2) / 2, AXIS, 0.8, 0.8, 12), "thin", "paper")


def axis(x1: float = 0.0, x2: float = WIDE) -> Line:
    """The shaft's axis."""
    return Line(x1, AXIS, x2, AXIS, "axis")


def push(x1: float, x2: float, y: float) -> Iterator[Shape]:
    """A bold arrow along the axis, from ``x1`` to its tip at ``x2``."""
    way = 1 if x2 > x1 else -1
    yield Line(x1, y, x2 - way * 2, y, "outline")
    yield Polygon(((x2, y), (x2 - way * 3.2, y - 1.5), (x2 - way * 3.2, y + 1.5)), "arrow")


def disc(x: float, y: float, r: float, fill: str = "paper", kind: str = "outline") -> Polygon:
    """A round thing seen from its end."""
    return Polygon(ellipse(x, y, r, r, 36), kind, fill)


def turned(points: Iterable[Point], about: Point, degrees: float) -> tuple[Point, ...]:
    """Points turned about one of them; positive turns the right end down."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    x0, y0 = about
    return tuple(
        (x0 + (x - x0) * c - (y - y0) * s, y0 + (x - x0) * s + (y - y0) * c) for x, y in points
    )


def moved(shape: Shape, dx: float, dy: float) -> Shape:
    """The same shape elsewhere."""
    if isinstance(shape, Line):
        return replace(shape, x1=shape.x1 + dx, x2=shape.x2 + dx, y1=shape.y1 + dy,
                       y2=shape.y2 + dy)  # fmt: skip
    if isinstance(shape, Text):
        return replace(shape, x=shape.x + dx, y=shape.y + dy)
    return replace(shape, points=tuple((x + dx, y + dy) for x, y in shape.points))
