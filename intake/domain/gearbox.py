"""The gearbox of each drive as line work, and the way the power takes through it."""

from __future__ import annotations

from collections.abc import Iterator

from intake.domain.shapes import Line, Point, Polygon, Shape, Text, curve, path, rectangle
from intake.domain.stations import Stations

ENGINE, ENGINE_HIGH, TILT, RISE = 21.0, 6.6, 1.6, 4.2  # paper mm


def gearbox(at: Stations, engine: str) -> Iterator[Shape]:
    """The gearbox with its output flange; on a V-drive the engine that stands over the shaft."""
    if at.layout in ("v_rear_flange", "v_pass_through"):
        yield from _engine(at, engine)
    if at.passes:
        yield from _passed_through(at)
        return
    case = {"down_angle": _angled_case, "v_rear_flange": _square_case}.get(at.layout, _cut_case)
    yield from case(at)
    x2 = at.face - 0.55 * at.unit
    yield rectangle(x2 - 1.6, at.axis - 0.8 * at.unit, x2, at.axis + 0.8 * at.unit)
    yield rectangle(x2, at.axis - at.flange, at.face, at.axis + at.flange)


def power_path(at: Stations) -> tuple[Point, ...]:
    """From the engine through the gearbox to the shaft, as a run of points."""
    y, end = at.axis, (at.gland if at.passes else at.hub_end) + 2.0
    if at.layout == "down_angle":
        x2 = _case_end(at)
        return ((at.gear_left - 1.0, _engine_axis(at)), (x2 - 1, y - 0.2 * at.unit), (x2, y),
                (end, y))  # fmt: skip
    if at.layout in ("v_rear_flange", "v_pass_through"):
        left, top = _engine_corner(at)
        over, x = top + ENGINE_HIGH / 2, left - 2.2
        down = ((left + 3.5, over), (x, over))
        if not at.passes:
            return (*down, (x, y), (end, y))
        low, front = y - 0.45 * _high(at), at.hub_end - 1.2
        return (*down, (x, low), (front, low), (front, y), (end, y))
    return ((at.gear_left - 1.0, y), (end, y))


def _high(at: Stations) -> float:
    return 0.78 * at.flange


def _case_end(at: Stations) -> float:
    """Where the case ends and the boss of the output begins."""
    return at.face - 0.55 * at.unit - 1.6


def _cut_case(at: Stations) -> Iterator[Shape]:
    """A gearbox straight behind its engine, cut off by a freehand line."""
    y, high, x1, x2 = at.axis, _high(at), at.gear_left, _case_end(at)
    edge = curve((x1, y - high), (x1 - 1.5, y - 2), (x1 + 1.5, y + 2), (x1, y + high), 12)
    yield Polygon((*edge, (x2, y + high), (x2, y - high)), "word", "metal")
    yield path(edge)
    for sign in (-1, 1):
        yield Line(x1, y + sign * high, x2, y + sign * high)
    yield Line(x2, y - high, x2, y + high)


def _engine_axis(at: Stations) -> float:
    """How high the engine's own axis stands where a down-angle gearbox is cut off."""
    return at.axis - 0.2 * at.unit - RISE


def _angled_case(at: Stations) -> Iterator[Shape]:
    """The output leaves downwards: engine and case lean against the shaft's axis."""
    y, high, x1, x2 = at.axis, _high(at), at.gear_left, _case_end(at)
    top, low = y - high - RISE, y + 0.8 * high - RISE
    edge = curve((x1, top), (x1 - 1.5, top + 5), (x1 + 1.5, low - 5), (x1, low), 12)
    corner = x1 + 0.55 * (x2 - x1)
    knee, heel = y - high - 0.45 * RISE, y + high
    yield Polygon(
        (*edge, (corner, heel - 1.2), (x2, heel), (x2, y - high), (corner, knee)), "word", "metal"
    )
    yield path(edge)
    yield path(((x1, top), (corner, knee), (x2, y - high), (x2, heel), (corner, heel - 1.2),
                (x1, low)), "outline")  # fmt: skip
    yield Line(corner, knee, corner, heel - 1.2, "thin")
    yield Line(x1 - 2.4, _engine_axis(at) - 0.6, x2, y - 0.2 * at.unit, "axis")


def _square_case(at: Stations) -> Iterator[Shape]:
    """A V-drive that ends at its flange: the shaft starts behind it."""
    y, high, x2 = at.axis, _high(at), _case_end(at)
    yield rectangle(at.gear_left, y - high, x2, y + high, "outline", "metal")


def _passed_through(at: Stations) -> Iterator[Shape]:
    y, high = at.axis, _high(at)
    x1, x2 = at.face + 0.55 * at.unit, at.gear_right
    yield Polygon(
        ((x1, y - high), (x2 - 1.2, y - high), (x2, y - high + 1.2), (x2, y + high + 1.2),
         (x1 + 1.2, y + high + 1.2), (x1, y + high)), "outline", "metal",
    )  # fmt: skip
    for sign in (-1, 1):
        yield Line(x1, y + sign * at.radius, x2, y + sign * at.radius, "dashed")
    yield rectangle(at.face, y - at.flange, x1, y + at.flange)


def _engine_corner(at: Stations) -> Point:
    """Left top corner of the engine that stands over the shaft."""
    if at.passes:
        return at.gear_right + 3.0, at.axis - max(18.1, at.flange + 6.0)
    return _case_end(at) - 3.2, at.axis - at.flange - 15.0


def _engine(at: Stations, word: str) -> Iterator[Shape]:
    """The engine aft of its V-drive, and the leg that carries the power down to the gearbox."""
    x, top = _engine_corner(at)
    low = at.axis - _high(at) + 1.0
    yield Polygon(
        ((x - 4.4, top + 0.9), (x, top + 0.9), (x, top + ENGINE_HIGH + 0.6), (x - 0.4, low),
         (x - 4.4, low)), "outline", "metal",
    )  # fmt: skip
    end = x + ENGINE
    yield Polygon(
        ((x, top + TILT / 2), (end, top - TILT / 2), (end, top + ENGINE_HIGH - TILT / 2),
         (x, top + ENGINE_HIGH + TILT / 2)), "outline", "metal",
    )  # fmt: skip
    yield Text(x + ENGINE / 2 + 1.6, top + ENGINE_HIGH / 2 + 1.1, word, 3.4)
