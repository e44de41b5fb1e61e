"""The wrap strip: laid round a shaft it reads the diameter straight off, in inches and mm.

Every mark stands at pi times its diameter from the scale's own 0. The line that is read at stands
a little before that 0: paper lies round the shaft with its middle, so a strip of thickness t
measures pi (d + t). What t is taken for is printed on it.

In the strip's own frame s runs along the scale and up is across it; on the page s runs down and up
is to the right, so the strip is read with the page turned a quarter to the left.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import pi

from intake.domain.shapes import Point
from intake.paper.field import Field
from intake.paper.pen import BRASS, SOFT

INCH = 25.4
PAPER = 0.10  # mm: office paper of 80 g/m² (20 lb); common practice, no source
LEAST_INCH, MOST_INCH = Fraction(1, 2), Fraction(3)
LEAST_MM, MOST_MM = 12, 76
LEAD = 4.5  # mm of paper before the line that is read at; more would lift the strip over it
HALF, WING = 9.0, 16.0  # mm: half the width of the scale, and of the head with its two wings
RING = 5.6  # mm from the middle: where a pin goes through, among the marks
HEAD_END = 30.0  # mm of scale the wings run along
LENGTH = 244.0  # mm, from the scale's 0 to the end of the strip
_INCH_MARKS = ((8, 5.4), (16, 4.2), (32, 3.2), (64, 2.2))
_NUMBER = 6.6  # points


class Strip:
    """The strip with its scale's 0 at (middle, zero) of the field."""

    def __init__(self, field: Field, middle: float, zero: float) -> None:
        self.field, self.middle, self.zero = field, middle, zero

    def at(self, s: float, up: float) -> Point:
        """A point of the strip on the field."""
        return self.middle + up, self.zero + s

    def draw(self) -> None:
        """All of it."""
        _ = self.field.say
        alt = _(
            "Wrap strip with two scales, 1/2 to 3 inches and 12 to 76 millimetres of diameter, "
            "and a head with two wings that carry the line to read at."
        )
        left, top = self.at(-LEAD - 0.4, -WING)
        right, bottom = self.at(LENGTH, WING)
        with self.field.figure(alt, left, top, right, bottom):
            self._outline()
            self._read_line()
            self._inches()
            self._millimetres()
            self._words()

    def _outline(self) -> None:
        start = -LEAD - pi * PAPER
        corners = [(start, -WING), (HEAD_END, -WING), (HEAD_END + 7, -HALF), (LENGTH, -HALF),
                   (LENGTH, HALF), (HEAD_END + 7, HALF), (HEAD_END, WING),
                   (start, WING)]  # fmt: skip
        self.field.run([self.at(*corner) for corner in corners], "cut", closed=True)

    def _read_line(self) -> None:
        """The line to read at, on both wings; rings on it show whether a prick went true."""
        s = -pi * PAPER
        for side in (-1, 1):
            self.field.line(*self.at(s, side * HALF), *self.at(s, side * WING), "strong")
            tip = (s, side * (HALF + 0.4))
            wings = [(s - 1.7, side * (HALF + 4)), (s + 1.7, side * (HALF + 4))]
            self.field.run([self.at(*p) for p in (tip, *wings)], "", closed=True, fill=BRASS)
            x, y = self.at(s, side * RING)
            self.field.circle(x, y, 0.9)
            self.field.line(*self.at(s, side * (RING - 1.6)), *self.at(s, side * (RING + 1.6)))
            self.field.line(*self.at(s - 1.6, side * RING), *self.at(s + 1.6, side * RING))
            self.field.line(*self.at(0, side * (HALF - 1.6)), *self.at(0, side * HALF))
        x, y = self.at(0.0, -0.8)
        self.field.label(x, y, "0", turn=-90, size=6.2, bold=True)

    def _inches(self) -> None:
        for size, long in inch_marks():
            s = pi * float(size) * INCH
            kind = "strong" if long == _INCH_MARKS[0][1] else "mark"
            self.field.line(*self.at(s, HALF - long), *self.at(s, HALF), kind)
            if size.denominator <= 8:
                x, y = self.at(s, HALF - 8.1)
                self.field.label(x, y, mixed(size), turn=-90, size=_NUMBER,
                                 bold=size.denominator == 1)  # fmt: skip

    def _millimetres(self) -> None:
        for half in range(2 * LEAST_MM, 2 * MOST_MM + 1):
            s = pi * half / 2
            long = 5.4 if half % 10 == 0 else 3.6 if half % 2 == 0 else 2.2
            kind = "strong" if half % 10 == 0 else "mark"
            self.field.line(*self.at(s, -HALF), *self.at(s, long - HALF), kind)
            if half % 10 == 0:
                x, y = self.at(s, 5.9 - HALF)
                self.field.label(x, y, str(half // 2), turn=-90, size=_NUMBER, bold=True)

    def _words(self) -> None:
        _ = self.field.say
        for s, up, text, anchor in (
            (36, HALF - 5.6, _("inch"), "end"),
            (35, 3.2 - HALF, "mm", "end"),
            (4.2, 0.4, _("print outside"), "start"),
            (4.2, -2.4, _("shaft diameter"), "start"),
        ):
            x, y = self.at(s, up)
            self.field.label(x, y, text, turn=-90, size=6.2, anchor=anchor, colour=SOFT)
        for up in (HALF + 1.6, -HALF - 3.4):
            x, y = self.at(2.6, up)
            self.field.label(x, y, _("read at this line"), turn=-90, size=6.2, anchor="start")


def inch_marks() -> Iterator[tuple[Fraction, float]]:
    """Every 1/64 in with the length of its mark."""
    for count in range(int(LEAST_INCH * 64), int(MOST_INCH * 64) + 1):
        size = Fraction(count, 64)
        yield size, next(long for parts, long in _INCH_MARKS if size.denominator <= parts)


def mixed(size: Fraction) -> str:
    """A size as it is written: 1 1/8."""
    whole, rest = divmod(size, 1)
    return " ".join(filter(None, (str(whole) if whole else "", str(rest) if rest else "")))


def wound(field: Field, x: float, y: float) -> None:
    """How the strip lies round a 1 in shaft, seen square to it; about 100 by 62 mm at (x, y)."""
    _ = field.say
    middle, top, low = x + 40, y + 24, y + 24 + INCH
    alt = _(
        "Picture: the strip wound once round a shaft. The head's two wings look out at the left "
        "and right of the strip, its free end is pulled upward, and the scale is read where the "
        "lines on the wings meet it."
    )
    line = top + 0.7 * INCH
    with field.figure(alt, x, y, x + 110, y + 62):
        for edge in (top, low):
            field.line(x, edge, middle - HALF, edge, "strong")
            field.line(middle + HALF, edge, x + 80, edge, "strong")
        for side in (-1, 1):
            wing = [(HALF, line + LEAD), (WING, line + LEAD), (WING, top)]
            field.run([(middle + side * up, down) for up, down in wing], "strong")
            field.line(middle + side * HALF, line, middle + side * WING, line, "lit")
            field.line(middle + side * HALF, y + 3, middle + side * HALF, low, "strong")
        field.line(x - 4, (top + low) / 2, middle - HALF, (top + low) / 2, "axis")
        field.line(middle + HALF, (top + low) / 2, x + 84, (top + low) / 2, "axis")
        field.run([(middle - HALF, y + 3), (middle - 3, y + 1.5), (middle + 3, y + 4),
                   (middle + HALF, y + 2.5)], "mark")  # fmt: skip
        for half in range(48, 56):
            down = line + (INCH - half / 2) * pi
            long = 5.4 if half == 50 else 2.2 if half % 2 else 3.6
            field.line(middle + HALF - long, down, middle + HALF, down)
        for size, long in inch_marks():
            down = line + float(1 - size) * INCH * pi
            if top < down < low - 0.5:
                field.line(middle - HALF, down, middle - HALF + long, down)
        field.label(middle - HALF + 8.2, line, "1", size=7.5, bold=True, turn=90)
        field.label(middle + HALF - 5.8, line + 0.4 * pi, "25", size=7.5, bold=True, turn=90)
        field.run([(middle, y + 14), (middle, y + 7)], "strong")
        field.run([(middle, y + 5), (middle - 1, y + 8), (middle + 1, y + 8)], "", closed=True,
                  fill=BRASS)  # fmt: skip
        field.label(middle, y + 18, _("pull"), size=7)
        field.label(middle - WING - 2, line + 0.8, _("read here: 1 in"), size=7, anchor="end",
                    bold=True)  # fmt: skip
        field.label(middle + WING + 2, low - 2.6, _("hold a wing"), size=7, anchor="start")
