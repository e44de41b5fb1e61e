"""A field of 193.6 by 263 mm that both A4 and Letter hold, drawn on in true millimetres.

Gauges keep their scale on either page: the field is the same, only the paper round it differs.
x to the right and y downwards from the field's top left corner; sizes of type in points.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from reportlab.lib.colors import white

from intake.domain.shapes import BOLD as BOLDER
from intake.domain.shapes import Point, text_width
from intake.paper.fonts import BOLD, REGULAR, width
from intake.paper.pen import A4, BRASS, HAIR, INK, LETTER, MM, SOFT, Pen
from intake.paper.shapes import set_words

WIDE, HIGH = 193.6, 263.0  # mm: Letter is 279.4 high, A4 210 wide; 8 mm stay free all round
SIZES = {"a4": A4, "letter": LETTER}
Say = Callable[[str], str]

# Line kinds of ISO 128, line group 0.35: (width in mm, dashes in mm, colour). What is cut is a
# wide continuous line, what is folded a narrow long-dashed double-dotted one.
_KINDS: dict[str, tuple[float, tuple[float, ...], Any]] = {
    "cut": (0.35, (), INK),
    "fold": (0.18, (4.2, 0.54, 0.09, 0.54, 0.09, 0.54), INK),
    "mark": (0.18, (), INK),
    "strong": (0.35, (), INK),
    "axis": (0.18, (4.2, 0.54, 0.09, 0.54), INK),
    "dashed": (0.18, (2.16, 0.54), INK),
    "hair": (0.18, (), HAIR),
    "soft": (0.18, (), SOFT),
    "lit": (0.5, (), BRASS),
}


class Field:
    """One paper, a field a page. ``say`` turns our English into the reader's language."""

    def __init__(
        self, title: str, *, author: str, subject: str, size: str, say: Say, language: str
    ) -> None:
        page = SIZES[size]
        self.say = say
        self.pen = Pen(title, author, subject, page, language)
        self.left = (page[0] / MM - WIDE) / 2
        self.top = (page[1] / MM - HIGH) / 2
        self._kind = ""

    def at(self, x: float, y: float) -> Point:
        """A point of the field as the canvas has it, in points from the bottom left."""
        return (self.left + x) * MM, self.pen.high - (self.top + y) * MM

    def wide(self, text: str, size: float) -> float:
        """How wide a plain text runs, in mm."""
        return width(self.pen.clean(text), REGULAR, size) / MM

    # --- What is read out ---------------------------------------------------------------

    @contextmanager
    def figure(self, alt: str, x1: float, y1: float, x2: float, y2: float) -> Iterator[None]:
        """Line work with words for who cannot see it, inside the box given in mm."""
        (left, top), (right, bottom) = self.at(x1, y1), self.at(x2, y2)
        box = tuple(round(edge, 2) for edge in (left, bottom, right, top))
        with self.pen.tags.leaf("Figure", alt=self.pen.clean(alt), bbox=box):
            self._kind = ""
            yield
        self._kind = ""

    @contextmanager
    def decoration(self) -> Iterator[None]:
        """Line work that says nothing of its own."""
        with self.pen.tags.artifact():
            self._kind = ""
            yield
        self._kind = ""

    def words(
        self,
        x: float,
        y: float,
        text: str,
        room: float,
        *,
        tag: str = "P",
        size: float = 8.0,
        bold: bool = False,
        colour: Any = INK,
        most: int = 0,
    ) -> float:
        """A paragraph from a first baseline down, ``room`` mm wide; the next baseline, in mm."""
        with self.pen.tags.leaf(tag):
            below = self.pen.flow(
                (self.left + x) * MM,
                (self.top + y) * MM,
                text,
                room * MM,
                size=size,
                bold=bold,
                colour=colour,
                most=most,
            )
        return below / MM - self.top

    def steps(
        self, x: float, y: float, texts: Sequence[str], room: float, *, size: float = 8.0
    ) -> float:
        """A numbered list; the next baseline, in mm."""
        with self.pen.tags.group("L"):
            for number, text in enumerate(texts, start=1):
                with self.pen.tags.group("LI"):
                    with self.pen.tags.leaf("Lbl"):
                        corner = ((self.left + x) * MM, (self.top + y) * MM)
                        self.pen.say(*corner, f"{number}.", size=size, bold=True, after=" ")
                    y = self.words(x + 4.6, y, text, room - 4.6, tag="LBody", size=size) + 0.7
        return y

    # --- Line work, inside a figure or a decoration -------------------------------------

    def line(self, x1: float, y1: float, x2: float, y2: float, kind: str = "mark") -> None:
        """A straight line."""
        self._set(kind)
        self.pen.canvas.line(*self.at(x1, y1), *self.at(x2, y2))

    def circle(self, x: float, y: float, radius: float, kind: str = "mark") -> None:
        """A full circle."""
        self._set(kind)
        self.pen.canvas.circle(*self.at(x, y), radius * MM, stroke=1, fill=0)

    def run(
        self, points: Sequence[Point], kind: str = "mark", *, closed: bool = False, fill: Any = None
    ) -> None:
        """A run of points, open or closed; ``kind`` "" is a filled ground without an edge."""
        if kind:
            self._set(kind)
        path = self.pen.canvas.beginPath()
        path.moveTo(*self.at(*points[0]))
        for point in points[1:]:
            path.lineTo(*self.at(*point))
        if closed:
            path.close()
        if fill is not None:
            self.pen.canvas.setFillColor(fill)
            self.pen.colour = None
        self.pen.canvas.drawPath(path, stroke=int(bool(kind)), fill=int(fill is not None))

    def label(
        self,
        x: float,
        y: float,
        text: str,
        *,
        size: float = 6.5,
        anchor: str = "middle",
        bold: bool = False,
        turn: int = 0,
        colour: Any = INK,
        ground: bool = False,
    ) -> None:
        """Words at a baseline, fractions set as such; ``turn`` in degrees, anticlockwise.

        ``ground`` clears the paper under words in the middle of line work.
        """
        canvas = self.pen.canvas
        canvas.saveState()
        canvas.translate(*self.at(x, y))
        if turn:
            canvas.rotate(turn)
        if ground:
            half = text_width(text, size) * (BOLDER if bold else 1.0) / 2
            canvas.setFillColor(white)
            canvas.rect(-half, -0.12 * size, 2 * half, 0.95 * size, stroke=0, fill=1)
        canvas.setFillColor(colour)
        set_words(self.pen, 0, 0, text, BOLD if bold else REGULAR, size, anchor)
        canvas.restoreState()
        self.pen.colour = None

    def _set(self, kind: str) -> None:
        if kind == self._kind:
            return
        wide, dashes, colour = _KINDS[kind]
        self.pen.canvas.setLineWidth(wide * MM)
        self.pen.canvas.setDash([dash * MM for dash in dashes])
        self.pen.canvas.setStrokeColor(colour)
        self.pen.canvas.setLineCap(0)
        self._kind = kind

    def next_page(self) -> None:
        """Close this page and begin another."""
        self.pen.next_page()
        self._kind = ""
