"""A square code on a paper, drawn as filled squares so that it prints sharp."""

from __future__ import annotations

from typing import Any

from reportlab.graphics.barcode.qr import QrCodeWidget

from intake.paper.field import Field
from intake.paper.pen import INK, MM

_QUIET = 4  # modules of white all round (ISO/IEC 18004)


def draw_code(field: Field, text: str, x: float, y: float, side: float, *, alt: str) -> None:
    """The code of a text, ``side`` mm wide with its white edge; error correction M."""
    widget: Any = QrCodeWidget(text, barLevel="M")
    code = widget.qr
    code.make()
    count = code.getModuleCount()
    module = side / (count + 2 * _QUIET)
    with field.figure(alt, x, y, x + side, y + side):
        canvas = field.pen.canvas
        canvas.setFillColor(INK)
        path = canvas.beginPath()
        for row in range(count):
            for column in range(count):
                if code.isDark(row, column):
                    corner = field.at(
                        x + (column + _QUIET) * module, y + (row + 1 + _QUIET) * module
                    )
                    path.rect(*corner, module * MM, module * MM)
        canvas.drawPath(path, stroke=0, fill=1)
        field.pen.colour = None
