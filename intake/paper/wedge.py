"""The gap wedge: a slope of 1 in 6 that is pushed into the gap until it touches both sides.

A sixteenth of an inch of gap is 3/8 in along the wedge, a millimetre is 6 mm. The straight edge is
a fold: the flap behind it stiffens the wedge.
"""

from __future__ import annotations

from fractions import Fraction

from intake.paper.field import Field
from intake.paper.pen import SOFT
from intake.paper.wrap_strip import mixed

INCH = 25.4
SLOPE = 6
LEAST, MOST = Fraction(1, 4), Fraction(5, 4)  # inches
LONG = float(MOST - LEAST) * INCH * SLOPE
LEAST_MM, MOST_MM = 7, 31
_THIN, _THICK = float(LEAST) * INCH, float(MOST) * INCH


def wedge(field: Field, x: float, y: float) -> float:
    """The wedge with its thin end at x, its fold at y; the flap above. Returns y below it."""
    _ = field.say
    alt = _(
        "Gap wedge, 1/4 inch high at one end and 1 1/4 inches at the other, with marks for every "
        "1/32 of an inch and every millimetre of gap, and a flap to fold behind it."
    )
    with field.figure(alt, x, y - _THICK, x + LONG, y + _THICK):
        ends = (x, y), (x + LONG, y)
        field.run([ends[0], (x, y + _THIN), (x + LONG, y + _THICK), ends[1]], "cut")
        field.run([ends[0], (x, y - _THIN), (x + LONG, y - _THICK), ends[1]], "cut")
        field.line(x, y, x + LONG, y, "fold")
        _inches(field, x, y)
        _millimetres(field, x, y)
        flap = _("flap: fold behind, glue")
        field.label(x + 0.62 * LONG, y - 9, flap, size=6.8, colour=SOFT)
    return y + _THICK


def along(gap: float) -> float:
    """Where on the wedge, from its thin end, it is as high as a gap in mm."""
    return (gap - _THIN) * SLOPE


def _inches(field: Field, x: float, y: float) -> None:
    for count in range(int(LEAST * 32), int(MOST * 32) + 1):
        size = Fraction(count, 32)
        high = float(size) * INCH
        at = x + along(high)
        long = 5.0 if size.denominator <= 8 else 3.6 if size.denominator == 16 else 2.2
        field.line(at, y + high - long, at, y + high, "strong" if long == 5.0 else "mark")
        if size.denominator <= 8 and LEAST < size < MOST:
            field.label(at, y + high - 5.6, mixed(size), size=6.5, bold=True)
    field.label(x + LONG - 3, y + _THICK - 9.5, field.say("inch"), size=6.2, anchor="end",
                colour=SOFT)  # fmt: skip


def _millimetres(field: Field, x: float, y: float) -> None:
    """Along the fold: the wedge is as high there as the number says."""
    for gap in range(LEAST_MM, MOST_MM + 1):
        at = x + along(gap)
        long = 3.4 if gap % 5 == 0 else 1.9
        field.line(at, y, at, y + long, "strong" if gap % 5 == 0 else "mark")
        if gap % 5 == 0:
            field.label(at, y + 6.0, str(gap), size=6.5, bold=True)
    field.label(x + LONG - 3, y + 6.0, "mm", size=6.2, anchor="end", colour=SOFT)
