"""Sketches at the propeller: the gap by a drill, and the hub alone."""

from __future__ import annotations

from collections.abc import Iterator

from intake.domain.shapes import Drawing, Line, Polygon, Shape, curve, path, rectangle
from intake.domain.sketches.parts import WIDTH, along, bar, box, leader, nut, push, walls, word

AXIS = 28.0


def drill_gap() -> Drawing:
    """A drill's plain shank between the strut's metal and the hub."""
    strut, hub, back = 40.0, 54.0, 94.0
    shapes = [
        *bar(2, hub, AXIS, 7),
        *walls(14, strut, AXIS, 9.6, 15),
        *(box(14, y, strut + 2, y + 2.6, "dark") for y in (AXIS - 9.6, AXIS + 7)),
        Polygon(((hub, AXIS - 14), (back, AXIS - 12), (back, AXIS + 12), (hub, AXIS + 14)),
                "outline", "paper"),
        *nut(back, 103, AXIS, 10),
        *_drill(strut + 0.6, hub - 0.6, AXIS - 10),
        *push(12, 3, AXIS),
        *along(strut, hub, 48, "gap", (AXIS + 15, AXIS + 14)),
        *along(hub, back, 48, "hub", (AXIS + 14, AXIS + 12), "dimension"),
        word(74, AXIS + 1.6, "hub"),
        word(27, 10, "strut"),
        word(62, 5.5, "largest drill", "start"),
        word(62, 10.5, "that slides in", "start"),
        *leader(61, 4.6, 47, 6),
        word(2, 60, "rubber: not here", "start"),
        *leader(30, 56.3, strut + 1.2, AXIS + 8.4),
    ]  # fmt: skip
    return Drawing(
        tuple(shapes), WIDTH, 62, "The gap by a drill shank",
        "The shaft is pushed hard forward, to the left. The largest drill whose plain shank slides "
        "between the aft metal end of the strut and the front face of the propeller hub is the "
        "gap. The rubber stands a little proud of the metal and does not count. The hub is "
        "measured from front face to back face, without the nut.",
    )  # fmt: skip


def _drill(x1: float, x2: float, bottom: float) -> Iterator[Shape]:
    yield rectangle(x1, 3, x2, bottom, "tape", "")
    for y in (5, 8.5):
        yield path(curve((x1, y + 3), (x1 + 4, y + 3), (x2 - 4, y - 2), (x2, y - 2), 10))


def hub_alone() -> Drawing:
    """A loose propeller hub: front face to back face, its bore tapering to the back."""
    front, back = 28.0, 82.0
    shapes = [
        Polygon(((front, AXIS - 17), (back, AXIS - 14), (back, AXIS + 14), (front, AXIS + 17)),
                "outline", "paper"),
        *(Line(front, AXIS + s * 9, back, AXIS + s * 6.4, "dashed") for s in (-1, 1)),
        Line(22, AXIS, 106, AXIS, "axis"),
        *_blade(-1),
        *_blade(1),
        *(Line(x, AXIS + s * 8, 98, AXIS + s * 8, "dashed") for s in (-1, 1) for x in (back,)),
        Line(98, AXIS - 8, 98, AXIS + 8, "dashed"),
        *along(front, back, 55, "hub: face to face", (AXIS + 17, AXIS + 14)),
        word(108, AXIS - 18, "nut does", "end"),
        word(108, AXIS - 12.5, "not count", "end"),
        word(2, AXIS - 19, "front, the wide end", "start"),
        *leader(14, AXIS - 17.6, front, AXIS - 12),
    ]  # fmt: skip
    return Drawing(
        tuple(shapes), WIDTH, 62.5, "The propeller hub by itself",
        "A propeller hub from the side. Its length runs along the shaft from the front face, where "
        "the tapered bore is wide, to the back face. Nut, cap and blades do not count.",
    )  # fmt: skip


def _blade(sign: int) -> Iterator[Shape]:
    root, tip = AXIS + sign * 15.6, AXIS + sign * 23
    edge = curve((52, tip), (56, tip - sign * 2), (60, tip + sign * 1.5), (66, tip), 8)
    yield Polygon(((48, root), *edge, (70, root)), "thin", "metal")
