"""Sketches of the bearing in its strut: the line round the shell, and two that pass for one."""

from __future__ import annotations

from intake.domain.shapes import Drawing, Line, Polygon, ellipse
from intake.domain.sketches.parts import WIDTH, along, bar, box, disc, leader, walls, word


def bearing_face() -> Drawing:
    """The strut's aft face: strut, shell, rubber, shaft; the line round the shell is lit."""
    x, y = 36.0, 30.0
    shapes = [
        Polygon(((30, 0.5), (42, 0.5), (46, y), (26, y)), "outline", "metal"),
        disc(x, y, 26, "metal"),
        disc(x, y, 18, "paper", "lit"),
        disc(x, y, 14.5, "dark"),
        Polygon(ellipse(x, y, 10.5, 10.5, 9), "thin", "paper"),
        disc(x, y, 9.2, "paper"),
        *along(x - 18, x + 18, 61, "across the line", (y, y)),
        *leader(73, 8.5, x + 17.5, 14.5),
        word(74, 10, "strut", "start"),
        *leader(73, 20.5, x + 17, 24),
        word(74, 22, "the line", "start", "lit"),
        *leader(73, 32.5, x + 16.2, 31),
        word(74, 34, "shell", "start"),
        *leader(73, 44.5, x + 11.6, 35),
        word(74, 46, "rubber", "start"),
        word(x, y + 1.5, "shaft"),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 68.5, "The aft face of the strut",
        "Rings from outside to inside: the strut's metal, a fine line, the bearing's shell, its "
        "rubber, the shaft. The shell is measured across, from the fine line on one side to the "
        "line on the other.",
    )  # fmt: skip


def two_bearings() -> Drawing:
    """A strut cut open: two short bearings end to end, and the seam between them."""
    x1, mid, x2, y = 24.0, 54.0, 84.0, 24.0
    shapes = [
        *bar(6, 102, y, 6),
        *walls(x1, x2, y, 9.5, 14),
        *(box(a, y + top, b, y + top + 3.5, "dark") for a, b in ((x1, mid - 0.5), (mid + 0.5, x2))
          for top in (-9.5, 6)),
        *(Line(mid, y + s * 6, mid, y + s * 9.5, "lit") for s in (-1, 1)),
        *leader(66, 5.5, mid, y - 9),
        word(66, 5, "seam", "start"),
        *along(x1, mid, 43, "one", (y + 14, y + 14)),
        *along(mid, x2, 43, "two", (y + 14, y + 14)),
        *along(x1, x2, 54, "strut's barrel", (y + 14, y + 14), "dimension"),
    ]  # fmt: skip
    return Drawing(
        tuple(shapes), WIDTH, 61, "Two short bearings in one strut",
        "A strut cut open along the shaft. Two bearings of half its length sit end to end; only a "
        "seam in the middle shows that there are two.",
    )  # fmt: skip
