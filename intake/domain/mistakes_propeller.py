"""Scenes of the usual mistakes around strut and propeller: each drawn right, and wrong."""

from __future__ import annotations

from collections.abc import Iterator

from intake.domain.mistake_parts import (
    AXIS,
    WIDE,
    bar,
    blade,
    box,
    cross,
    half_coupling,
    hub,
    nose,
    nut,
    propeller_blade,
    push,
    should,
    span,
    strut,
    thread,
    thumb,
    tick,
    torn,
)
from intake.domain.shapes import Line, Polygon, Shape


def gap_to_blade(good: bool) -> Iterator[Shape]:
    """The gap ends at the hub's front face; the blade's root stands behind it."""
    yield from bar(0, 60)
    yield torn(0)
    yield from strut(4, 24)
    yield from hub(34, WIDE, 0.36, 0.85)
    yield should(34, AXIS - 6.4, AXIS + 6.4, good)
    if good:
        yield from span(24, 34, AXIS + 9.5, good, AXIS + 7)
        yield tick(40.5, AXIS + 9.5)
    else:
        yield from span(24, 43.4, AXIS - 9, good, AXIS - 6)
        yield cross(43.6, AXIS - 4)


def gap_to_rubber(good: bool) -> Iterator[Shape]:
    """The gap begins at the strut's metal, not at the rubber that stands out of it."""
    yield from bar(0, 60)
    yield torn(0)
    yield from strut(4, 24, proud=4.0)
    yield from hub(38, WIDE)
    start = 24.0 if good else 28.0
    yield should(24, AXIS - 8, AXIS + 8, good)
    yield from span(start, 38, AXIS + 9.5, good, AXIS + (7 if good else 5))
    yield tick(44, AXIS + 9.5) if good else cross(26, AXIS + 9.6, 0.8)


def shaft_slid_aft(good: bool) -> Iterator[Shape]:
    """Faces together and the shaft pushed forward; else the gap reads too wide."""
    face = 7.0
    slid = 0.0 if good else 5.0
    yield from bar(face + slid, 58 + slid / 2, 3)
    yield box(0, AXIS - 6.5, 3, AXIS + 6.5, "metal")
    yield box(3, AXIS - 8, face, AXIS + 8)
    yield box(face + slid + 3, AXIS - 5, face + slid + 9, AXIS + 5)
    yield box(face + slid, AXIS - 8, face + slid + 3.5, AXIS + 8)
    yield from strut(27, 40)
    front = 45.0 + slid
    yield from hub(front, WIDE)
    yield from span(40, front, AXIS + 9.5, good, AXIS + 7)
    if good:
        yield from push(35, 20, AXIS + 10.4)
        yield tick(54, AXIS + 9.6)
    else:
        yield Line(face, AXIS - 8, face, AXIS + 8, "dashed")
        yield cross(face + slid / 2, AXIS + 10.6, 0.9)
        yield from push(21, 35, AXIS + 10.4)


def propeller_pushed_on(good: bool) -> Iterator[Shape]:
    """Pulled home on its taper by the nut; only pushed on, it stands too far aft."""
    slid = 0.0 if good else 6.0
    yield from bar(0, 34)
    yield torn(0)
    yield from strut(3, 20)
    for sign in (-1, 1):
        yield Line(34, AXIS + sign * 4, 50, AXIS + sign * 2.5)
    yield from thread(50, 58)
    yield from hub(28 + slid, 48 + slid)
    for sign in (-1, 1):
        yield Line(28 + slid, AXIS + sign * 4, 34, AXIS + sign * 4, "dashed")
        yield Line(34, AXIS + sign * 4, 48 + slid, AXIS + sign * 2.6, "dashed")
    if good:
        yield from nut(48, 54)
    yield from span(20, 28 + slid, AXIS + 9.5, good, AXIS + 7)
    yield tick(58, AXIS - 6) if good else cross(58.5, AXIS - 6)


def nut_counted(good: bool) -> Iterator[Shape]:
    """The hub alone: nut and cap do not count."""
    yield from _propeller_end()
    yield should(36, AXIS - 6, AXIS + 7, good)
    yield from span(12, 36 if good else 48, AXIS + 9.5, good, AXIS + 6)
    yield tick(42, AXIS + 9.5) if good else cross(53, AXIS + 8)


def blade_edge(good: bool) -> Iterator[Shape]:
    """The hub alone: the edge of a blade may reach beyond it."""
    yield from bar(0, 12)
    yield torn(0)
    yield from propeller_blade(17, 33, 12)
    yield Polygon(((12, AXIS - 6), (36, AXIS - 5.2), (36, AXIS + 5.2), (12, AXIS + 6)),
                  "outline", "paper")  # fmt: skip
    yield from nut(36, 42)
    yield should(36, AXIS - 6, AXIS + 7, good)
    if good:
        yield from span(12, 36, AXIS + 9.5, good, AXIS + 6)
        yield tick(42, AXIS + 9.5)
        return
    yield Line(46.2, 2, 46.2, AXIS + 9, "dimension")
    yield from span(12, 46.2, AXIS + 9.5, good, AXIS + 6)
    yield cross(51, AXIS + 8)


def _propeller_end() -> Iterator[Shape]:
    yield from bar(0, 12)
    yield torn(0)
    yield from thread(36, 52)
    yield from hub(12, 36)
    yield from nut(36, 42.5)
    yield from nut(42.5, 48, 4.2)
    yield from nose(52, 57)


def tail_to_nose(good: bool) -> Iterator[Shape]:
    """The tail ends where the thread ends; the nose does not count."""
    yield from bar(0, 22)
    yield torn(0)
    yield from thread(40, 50)
    yield from nose(50, 58)
    yield from strut(1, 14)
    yield from hub(19, 38)
    yield from nut(38, 44)
    end = 50.0 if good else 58.0
    yield should(50, AXIS - 4, AXIS + 8, good)
    yield from blade(14, end, AXIS + 9.6, good)
    yield from thumb(end, AXIS + 9.6, good)
    yield Line(14, AXIS + 5, 14, AXIS + 11, "lit" if good else "outline")
    yield tick(55, AXIS - 6) if good else cross(58, AXIS - 6)


def old_to_pin_end(good: bool) -> Iterator[Shape]:
    """The old shaft's length ends where its thread ends, not at the tip of the nose."""
    yield from bar(2, 32)
    yield from half_coupling(2)
    for sign in (-1, 1):
        yield Line(32, AXIS + sign * 4, 41, AXIS + sign * 2.6)
    yield from thread(41, 50)
    yield from nose(50, 58)
    end = 50.0 if good else 58.0
    yield should(50, AXIS - 5, AXIS + 8, good)
    yield from blade(2, end, AXIS + 10.8, good)
    yield Line(2, AXIS - 9, 2, AXIS + 12.2, "lit" if good else "outline")
    yield from thumb(end, AXIS + 10.8, good)
    yield tick(55, AXIS - 6) if good else cross(58, AXIS - 6)


def two_end_to_end(good: bool) -> Iterator[Shape]:
    """Two short bearings in one strut: each has its own length."""
    yield from bar(0, WIDE)
    yield torn(0)
    yield torn(WIDE)
    yield from strut(12, 50)
    yield Line(31, AXIS - 7.2, 31, AXIS - 4.2, "lit" if good else "outline")
    yield Line(31, AXIS + 4.2, 31, AXIS + 7.2, "lit" if good else "outline")
    if good:
        yield from span(12, 31, AXIS + 9.8, good, AXIS + 7)
        yield from span(31, 50, AXIS + 9.8, good, AXIS + 7)
        yield tick(56, AXIS + 9.6)
    else:
        yield from span(12, 50, AXIS + 9.8, good, AXIS + 7)
        yield cross(56, AXIS + 9.6)
