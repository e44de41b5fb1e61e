"""A square code of an address on a paper of the shop, with its quiet edge, as one path."""

from __future__ import annotations

from intake.paper.pen import INK, Pen
from intake.paper.square_code import dark_rows

_QUIET = 4  # modules of white all round (ISO/IEC 18004)


def draw_square(pen: Pen, address: str, x: float, y: float, side: float, *, alt: str) -> None:
    """The code from ``x``, ``y`` (points, from the top left), ``side`` points wide in all."""
    rows = dark_rows(address)
    module = side / (len(rows) + 2 * _QUIET)
    low = pen.high - y - side
    bbox = tuple(round(v, 2) for v in (x, low, x + side, low + side))
    with pen.tags.leaf("Figure", alt=pen.clean(alt), bbox=bbox):
        pen.canvas.setFillColor(INK)
        path = pen.canvas.beginPath()
        for row, modules in enumerate(rows, start=_QUIET + 1):
            for column, dark in enumerate(modules, start=_QUIET):
                if dark:
                    corner = (x + column * module, pen.high - y - row * module)
                    path.rect(*corner, module, module)
        pen.canvas.drawPath(path, stroke=0, fill=1)
        pen.colour = None
