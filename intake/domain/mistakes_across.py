"""Scenes of the usual mistakes with diameters, and with sides: each drawn right, and wrong."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from intake.domain.mistake_parts import (
    AXIS,
    WIDE,
    axis,
    bar,
    cross,
    disc,
    gear_flange,
    half_coupling,
    label,
    push,
    tick,
    torn,
    turned,
    upright,
)
from intake.domain.shapes import Line, Polygon, Shape, curve, ellipse, path, rectangle


def worn_journal(good: bool) -> Iterator[Shape]:
    """On bright, unworn metal; where the bearing ran, the shaft is thinner."""
    yield from bar(0, 30, 6)
    yield from bar(30, 50, 4.6)
    yield from bar(50, WIDE, 6)
    yield torn(0, 6)
    yield torn(WIDE, 6)
    for edge in (30, 50):
        for sign in (-1, 1):
            yield Line(edge, AXIS + sign * 4.6, edge, AXIS + sign * 6)
    for sign in (-1, 1):
        for worn in range(32, 50, 3):
            yield Line(worn, AXIS + sign * 3.6, worn + 1.6, AXIS + sign * 3.6, "thin")
    x, half = (15.0, 6.0) if good else (40.0, 4.6)
    yield from _caliper(x, half, good, 0.0)
    yield tick(x + 8.5, AXIS) if good else cross(x + 14.5, AXIS)


def jaws_tilted(good: bool) -> Iterator[Shape]:
    """The jaws stand square across the shaft."""
    yield from bar(4, 58, 5.4)
    yield torn(4, 5.4)
    yield torn(58, 5.4)
    yield axis(0)
    if good:
        yield from _caliper(31, 5.4, good, 0.0)
        yield tick(44, AXIS - 2)
    else:
        yield from _caliper(31, 6.3, good, 28.0)
        yield cross(46, AXIS)


def _caliper(x: float, half: float, good: bool, tilt: float) -> Iterator[Shape]:
    """A caliper's two jaws on the bar, its beam beside them; turned by ``tilt``."""
    kind = "lit" if good else "outline"
    y1, y2 = AXIS - half, AXIS + half
    about = (x, AXIS)
    jaws = ((x + 1.2, y1), (x + 1.2, y1 - 2), (x - 6, y1 - 2), (x - 6, y2 + 2), (x + 1.2, y2 + 2),
            (x + 1.2, y2), (x - 3.6, y2), (x - 3.6, y1))  # fmt: skip
    yield Polygon(turned(jaws, about, tilt), kind, "paper")


def hub_for_flange(good: bool) -> Iterator[Shape]:
    """The big disc with the bolts, not the hub behind it."""
    face = 24.0
    yield from bar(face, 56, 3.4)
    yield torn(56, 3.4)
    yield from gear_flange(face)
    yield label(face - 12, 2.2, "gearbox")
    yield from half_coupling(face)
    for sign in (-1, 1):
        yield rectangle(face - 6, AXIS + sign * 7 - 1, face - 4, AXIS + sign * 7 + 1)
        yield rectangle(face + 4, AXIS + sign * 7 - 1, face + 6, AXIS + sign * 7 + 1)
    thin = "tape" if good else "dimension"
    half, at = (9.0 if good else 5.5), 46.0
    for sign in (-1, 1):
        start = face + 4.4 if good else face + 13.4
        yield Line(start, AXIS + sign * half, at + 2, AXIS + sign * half, thin)
    yield from upright(at, AXIS - half, AXIS + half, good)
    yield tick(54, AXIS - 6) if good else cross(54, AXIS - 7)


def rim_to_centre(good: bool) -> Iterator[Shape]:
    """Rim to rim through the middle, not rim to centre."""
    x, y, r = 28.0, AXIS, 10.6
    yield disc(x, y, r)
    yield disc(x, y, 3.6)
    for sx in (-1, 1):
        for sy in (-1, 1):
            yield disc(x + sx * 4.9, y + sy * 4.9, 1.2)
    kind = "lit" if good else "outline"
    end = x + r if good else x
    yield Line(x - r, y, end, y, kind)
    for at, way in ((x - r, 1), (end, -1)):
        yield Polygon(((at, y), (at + way * 2.8, y - 0.9), (at + way * 2.8, y + 0.9)),
                      "lit" if good else "arrow", "paper" if good else "")  # fmt: skip
    yield tick(44, y) if good else cross(44, y)


def shell_on_strut(good: bool) -> Iterator[Shape]:
    """Across the shell's own edge, not across the strut around it."""
    x, y = 26.0, AXIS
    yield disc(x, y, 10.2, "metal")
    yield disc(x, y, 7.2, "paper", "lit" if good else "outline")
    yield disc(x, y, 6.0, "dark")
    yield Polygon(ellipse(x, y, 4.4, 4.4, 9), "thin", "paper")
    yield disc(x, y, 3.8, "paper")
    half = 7.2 if good else 10.2
    thin = "tape" if good else "dimension"
    for sign in (-1, 1):
        yield Line(x, y + sign * half, 43, y + sign * half, thin)
    yield from upright(41, y - half, y + half, good)
    yield tick(49, y) if good else cross(49, y)


def side_facing_aft(good: bool) -> Iterator[Shape]:
    """Port is on the left of who faces the bow."""
    y, half = AXIS, 8.2
    side = curve((58, y - half * 0.85), (30, y - half * 1.05), (12, y - half), (2, y), 16)
    other = tuple((x, 2 * y - at) for x, at in reversed(side))
    yield path((*side, *other[1:], side[0]), "outline")
    lower, words = good, "lit" if good else "word"
    for sign, named in ((-1, not lower), (1, lower)):
        at = y + sign * 4.4
        kind = ("lit" if good else "outline") if named else "thin"
        if named:
            yield replace(label(20.5, at + (1.0 if sign > 0 else 1.7), "port"), kind=words)
        yield Line(33, at, 55, at, kind)
        yield Polygon(ellipse(56, at, 0.7, 2.4, 12), kind, "paper")
    yield from _onlooker(29, y, -1 if good else 1)
    yield tick(43, y + 0.2) if good else cross(47, y)


def _onlooker(x: float, y: float, way: int) -> Iterator[Shape]:
    """Somebody seen from above: shoulders, head, and an arrow where they look."""
    yield Polygon(ellipse(x, y, 1.3, 3.4, 20), "outline", "metal")
    yield Polygon(ellipse(x + way * 0.4, y, 1.4, 1.4, 16), "outline", "paper")
    yield from push(x + way * 3, x + way * 12, y)
