"""What the shop's one-page papers have in common: a head, sections, rows, lists to tick."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from intake.paper.fonts import SUBSTITUTE
from intake.paper.pen import A4, BRASS, HAIR, INK, LETTER, SOFT, Pen

PAGES = {"a4": A4, "letter": LETTER}
EDGE, TOP, FOOT = 42.0, 46.0, 28.0
LABEL = 118.0  # points from a row's label to its value


class ShopPen(Pen):
    """A pen that says its own words in the paper's language."""

    words: Callable[[str], str] = staticmethod(str)

    @property
    def right(self) -> float:
        """The right edge of what is set."""
        return self.wide - EDGE

    @property
    def room(self) -> float:
        """How wide what is set may be."""
        return self.wide - 2 * EDGE


def head(pen: ShopPen, shop: str, title: str, under: Sequence[str], *, room: float = 0.0) -> float:
    """The shop, the paper's name, and who and what it is about; the first free baseline."""
    room = room or pen.room
    with pen.tags.leaf("P"):
        pen.say(EDGE, TOP - 12, shop, size=9, bold=True, colour=SOFT, room=room)
    with pen.tags.leaf("H1"):
        pen.say(EDGE, TOP + 10, pen.words(title), size=18, bold=True, room=room)
    y = TOP + 26
    for at, line in enumerate(filter(None, under)):
        with pen.tags.leaf("P"):
            pen.say(EDGE, y, line, size=11 if at == 0 else 9, bold=at == 0, room=room)
        y += 13
    pen.rule(EDGE, pen.right, y - 2, wide=1.4, colour=BRASS)
    return y + 16


def section(pen: ShopPen, title: str, y: float) -> float:
    """A heading over a line; the first baseline below it."""
    with pen.tags.leaf("H2"):
        pen.say(EDGE, y, pen.words(title), size=11, bold=True)
    pen.rule(EDGE, pen.right, y + 4, colour=INK, wide=0.6)
    return y + 18


def rows(pen: ShopPen, pairs: Iterable[tuple[str, str]], y: float, *, size: float = 10) -> float:
    """Label and value, line by line."""
    for label, value in pairs:
        with pen.tags.leaf("P"):
            pen.say(EDGE, y, pen.words(label), size=size - 1, colour=SOFT, after=" ")
            y = pen.flow(
                EDGE + LABEL, y, pen.words(value), pen.room - LABEL, size=size, leading=1.3
            )
        y += 2
    return y + 6


def ticked(
    pen: ShopPen, texts: Iterable[str], y: float, *, size: float = 10, boxes: bool = True
) -> float:
    """A list, each line with a box to tick or a dash before it."""
    with pen.tags.group("L"):
        for text in texts:
            if boxes:
                pen.box(EDGE, y, 0.82 * size)
            with pen.tags.group("LI"), pen.tags.leaf("LBody"):
                if not boxes:
                    pen.say(EDGE, y, "–", size=size, after=" ")
                indent = 16 if boxes else 10
                y = pen.flow(
                    EDGE + indent, y, pen.words(text), pen.room - indent, size=size, leading=1.28
                )
            y += 0.22 * size
    return y + 5


def to_write(pen: ShopPen, labels: Sequence[str], y: float) -> float:
    """Lines to be written on, side by side, each with what belongs there below it."""
    wide = (pen.room - 14 * (len(labels) - 1)) / len(labels)
    for at, label in enumerate(labels):
        x = EDGE + at * (wide + 14)
        pen.rule(x, x + wide, y, colour=INK, wide=0.7)
        with pen.tags.leaf("P"):
            pen.say(x, y + 9, pen.words(label), size=7.4, colour=SOFT, room=wide)
    return y + 26


def foot(pen: ShopPen, left: str, right: str = "") -> None:
    """The last line of the page; says so where a sign had to be replaced."""
    y = pen.high - FOOT
    pen.rule(EDGE, pen.right, y - 9, colour=HAIR)
    sign = f" {SUBSTITUTE}: a sign our type does not have." if pen.substituted else ""
    with pen.tags.artifact():
        pen.say(EDGE, y, pen.words(left), size=7.4, colour=SOFT)
        pen.say(pen.right, y, pen.words(right) + sign, size=7.4, colour=SOFT, align="right")
