"""The drawing's shapes stroked on a pen: ISO 128 line kinds at their widths."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.lib.colors import Color, HexColor

from intake.domain.shapes import Drawing, Line, Point, Polygon, Shape, Text, runs
from intake.paper.fonts import BOLD, REGULAR, width
from intake.paper.pen import BRASS, INK, MM, SOFT, Pen

# kind: (line width in mm, dashes in mm, colour)
_LINES: dict[str, tuple[float, tuple[float, ...], Any]] = {
    "outline": (0.5, (), INK),
    "thin": (0.25, (), INK),
    "axis": (0.25, (6, 0.9, 0.6, 0.9), INK),
    "hatch": (0.18, (), SOFT),
    "dashed": (0.25, (2, 0.8), INK),
    "dimension": (0.25, (), INK),
    "lit": (0.9, (), BRASS),
    "tape": (0.25, (), BRASS),
}
_FILLS: dict[str, Any] = {
    "paper": HexColor("#ffffff"),
    "metal": HexColor("#ece6da"),
    "water": HexColor("#dcecf1"),
    "dark": SOFT,
    "fog-1": Color(0.63, 0.44, 0.07, alpha=0.42),
    "fog-2": Color(0.63, 0.44, 0.07, alpha=0.2),
    "band": HexColor("#e0f0e2"),
}
# Whether it has an edge, whether it is filled: the operator (ISO 32000, by the even-odd rule).
_PAINT = {(True, True): "B*", (True, False): "S", (False, True): "f*", (False, False): "n"}
_BARE = ("water", "fog-1", "fog-2", "band")  # grounds without an edge


def draw(pen: Pen, drawing: Drawing, x: float, y: float, wide: float) -> float:
    """The drawing with its top left at (x, y), as wide as asked; returns how high it came out."""
    scale = wide / drawing.width_mm
    high = drawing.height_mm * scale
    bbox = (x, pen.high - y - high, x + wide, pen.high - y)
    alt = f"{drawing.title}. {drawing.description}"
    with pen.tags.leaf("Figure", alt=pen.clean(alt), bbox=tuple(round(v, 2) for v in bbox)):
        pen.canvas.saveState()
        pen.canvas.transform(scale, 0, 0, scale, x, pen.high - y)
        pen.canvas.setLineCap(1)
        pen.canvas.setLineJoin(1)
        kind = ""
        for shape in drawing.shapes:
            if shape.part == "plain":
                kind = _shape(pen, shape, scale / MM, kind)
        pen.canvas.restoreState()
        pen.colour = None
    return high


def _shape(pen: Pen, shape: Shape, shrink: float, before: str) -> str:
    """Coordinates in mm, y turned round; the pen is set anew only for another kind of line.

    Returns the kind the pen is set for.
    """
    if isinstance(shape, Text):
        _text(pen, shape)
        return before
    if shape.kind in _LINES and shape.kind != before:
        _set_pen(pen, shape.kind, shrink)
        before = shape.kind
    if isinstance(shape, Line):
        _write(pen, [(shape.x1, shape.y1), (shape.x2, shape.y2)], "S")
    else:
        _polygon(pen, shape, shape.kind in _LINES)
    return before


def _set_pen(pen: Pen, kind: str, shrink: float) -> None:
    """A smaller drawing keeps its line widths on paper, down to a fair share."""
    wide, dashes, colour = _LINES[kind]
    pen.canvas.setLineWidth(wide / max(shrink, 1.0))
    pen.canvas.setDash(list(dashes) or [])
    pen.canvas.setStrokeColor(colour)


def _polygon(pen: Pen, shape: Polygon, stroke: bool) -> None:
    fill = INK if shape.kind == "arrow" else _FILLS.get(shape.fill)
    if fill is not None:
        pen.canvas.setFillColor(fill)
    edge = stroke and shape.fill not in _BARE
    _write(pen, shape.points, _PAINT[edge, fill is not None], closed=shape.closed)


def _write(pen: Pen, points: Sequence[Point], paint: str, *, closed: bool = False) -> None:
    """A run of points, straight into the page's stream.

    ReportLab's own way of writing numbers, without its C part, is a quarter of a paper's time.
    """
    steps = [f"{x:.3f} {-y:.3f} {'l' if at else 'm'}" for at, (x, y) in enumerate(points)]
    pen.canvas._code.append(f"n {' '.join(steps)}{' h' if closed else ''} {paint}")


def _text(pen: Pen, shape: Text) -> None:
    """Words at a baseline; a fraction is set as one: raised figures, a slash, small figures."""
    font = BOLD if shape.kind == "lit" else REGULAR
    pen.canvas.setFillColor(BRASS if shape.kind == "lit" else INK)
    set_words(pen, shape.x, -shape.y, shape.text, font, shape.size, shape.anchor)


def set_words(
    pen: Pen, x: float, y: float, words: str, font: str, size: float, anchor: str = "start"
) -> None:
    """Words at a point of the canvas as it stands; a fraction is set as one."""
    pieces = []
    for piece, role in runs(words):
        text = pen.clean(piece) if piece.strip() else piece
        lead = " " if piece[:1] == " " and piece.strip() else ""
        tail = " " if piece[-1:] == " " and piece.strip() else ""
        pieces += _set(f"{lead}{text}{tail}", role, size)
    total = sum(width(text, font, small) for text, small, _rise in pieces)
    x -= {"start": 0.0, "middle": total / 2, "end": total}[anchor]
    for text, small, rise in pieces:
        pen.canvas.setFont(font, small)
        pen.draw_text(x, y + rise, text)
        x += width(text, font, small)


def _set(text: str, role: str, size: float) -> list[tuple[str, float, float]]:
    """(text, size, rise) of one run."""
    if role == "over":
        return [(text, 0.66 * size, 0.33 * size)]
    if role == "under":
        return [("⁄", size, 0.0), (text, 0.66 * size, 0.0)]
    return [(text, size, 0.0)]
