"""The paper a quote flows over: what is set on it, what stays together, where a page ends.

Without a pen nothing is drawn and everything is measured: the same words that are printed say how
much room they take, so the two never disagree.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from dataclasses import dataclass, replace
from math import inf
from typing import Any

from intake.paper.fonts import BOLD, REGULAR, printable, width, wrapped
from intake.paper.pen import HAIR, HEIGHT, INK, SOFT, WIDTH, Pen
from quotes.domain.facts import QuoteFacts
from quotes.paper.fractions import with_fractions
from quotes.paper.unset import IN_OTHER_LETTERS, is_lost, is_whole, true_words

LEFT, RIGHT = 42.5, WIDTH - 42.5
ROOM = RIGHT - LEFT
TOP, BOTTOM = 40.0, HEIGHT - 44.0  # below the running head, above the foot
SMALLEST = 5.8  # points: below this nobody reads
_PRESSED, _ROWS = 0.8, 70.0  # tighter than this room is dear; the least of a table on a page
_WORTH = 150.0  # points: with less room left, what is longer than a page begins on the next


@dataclass(slots=True)
class Paper:
    """``y`` counts downwards and is the lower edge of what stands so far; sizes in points.

    ``tight`` shrinks type and space alike, ``front`` does on the boat's own pages (0: as the rest);
    ``most_numbers`` is how many readings are printed.
    ``fits``: what is being set is known to end on this page.
    ``foot`` and ``running`` draw what ends a page and what heads the next.
    """

    facts: QuoteFacts
    words: Callable[[str], str] = str
    pen: Pen | None = None
    tight: float = 1.0
    front: float = 0.0
    most_numbers: int = 1000
    foot: Callable[[Paper], None] = lambda _paper: None
    running: Callable[[Paper], None] = lambda _paper: None
    y: float = TOP
    page: int = 1
    pages: int = 0
    bottom: float = BOTTOM
    headings: int = 0
    fits: bool = False
    stroke: Any = None

    # --- Where it goes ------------------------------------------------------------------

    def keep(self, block: Callable[[Paper], None]) -> None:
        """A block on this page if there is room for it, else on the next."""
        if self.fits:
            block(self)
            return
        high = self.height_of(block)
        longer = high > BOTTOM - TOP and self.bottom - self.y > _WORTH
        if self.y + high > self.bottom and self.y > TOP and not longer:
            self.turn()
        self.fits = self.y + high <= self.bottom
        if self.fits and self.pen is None:
            self.y += high  # nothing is drawn, and how high it is is known
        else:
            block(self)
        self.fits = False

    def keep_rows(self, block: Callable[[Paper], None]) -> None:
        """A table on one page; where room is dear, on two: its rows stay whole by themselves."""
        if self.tight >= _PRESSED:
            self.keep(block)
        else:
            self.need(_ROWS)
            block(self)

    def need(self, points: float) -> None:
        """Go to the next page where less room than this is left."""
        if self.y + points > self.bottom and self.y > TOP:
            self.turn()

    def height_of(self, block: Callable[[Paper], None]) -> float:
        """How much room a block takes."""
        trial = replace(self, pen=None, y=0.0, bottom=inf, fits=True)
        block(trial)
        return trial.y

    def turn(self) -> None:
        """End this page and begin the next below its running head."""
        self.foot(self)
        if self.pen:
            self.pen.next_page()
            self.stroke = None
        self.page += 1
        self.y = TOP
        self.running(self)

    def skip(self, points: float) -> None:
        self.y += points * self.tight

    def size(self, points: float) -> float:
        """A size of type as tight as the paper is set, never below what can be read."""
        return max(points * self.tight, min(points, SMALLEST))

    # --- Words --------------------------------------------------------------------------

    def line(
        self, tag: str, x: float, base: float, text: str, *, size: float = 8.6, bold: bool = False,
        align: str = "left", colour: Any = INK, room: float = 0.0, scope: str = "",
        own: bool = False,
    ) -> None:  # fmt: skip
        """One line at a baseline, set smaller where ``room`` is short. Takes no room of its own.

        ``own``: somebody's own words, printed as they were written.
        """
        if self.pen is None:
            return
        shown = self.shown(text, own=own)
        with _leaf(self.pen, tag, text, shown, scope):
            self.pen.say(
                x, base, shown or " ", size=size, bold=bold, align=align, colour=colour, room=room
            )

    def para(
        self, tag: str, x: float, base: float, text: str, room: float, *, size: float = 8.6,
        bold: bool = False, colour: Any = INK, leading: float = 1.28, most: int = 0,
        scope: str = "", own: bool = False,
    ) -> float:  # fmt: skip
        """Lines from a first baseline down; returns the baseline after the last.

        More than ``most`` lines are set smaller, and only then cut.
        """
        shown = self.shown(text, own=own)
        lines, size = _fitted(printable(shown), room, size, bold=bold, most=most)
        if not lines and tag in ("TD", "TH"):
            lines = (" ",)  # a cell that says nothing is still a cell
        if self.pen and lines:
            with _leaf(self.pen, tag, text, shown, scope):
                for at, line in enumerate(lines, start=1):
                    after = " " if at < len(lines) else ""
                    self.pen.say(x, base + (at - 1) * size * leading, line, size=size, bold=bold,
                                 colour=colour, after=after)  # fmt: skip
        return base + len(lines) * size * leading

    def shown(self, text: str, *, own: bool = False) -> str:
        """A text as it is set: fractions as signs, and a word for what would be empty squares."""
        lost = self.words(IN_OTHER_LETTERS)
        if not is_whole(text):
            text = ", ".join(lost if is_lost(part) else part for part in text.split(", "))
        return text if own else with_fractions(text)

    def heading(self, text: str, x: float = LEFT, right: float = RIGHT) -> None:
        """A section's heading over a hairline, with its bookmark."""
        base = self.y + 10.0
        said = self.words(text)
        self.bookmark(said, self.y)
        self.line("H2", x, base, said, size=10, bold=True, room=right - x)
        self.rule(x, right, base + 4, colour=INK, wide=0.6)
        self.y = base + 4

    def bookmark(self, said: str, y: float) -> None:
        """An entry of the outline that leads to this place."""
        self.headings += 1
        if self.pen:
            canvas, key = self.pen.canvas, f"s{self.headings}"
            canvas.bookmarkHorizontalAbsolute(key, HEIGHT - y + 4)
            canvas.addOutlineEntry(said, key, level=0, closed=0)

    # --- What is not read out, and what holds others ------------------------------------

    def group(self, tag: str) -> AbstractContextManager[Any]:
        return self.pen.tags.group(tag) if self.pen else nullcontext()

    def artifact(self) -> AbstractContextManager[Any]:
        return self.pen.tags.artifact() if self.pen else nullcontext()

    def rule(
        self, x1: float, x2: float, y: float, *, wide: float = 0.3, colour: Any = HAIR
    ) -> None:
        """A level rule; not read out."""
        if self.pen:
            with self.pen.tags.artifact():
                self._stroke(self.pen, colour, wide)
                self.pen.canvas.line(x1, HEIGHT - y, x2, HEIGHT - y)

    def box(self, x: float, base: float, side: float, *, ticked: bool = False) -> None:
        """A box to tick, standing on a baseline."""
        if self.pen is None:
            return
        with self.pen.tags.artifact():
            self._stroke(self.pen, INK, 0.7)
            self.pen.canvas.rect(x, HEIGHT - base - 0.8, side, side, stroke=1, fill=0)
            if ticked:
                self.pen.say(x + side * 0.1, base, "✓", size=side * 1.1, bold=True)

    def _stroke(self, pen: Pen, colour: Any, wide: float) -> None:
        """Set the line only where it changes: tables are ruled a hundred times alike."""
        if self.stroke != (colour, wide):
            pen.canvas.setStrokeColor(colour)
            pen.canvas.setLineWidth(wide)
            self.stroke = (colour, wide)

    def label(self, x: float, text: str, room: float = 0.0) -> float:
        """A small soft label over what it names; returns the first baseline below it."""
        base = self.y + 8
        self.line("P", x, base, self.words(text), size=7.4, colour=SOFT, room=room)
        return base + 11.5


@contextmanager
def _leaf(pen: Pen, tag: str, text: str, shown: str, scope: str) -> Iterator[None]:
    """Who listens hears the true words, however they are drawn."""
    actual = true_words(text) if "\N{FRACTION SLASH}" in shown or not is_whole(text) else ""
    with pen.tags.leaf(tag, scope=scope, actual=actual):
        yield


def _fitted(
    text: str, room: float, size: float, *, bold: bool, most: int
) -> tuple[tuple[str, ...], float]:
    font = BOLD if bold else REGULAR
    lines = wrapped(text, font, size, room)
    while most and len(lines) > most and size > SMALLEST:
        smaller = max(size - 0.4, SMALLEST)
        most, size = round(most * size / smaller), smaller
        lines = wrapped(text, font, size, room)
    if most and len(lines) > most:
        last = lines[most - 1]
        while last and width(f"{last}…", font, size) > room:
            last = last[:-1]
        lines = (*lines[: most - 1], f"{last}…")
    return lines, size
