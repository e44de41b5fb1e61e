"""Dimension lines after ISO 129-1, set out in rows so that no two texts meet."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from intake.domain.drawing_words import Words
from intake.domain.shapes import BOLD, Line, Polygon, Shape, Text, ellipse, text_width

ARROW, OUTSIDE, LETTER_BOX = 2.6, 3.6, 3.6  # paper mm
MARKS = ("measured", "computed", "assumed", "table", "desk")


@dataclass(frozen=True, slots=True)
class Dimension:
    """A length along the axis between two paper stations, with the radii it starts from."""

    slug: str
    x1: float
    x2: float
    text: str
    from1: float
    from2: float
    ends: tuple[str, str] = ("", "")
    mark: str = ""
    word: str = ""
    letter: str = ""

    @property
    def wide(self) -> float:
        """Paper mm the text and its letter take, at size 1."""
        return text_width(self.text, 1.0)


@dataclass(frozen=True, slots=True)
class Placed:
    """A dimension in its row, and where its text starts."""

    dimension: Dimension
    row: int
    text_x: float
    inside: bool


def place(
    dimensions: Sequence[Dimension], *, size: float, width: float
) -> tuple[tuple[Placed, ...], int]:
    """Give every dimension a row and its text a place; also the number of rows used.

    Shortest first, nearest the part; a text goes inside, else left, else right, else a row down.
    """
    edges = sorted({edge for d in dimensions for edge in (d.x1, d.x2)})
    taken: list[list[tuple[float, float]]] = []
    placed = []
    for dimension in sorted(dimensions, key=lambda d: (d.x2 - d.x1, d.x1)):
        placed.append(_first_free(dimension, taken, edges, size=size, width=width))
    return tuple(placed), len(taken)


def _first_free(
    dimension: Dimension,
    taken: list[list[tuple[float, float]]],
    edges: Sequence[float],
    *,
    size: float,
    width: float,
) -> Placed:
    for row in range(len(taken) + 1):
        if row == len(taken):
            taken.append([])
        for left, right, inside in _candidates(dimension, size):
            need = (min(left, dimension.x1), max(right, dimension.x2))
            crossed = not inside and any(left < edge < right for edge in edges)
            if need[0] < 0.6 or need[1] > width - 0.6 or (crossed and row < len(taken) - 1):
                continue
            if all(need[1] <= a + 0.01 or need[0] >= b - 0.01 for a, b in taken[row]):
                taken[row].append(need)
                return Placed(dimension, row, left, inside)
    taken[-1].append((dimension.x1, dimension.x2))
    wide = dimension.wide * size
    left = min(max((dimension.x1 + dimension.x2 - wide) / 2, 0.6), width - wide - 0.6)
    return Placed(dimension, len(taken) - 1, left, inside=True)


def _candidates(dimension: Dimension, size: float) -> Iterator[tuple[float, float, bool]]:
    wide = dimension.wide * size + (LETTER_BOX + 0.8 if dimension.mark else 0.0)
    span = dimension.x2 - dimension.x1
    if wide + 1.2 <= span:
        left = dimension.x1 + (span - wide) / 2
        yield left, left + wide, True
    yield dimension.x1 - OUTSIDE - wide, dimension.x1 - OUTSIDE, False
    yield dimension.x2 + OUTSIDE, dimension.x2 + OUTSIDE + wide, False


def draw(placed: Placed, *, axis: float, y: float, size: float) -> Iterator[Shape]:
    """One dimension: extension lines, line, arrow heads, text and its letter."""
    d = placed.dimension
    kind = "dashed" if d.mark == "assumed" else "dimension"
    shapes: list[Shape] = [
        Line(d.x1, axis + d.from1 + 0.9, d.x1, y + 1.2, "dimension"),
        Line(d.x2, axis + d.from2 + 0.9, d.x2, y + 1.2, "dimension"),
        *_line_and_arrows(placed, y, kind),
    ]
    right = placed.text_x + d.wide * size
    if d.mark:
        shapes.append(Text(right, y - 1.0, d.text, size, "end"))
        shapes += _letter(right + 0.7, y - 0.9, d.letter, size)
    else:
        shapes.append(Text((placed.text_x + right) / 2, y - 1.0, d.text, size))
    return (replace(shape, slug=d.slug) for shape in shapes)


def _line_and_arrows(placed: Placed, y: float, kind: str) -> Iterable[Shape]:
    d = placed.dimension
    if d.x2 - d.x1 > 2 * ARROW + 0.6:
        yield Line(d.x1, y, d.x2, y, kind)
        yield arrow(d.x1, y, 1)
        yield arrow(d.x2, y, -1)
        out1, out2 = d.x1, d.x2
    else:
        out1, out2 = d.x1 - OUTSIDE + 0.4, d.x2 + OUTSIDE - 0.4
        yield Line(out1, y, out2, y, kind)
        yield arrow(d.x1, y, -1)
        yield arrow(d.x2, y, 1)
    if not placed.inside and placed.text_x < d.x1:
        yield Line(placed.text_x, y, out1, y, kind)
    elif not placed.inside:
        yield Line(out2, y, placed.text_x + d.wide * 4.4, y, kind)


def arrow(x: float, y: float, way: int) -> Polygon:
    """A filled arrow head (15 degrees) whose tip is at x; ``way`` 1 has its body to the right."""
    back = x + way * ARROW
    return Polygon(((x, y), (back, y - ARROW * 0.15), (back, y + ARROW * 0.15)), "arrow")


def arrow_up(x: float, y: float, way: int) -> Polygon:
    """An arrow head standing upright; ``way`` 1 has its body below the tip."""
    back = y + way * ARROW
    return Polygon(((x, y), (x - ARROW * 0.15, back), (x + ARROW * 0.15, back)), "arrow")


def _letter(x: float, y: float, letter: str, size: float) -> list[Shape]:
    high = 0.84 * size
    box = ((x, y - high + 0.2), (x + LETTER_BOX, y - high + 0.2), (x + LETTER_BOX, y + 0.5),
           (x, y + 0.5))  # fmt: skip
    return [
        Polygon(box, "thin", "paper"),
        Text(x + LETTER_BOX / 2, y - 0.15, letter, 0.76 * size),
    ]


def draw_lit(d: Dimension, *, axis: float, y: float, size: float, width: float) -> Iterator[Shape]:
    """The dimension being asked: a tape between the two ends, a hook here and a thumb there."""
    shapes: list[Shape] = [
        *(Line(x, axis - r, x, axis + r, "lit") for x, r in ((d.x1, d.from1), (d.x2, d.from2))),
        Line(d.x1, axis + d.from1, d.x1, y - 1.6, "tape"),
        Line(d.x2, axis + d.from2, d.x2, y - 1.6, "tape"),
        *_tape(d.x1, d.x2, y),
        *_words(d, y + 6.6, size, width),
    ]
    return (replace(shape, slug=d.slug, part="ends") for shape in shapes)


def _tape(x1: float, x2: float, y: float) -> Iterator[Shape]:
    yield from tape(x1, x2, y)
    yield Polygon(ellipse(x2 + 1.75, y + 0.5, 1.75, 2.7), "lit", "paper")
    yield Polygon(ellipse(x2 + 1.35, y - 0.7, 0.8, 1.1), "tape", "")


def tape(x1: float, x2: float, y: float) -> Iterator[Shape]:
    """A tape's blade from its hook at ``x1`` to ``x2``, lit."""
    half = 1.5
    yield Polygon(((x1, y - half), (x2, y - half), (x2, y + half), (x1, y + half)), "tape", "")
    step = 1.6
    for mark in range(1, int((x2 - x1) / step) + 1):
        x = x1 + mark * step
        if x < x2 - 0.2:
            yield Line(x, y - half, x, y - half + (1.7 if mark % 4 == 0 else 0.9), "tape")
    yield Polygon(
        ((x1, y - 3.0), (x1, y + 1.9), (x1 - 1.0, y + 1.9), (x1 - 1.0, y - 3.0)), "lit", "paper"
    )


def _words(d: Dimension, y: float, size: float, width: float) -> Iterator[Shape]:
    """The two ends in words, set apart; and below them the name and number of the dimension."""
    first, second = d.ends
    wide1, wide2 = text_width(first, size) * BOLD, text_width(second, size) * BOLD
    middle, apart = (d.x1 + d.x2) / 2, 2.4
    # Longer words than the drawing is wide are set smaller, both alike.
    fits = min(1.0, (width - 1.6 - apart) / (wide1 + wide2)) if wide1 + wide2 else 1.0
    wide1, wide2, small = wide1 * fits, wide2 * fits, size * fits
    left = min(d.x1 - wide1 / 2, middle - apart / 2 - wide1)
    right = max(d.x2 - wide2 / 2, middle + apart / 2)
    right = min(right, width - 0.8 - wide2)
    left = max(min(left, right - apart - wide1), 0.8)
    yield Text(left, y, first, small, "start", "lit")
    yield Text(max(right, left + wide1 + apart), y, second, small, "start", "lit")
    named = d.text if d.text == d.word or not d.word else f"{d.word} {d.text}"
    half = text_width(named, size) / 2
    yield Text(min(max(middle, half + 0.8), width - half - 0.8), y + size + 1.6, named, size)


def key(marks: Collection[str], words: Words) -> str:
    """What the letters mean, only those in use."""
    return " · ".join(
        f"{words[f'letter.{mark}']} {words[f'mark.{mark}']}" for mark in MARKS if mark in marks
    )
