"""The target: how big a flange is, on which circle its bolts stand, and how many there are.

Circles are flange outsides (continuous) and bolt circles (long-dashed dotted, as ISO 128 draws
them); two scales through the centre read any other circle by its diameter.
"""

from __future__ import annotations

from fractions import Fraction
from math import cos, radians, sin

from intake.paper.field import WIDE, Field
from intake.paper.pen import SOFT

INCH = 25.4
# Flange outsides that are met: name, diameter in mm. 5 in and 127 mm are one circle.
FLANGES = (
    ("3 1/2 in", 88.9), ("100 mm", 100.0), ("4 in", 101.6), ("102 mm", 102.0),
    ("4 1/2 in", 114.3), ("5 in = 127 mm", 127.0), ("5 3/4 in", 146.05), ("7 1/4 in", 184.15),
)  # fmt: skip
# Bolt circles that go with them, as far as the table of flanges gives them.
BOLT_CIRCLES = (
    ("78 mm", 78.0), ("3 1/4 in", 82.55), ("4 1/4 in", 107.95), ("4 3/4 in", 120.65),
    ("6 in", 152.4),
)  # fmt: skip
SPOKES = {3: (90, 210, 330), 4: (0, 90, 180, 270), 6: (30, 90, 150, 210, 270, 330)}
# Two hardly apart are drawn narrow, one of them dashed.
_TWINS = {101.6: "mark", 102.0: "dashed"}
CENTRE = (WIDE / 2, 141.0)
_LARGEST = 184.15 / 2
_NAMES_AT = 68  # degrees: where the names of flanges stand
_BOLTS_AT = 118
# Names of circles close to another: at another angle, and inside where that is free.
_ASIDE = {"100 mm": (50, -2.6), "102 mm": (45, 0.7), "78 mm": (130, -2.6)}


class Target:
    """The target round ``CENTRE``."""

    def __init__(self, field: Field) -> None:
        self.field = field

    def at(self, angle: float, radius: float) -> tuple[float, float]:
        """A point by its angle in degrees, anticlockwise from the right."""
        x, y = CENTRE
        turn = radians(angle)
        return x + radius * cos(turn), y - radius * sin(turn)

    def draw(self) -> None:
        """All of it."""
        _ = self.field.say
        alt = _(
            "Target of circles for flanges from 3 1/2 to 7 1/4 inches and 100, 102 and 127 mm, "
            "with bolt circles, spokes for 3, 4 and 6 bolts, and a scale of diameters in inches "
            "to the right and in millimetres to the left of the centre."
        )
        x, y = CENTRE
        box = (x - _LARGEST, y - _LARGEST, x + _LARGEST, y + _LARGEST)
        with self.field.figure(alt, *box):
            self._spokes()
            for _name, across in FLANGES:
                self.field.circle(*CENTRE, across / 2, _TWINS.get(across, "strong"))
            for _name, across in BOLT_CIRCLES:
                self.field.circle(*CENTRE, across / 2, "axis")
            self._scales()
            self._names()

    def _spokes(self) -> None:
        for angle in sorted({angle for angles in SPOKES.values() for angle in angles}):
            self.field.line(*self.at(angle, 6.0), *self.at(angle, _LARGEST), "axis")
            counts = [str(count) for count, angles in SPOKES.items() if angle in angles]
            x, y = self.at(angle - 4.5, 84.5)
            self.field.label(x, y + 0.8, " · ".join(counts), size=6.8, bold=True)
        for way in ((6, 0), (0, 6)):
            x, y = CENTRE
            self.field.line(x - way[0], y - way[1], x + way[0], y + way[1], "mark")

    def _scales(self) -> None:
        x, y = CENTRE
        for eighth in range(4, 59):
            radius = eighth * INCH / 16
            high = 2.6 if eighth % 8 == 0 else 1.9 if eighth % 4 == 0 else 1.1
            self.field.line(x + radius, y - high, x + radius, y, "mark")
            if eighth % 8 == 0:
                self.field.label(x + radius, y + 2.7, str(eighth // 8), size=6.5, bold=True,
                                 ground=True)  # fmt: skip
        for two in range(6, 93):
            high = 2.6 if two % 10 == 0 else 1.9 if two % 5 == 0 else 1.1
            self.field.line(x - two, y - high, x - two, y, "mark")
            if two % 10 == 0:
                self.field.label(x - two, y + 2.7, str(2 * two), size=6.5, bold=True,
                                 ground=True)  # fmt: skip
        self.field.label(x + 23.5, y + 6.2, self.field.say("inch across"), size=6.2, colour=SOFT)
        self.field.label(x - 23.5, y + 6.2, self.field.say("mm across"), size=6.2, colour=SOFT)

    def _names(self) -> None:
        """Along their circles, each turned to lie on its own; bolt circles on the other side."""
        for name, across in FLANGES:
            angle, lift = _ASIDE.get(name, (_NAMES_AT, 0.7))
            self._name(angle, across / 2 + lift, name, True)
        for name, across in BOLT_CIRCLES:
            angle, lift = _ASIDE.get(name, (_BOLTS_AT, 0.7))
            self._name(angle, across / 2 + lift, name, False)

    def _name(self, angle: float, radius: float, name: str, bold: bool) -> None:
        x, y = self.at(angle, radius)
        turn = round(angle - 90)
        self.field.label(x, y, name, size=6.2, bold=bold, turn=turn, ground=True)


def neighbour_share(count: int) -> Fraction | float:
    """Bolt circle over the distance from bolt to next bolt."""
    return 1 / sin(radians(180 / count))
