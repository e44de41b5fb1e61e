"""The parts of the drive line as line work, from the gearbox aft to the nose of the shaft."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from intake.domain.gearbox import gearbox
from intake.domain.shapes import (
    Line,
    Point,
    Polygon,
    Shape,
    curve,
    ellipse,
    hatch,
    height_of,
    path,
    rectangle,
)
from intake.domain.stations import Stations

HULL_BELOW, HULL_ABOVE, WATER_DOWN = 13.6, 16.5, 16.5  # paper mm from the axis


@lru_cache(maxsize=128)
def elevation(at: Stations, engine: str = "engine") -> tuple[Shape, ...]:
    """Every part, back to front; ``engine`` is that word, for a drive whose engine is seen."""
    return tuple(_parts(at, engine))


def _parts(at: Stations, engine: str) -> Iterator[Shape]:
    yield from _hull_and_water(at)
    yield from _log_and_gland(at)
    yield from _strut(at)
    yield from _propeller(at)
    yield from _shaft(at)
    yield from gearbox(at, engine)
    yield from (_reversed_coupling(at) if at.passes else _coupling(at))
    yield from _nuts(at)
    yield Line(min(at.front_tip, at.gear_left) - 2.4, at.axis, at.tip + 3.2, at.axis, "axis")


def _hull(at: Stations) -> tuple[Point, ...]:
    """Flat below the engine, up past the log, flat again above the propeller."""
    low, high = at.axis + HULL_BELOW, at.axis - HULL_ABOVE
    knee = at.axis - max(2.1 * at.unit, 9.0)
    middle = (at.log + at.log_end) / 2
    reach = 11.0 if at.passes else 15.0
    a, b = max(middle - reach, 1.0), min(middle + reach, at.strut_aft)
    half = 0.5 * (b - a)
    rise = curve((a, low), (a + half, low), (b - half, knee + 1), (b, knee), 24)
    run = curve((b, knee), (b + 9, knee - 1), (at.width - 20, high), (at.width, high), 10)
    return ((0.0, low), *rise, *run[1:])


def _hull_and_water(at: Stations) -> Iterator[Shape]:
    hull, bottom = _hull(at), at.axis + WATER_DOWN
    yield Polygon((*hull, (at.width, bottom), (0.0, bottom)), "thin", "water")
    yield path(hull, "outline")
    yield path([(x, y - 1.3) for x, y in hull], "thin")


def _log_and_gland(at: Stations) -> Iterator[Shape]:
    y, tube, hose = at.axis, 0.78 * at.unit, 0.95 * at.unit
    yield rectangle(at.log, y - tube, at.log_end, y + tube)
    yield from _walls(at, at.log, at.log_end, at.radius + 0.55 * (tube - at.radius), tube)
    end = at.log + min(1.2 * at.unit, (at.log_end - at.log) / 2)
    yield rectangle(at.gland, y - hose, end, y + hose)
    for x in (at.gland + 0.55 * at.unit, end - 0.35 * at.unit):
        yield Line(x, y - hose - 0.5, x, y + hose + 0.5)
    nut = 1.12 * at.unit
    yield rectangle(at.gland - 0.35 * at.unit, y - nut, at.gland + 0.1 * at.unit, y + nut)


def _walls(at: Stations, x1: float, x2: float, inner: float, outer: float) -> Iterator[Shape]:
    """A bored part's cut walls, above and below the shaft, hatched."""
    for top, bottom in ((-outer, -inner), (inner, outer)):
        yield rectangle(x1, at.axis + top, x2, at.axis + bottom)
        yield from hatch(x1, at.axis + top, x2, at.axis + bottom)


def shell(at: Stations) -> float:
    """Half the bearing shell's outside on paper."""
    return 0.64 * at.unit


def _strut(at: Stations) -> Iterator[Shape]:
    y, long, hull = at.axis, at.strut_aft - at.strut_fwd, _hull(at)
    a, b = at.strut_fwd + 0.24 * long, at.strut_aft - 0.16 * long
    c, d = b - 0.2 * long, a - 0.2 * long
    leg = ((a, y - at.barrel), (b, y - at.barrel), (c, height_of(hull, c)), (d, height_of(hull, d)))
    yield Polygon(leg, "outline", "metal")
    yield from _walls(at, at.strut_fwd, at.strut_aft, shell(at), at.barrel)
    for top, bottom in ((-shell(at), -at.radius), (at.radius, shell(at))):
        yield rectangle(at.strut_fwd, y + top, at.strut_aft, y + bottom, "outline", "dark")


def _propeller(at: Stations) -> Iterator[Shape]:
    y, front, back = at.axis, at.hub, 0.8 * at.unit
    yield _blade(at, -1)
    yield _blade(at, 1)
    yield Polygon(
        ((at.hub_front, y - front), (at.hub_back, y - back),
         (at.hub_back, y + back), (at.hub_front, y + front)), "outline", "paper",
    )  # fmt: skip
    x = at.hub_front + 0.86 * (at.hub_back - at.hub_front)
    yield Line(x, y - 0.82 * at.unit, x, y + 0.82 * at.unit, "thin")


def _blade(at: Stations, sign: int) -> Polygon:
    """The root of one blade, ended by a freehand break line (ISO 128): blades go on beyond."""
    y, x1, long = at.axis, at.hub_front, at.hub_back - at.hub_front
    root, reach = 0.88 * at.unit, min(9.0, 2.4 * at.unit)
    a = (x1 + 0.2 * long, y + sign * root)
    b = (x1 + 0.78 * long, y + sign * root * 0.95)
    c = (x1 + 1.02 * long, y + sign * (root + reach * 0.5))
    d = (x1 + 0.86 * long, y + sign * (root + reach))
    e = (x1 + 0.1 * long, y + sign * (root + reach * 0.86))
    trailing = curve(b, c, c, d, 8)
    tip = curve(d, (x1 + 0.6 * long, d[1] - sign * 2.4), (x1 + 0.4 * long, d[1] + sign * 1.2), e, 8)
    leading = curve(e, (x1 - 0.02 * long, y + sign * (root + reach * 0.4)), a, a, 8)
    return Polygon((a, b, *trailing, *tip, *leading), "thin", "metal")


def _shaft(at: Stations) -> Iterator[Shape]:
    y, r = at.axis, at.radius
    start = (at.front_tip + 1.6 * at.unit) if at.passes else at.face
    stop = at.hub_front
    runs = [(start, stop)] if at.breaks is None else [(start, at.breaks[0]), (at.breaks[1], stop)]
    for x1, x2 in runs:
        yield rectangle(x1, y - r, x2, y + r, "word", "paper")
        yield Line(x1, y - r, x2, y - r)
        yield Line(x1, y + r, x2, y + r)
    if at.breaks:
        yield rectangle(at.breaks[0], y - r - 0.3, at.breaks[1], y + r + 0.3, "word", "water")
        for x in at.breaks:
            yield _break(x, y, r)
    big, small = max(at.taper_big, at.hub_front), at.taper_small
    for sign in (-1, 1):
        yield Line(at.hub_front, y + sign * r, big, y + sign * r, "dashed")
        yield Line(big, y + sign * r, small, y + sign * r * 0.83, "dashed")


def _break(x: float, y: float, r: float) -> Polygon:
    """The break line of a round bar: an S across it."""
    return path(
        curve((x, y - r - 0.4), (x - 1.6, y - r / 3), (x + 1.6, y + r / 3), (x, y + r + 0.4), 12)
    )


def _coupling(at: Stations) -> Iterator[Shape]:
    y, hub, x = at.axis, at.unit, at.face + 0.5 * at.unit
    yield Polygon(
        ((at.face, y - at.flange), (x, y - at.flange), (x, y - hub - 0.6), (x + 0.6, y - hub),
         (at.hub_end - 0.4, y - hub), (at.hub_end, y - hub + 0.4), (at.hub_end, y + hub - 0.4),
         (at.hub_end - 0.4, y + hub), (x + 0.6, y + hub), (x, y + hub + 0.6), (x, y + at.flange),
         (at.face, y + at.flange)), "outline", "paper",
    )  # fmt: skip
    yield from _bolts(at, at.face - 0.55 * at.unit, x)
    for sign in (-1, 1):
        yield Line(at.face, y + sign * at.radius, at.hub_end, y + sign * at.radius, "dashed")


def _reversed_coupling(at: Stations) -> Iterator[Shape]:
    y, hub, x, front = at.axis, at.unit, at.face - 0.5 * at.unit, at.hub_end
    yield rectangle(front, y - hub, x, y + hub)
    yield rectangle(x, y - at.flange, at.face, y + at.flange)
    yield from _bolts(at, x, at.face + 0.55 * at.unit)
    for sign in (-1, 1):
        yield Line(at.face, y + sign * at.radius, front, y + sign * at.radius * 0.8, "dashed")
    mid = front - 0.85 * at.unit
    yield from _nut(at, mid, front, 0.72 * at.unit)
    yield rectangle(at.front_tip, y - 0.36 * at.unit, mid, y + 0.36 * at.unit)


def _bolts(at: Stations, x1: float, x2: float) -> Iterator[Shape]:
    head = 0.3 * at.unit
    for sign in (-1, 1):
        y = at.axis + sign * 0.76 * at.flange
        yield rectangle(x1 - head, y - head, x1, y + head)
        yield rectangle(x2, y - head, x2 + head, y + head)
        yield Line(x1 - head - 0.8, y, x2 + head + 0.8, y, "axis")


def _nut(at: Stations, x1: float, x2: float, half: float) -> Iterator[Shape]:
    """A hexagon nut seen on its corners."""
    yield rectangle(x1, at.axis - half, x2, at.axis + half)
    for sign in (-1, 1):
        yield Line(x1, at.axis + sign * half / 2, x2, at.axis + sign * half / 2, "thin")


def _nuts(at: Stations) -> Iterator[Shape]:
    y, n, thread = at.axis, at.thread_end - at.hub_back, 0.375 * at.unit
    yield rectangle(at.hub_back, y - thread, at.thread_end, y + thread)
    for root in (-0.8 * thread, 0.8 * thread):
        yield Line(at.hub_back, y + root, at.thread_end, y + root, "thin")
    yield from _nut(at, at.hub_back, at.hub_back + 0.52 * n, 0.68 * at.unit)
    yield from _nut(at, at.hub_back + 0.52 * n, at.hub_back + 0.87 * n, 0.66 * at.unit)
    if at.tip - at.thread_end > 0.3:
        yield rectangle(at.thread_end, y - 0.28 * at.unit, at.tip, y + 0.28 * at.unit)
        hole = min(0.28 * (at.tip - at.thread_end), 0.7)
        yield Polygon(ellipse((at.thread_end + at.tip) / 2, y, hole, hole, 12), "thin", "paper")
