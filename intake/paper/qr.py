"""A square code on a paper, drawn as filled squares so that it prints sharp."""

from __future__ import annotations

from intake.paper.field import Field
from intake.paper.pen import INK, MM
from intake.paper.square_code import dark_rows

_QUIET = 4  # modules of white all round (ISO/IEC 18004)


def draw_code(field: Field, text: str, x: float, y: float, side: float, *, alt: str) -> None:
    """The code of a text, ``side`` mm wide with its white edge; error correction M."""
    rows = dark_rows(text)
    module = side / (len(rows) + 2 * _QUIET)
    with field.figure(alt, x, y, x + side, y + side):
        canvas = field.pen.canvas
        canvas.setFillColor(INK)
        path = canvas.beginPath()
        for row, modules in enumerate(rows):
            for column, dark in enumerate(modules):
                if dark:
                    right, down = column + _QUIET, row + 1 + _QUIET
                    corner = field.at(x + right * module, y + down * module)
                    path.rect(*corner, module * MM, module * MM)
        canvas.drawPath(path, stroke=0, fill=1)
        field.pen.colour = None
