"""Scenes of the usual mistakes with the long lengths: each drawn right, and wrong."""

from __future__ import annotations

from collections.abc import Iterator

from intake.domain.mistake_parts import (
    AXIS,
    WIDE,
    axis,
    bar,
    blade,
    box,
    cross,
    gear_flange,
    half_coupling,
    hook,
    hub,
    label,
    should,
    strut,
    thumb,
    tick,
    torn,
    turned,
)
from intake.domain.shapes import Line, Polygon, Shape, Text


def flange_back(good: bool) -> Iterator[Shape]:
    """Coupling off: the hook belongs on the machined face, not behind the flange."""
    face = 20.0
    yield from gear_flange(face)
    yield label(face - 12, 2.6, "gearbox")
    yield axis(face - 18)
    if good:
        yield from blade(face, WIDE, AXIS + 5, good)
        yield hook(face + 0.9, AXIS + 1.6, AXIS + 6.4, good)
        yield tick(face + 6, AXIS - 4)
    else:
        yield from blade(face - 4, WIDE, AXIS + 10.6, good)
        yield hook(face - 4, AXIS + 5, AXIS + 12, good)
        yield cross(face - 9, AXIS + 9.3)
    yield should(face, AXIS - 9, AXIS + 9, good)


def flange_aft_face(good: bool) -> Iterator[Shape]:
    """Coupling bolted up: the length counts from where the faces meet, not from behind the rim."""
    face = 18.0
    yield from bar(face, WIDE)
    yield from gear_flange(face)
    yield label(face - 10, 2.2, "gearbox")
    yield from half_coupling(face)
    yield torn(WIDE)
    start = face if good else face + 4
    yield from blade(start, WIDE, AXIS + 10.8, good)
    yield Line(start, AXIS + (9 if good else 6), start, AXIS + 12.2, "lit" if good else "outline")
    yield should(face, AXIS - 9, AXIS + 9, good)
    yield tick(face + 20, AXIS - 7) if good else cross(face + 8, AXIS + 7.6, 0.8)


def from_gearbox_back(good: bool) -> Iterator[Shape]:
    """The shaft passes through: the length counts from the front face, through the gearbox."""
    face, back = 16.0, 34.0
    yield from bar(2, WIDE, 3)
    yield box(4, AXIS - 5, face - 4, AXIS + 5)
    yield box(face - 4, AXIS - 8.5, face, AXIS + 8.5)
    yield box(face, AXIS - 8.5, face + 3, AXIS + 8.5)
    yield box(face + 3, AXIS - 7, back, AXIS + 7, "metal")
    yield label((face + 6 + back) / 2, 3.2, "gearbox")
    yield torn(WIDE, 3)
    start = face if good else back
    yield from blade(start, WIDE, AXIS + 10.8, good)
    yield Line(start, AXIS + 7, start, AXIS + 12.2, "lit" if good else "outline")
    yield should(face, AXIS - 8.5, AXIS + 8.5, good)
    yield tick(44, AXIS - 6) if good else cross(back + 3.6, AXIS + 6, 0.9)


def strut_front_end(good: bool) -> Iterator[Shape]:
    """The aft end of the strut is the end toward the propeller."""
    yield from bar(0, WIDE)
    yield torn(0)
    yield from strut(26, 44)
    yield from hub(50, WIDE)
    end = 44.0 if good else 26.0
    yield from blade(0, end, AXIS + 10.6, good)
    yield from thumb(end, AXIS + 10.6, good)
    yield should(44, AXIS - 8, AXIS + 9, good)
    if not good:
        yield Line(26, AXIS - 8, 26, AXIS + 9)
        yield cross(21.5, AXIS + 6.5)
    else:
        yield tick(13, AXIS + 6.6)


def rubber_not_metal(good: bool) -> Iterator[Shape]:
    """The bearing's rubber may stand out of the strut; the length ends at the metal."""
    yield from bar(0, WIDE)
    yield torn(0)
    yield from strut(14, 36, proud=4.5)
    yield from hub(50, WIDE)
    end = 36.0 if good else 40.5
    yield from blade(0, end, AXIS + 10.6, good)
    yield from thumb(end, AXIS + 10.6, good)
    yield should(36, AXIS - 8, AXIS + 9, good)
    if not good:
        yield Line(40.5, AXIS - 5.5, 40.5, AXIS + 9)
        yield cross(46, AXIS + 8)
    else:
        yield tick(7, AXIS + 6.6)


def level_not_along(good: bool) -> Iterator[Shape]:
    """The tape lies along the sloping shaft, not level along the floor."""
    slope, about = 13.0, (4.0, 5.5)
    parts = {
        "shaft": ((4, 4.3), (58, 4.3), (58, 6.7), (4, 6.7)),
        "flange": ((4, 2), (6, 2), (6, 9), (4, 9)),
        "strut": ((48, 3), (57, 3), (57, 8), (48, 8)),
    }
    for name, points in parts.items():
        fill = "metal" if name == "strut" else "paper"
        yield Polygon(turned(points, about, slope), "outline", fill)
    if good:
        yield Polygon(turned(((4, 10), (57, 10), (57, 12.5), (4, 12.5)), about, slope), "tape")
        for n in range(1, 26):
            x, long = 4 + 2 * n, 1.4 if n % 4 == 0 else 0.8
            (x1, y1), (x2, y2) = turned(((x, 10), (x, 10 + long)), about, slope)
            yield Line(x1, y1, x2, y2, "tape")
        yield tick(40, 6)
        return
    (start, _), (end, low) = turned(((4, 9), (57, 5.5)), about, slope)
    yield from blade(start, end, 22.5, good)
    yield Line(start, 10, start, 23.9, "dashed")
    yield Line(end, low, end, 23.9, "dashed")
    yield cross(26, 18)


def begun_on_one(good: bool) -> Iterator[Shape]:
    """From the 1 mark everything reads one too many."""
    face, inch, half = 20.0, 13.0, 3.4
    zero = face if good else face - inch
    kind = "tape" if good else "thin"
    yield box(face - 8, AXIS - 8.5, face, AXIS + 8.5, "metal")
    yield Polygon(((zero, AXIS - half), (WIDE, AXIS - half), (WIDE, AXIS + half),
                   (zero, AXIS + half)), kind, "" if good else "paper")  # fmt: skip
    for quarter in range(1, 17):
        x = zero + quarter * inch / 4
        if x < WIDE:
            long = 3.0 if quarter % 4 == 0 else 1.4
            yield Line(x, AXIS - half, x, AXIS - half + long, kind)
        if quarter % 4 == 0 and x < WIDE - 2:
            yield Text(x, AXIS + half - 0.4, str(quarter // 4), 3.6)
    yield hook(zero + (0.9 if good else 0), AXIS - half - 1.2, AXIS + half + 1.2, good)
    read = face + 2 * inch
    if good:
        yield should(face, AXIS - 8.5, AXIS + 8.5, good)
    yield Polygon(((read, AXIS + half + 0.6), (read - 1.6, AXIS + 7), (read + 1.6, AXIS + 7)),
                  "lit" if good else "arrow", "paper" if good else "")  # fmt: skip
    yield tick(read, AXIS - 6.5) if good else cross(read, AXIS - 6.5)


def old_from_bar_end(good: bool) -> Iterator[Shape]:
    """The old shaft's length begins at the coupling's face; the bar may end inside it."""
    face, end = 12.0, 19.0
    yield Polygon(((face + 5, AXIS - 6.5), (face + 17, AXIS - 6.5), (face + 17, AXIS + 6.5),
                   (face + 5, AXIS + 6.5)), "outline", "metal")  # fmt: skip
    yield box(face, AXIS - 9, face + 5, AXIS + 9, "metal")
    yield Polygon(((face, AXIS - 4), (end, AXIS - 4), (end, AXIS + 4), (face, AXIS + 4)),
                  "outline", "paper")  # fmt: skip
    yield from bar(end, WIDE)
    yield Line(end, AXIS - 4, end, AXIS + 4)
    yield torn(WIDE)
    start = face if good else end
    yield from blade(start, WIDE, AXIS + 10.8, good)
    yield Line(start, AXIS + (-9 if good else -4), start, AXIS + 12.2, "lit" if good else "outline")
    if not good:
        yield should(face, AXIS - 9, AXIS + 9, good)
    yield tick(6, AXIS) if good else cross(6, AXIS)
