"""Sketches for before the start: a boat that is safe to lie under, tools, a strip of paper."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin

from intake.domain.shapes import Drawing, Line, Polygon, Shape, curve, hatch, path
from intake.domain.sketches.parts import WIDTH, along, box, disc, leader, word


def blocked_boat() -> Drawing:
    """A hull from ahead: keel on blocks, stands chained in pairs, firm ground."""
    half = curve((8, 4), (10, 20), (36, 30), (52, 38), 20)
    right = [(WIDTH - x, y) for x, y in reversed(half)]
    shapes = [
        Polygon((*half, (52, 44), (58, 44), *right), "outline", "metal"),
        *(box(47, y, 63, y + 4.5) for y in (44, 48.5)),
        *_stand(1),
        *_stand(-1),
        path([(24, 48), (40, 50.5), (55, 51), (70, 50.5), (86, 48)], "dashed"),
        Line(2, 53, WIDTH - 2, 53),
        *hatch(2, 53, WIDTH - 2, 55, 2),
        *leader(36, 61.5, 50, 51),
        word(2, 65.5, "keel on blocks", "start"),
        *leader(78, 61.5, 74, 50.1),
        word(108, 65.5, "stands chained in pairs", "end"),
        word(55, 14, "boat, from ahead"),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 68, "A boat that is safe to lie under",
        "Seen from ahead: the keel rests on blocks, a stand on either side holds the hull, the two "
        "stands are joined by a chain below the keel, and the ground is firm.",
    )  # fmt: skip


def _stand(way: int) -> Iterator[Shape]:
    def x(value: float) -> float:
        return value if way == 1 else WIDTH - value

    yield Line(x(25), 33, x(24), 53)
    yield Line(x(24.6), 38, x(16), 53)
    yield Line(x(24.6), 38, x(31), 53)
    yield Polygon(((x(20.4), 27.4), (x(29.6), 31.6), (x(28.6), 33.6), (x(19.4), 29.4)), "outline",
                  "paper")  # fmt: skip


def tools() -> Drawing:
    """What to lay out: broom handle, tape, drill, rule, caliper, spanner, phone."""
    shapes = [
        box(3, 4, 107, 7),
        word(55, 13, "broom handle or other straight rod"),
        *_tape(),
        *_drill(),
        *_rule(),
        *_caliper(),
        *_spanner(),
        box(86, 45, 95, 61),
        Line(88.5, 59, 92.5, 59, "thin"),
        word(17, 38.5, "slim tape"),
        word(58, 38.5, "drills"),
        word(92, 38.5, "rule"),
        word(20, 67.5, "caliper"),
        word(58, 67.5, "or a spanner"),
        word(91, 67.5, "phone"),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 69.5, "What to have with you",
        "A broom handle or other straight rod, a slim tape, a set of drills, a rule, a caliper or "
        "else a spanner with a sliding jaw, and a phone for pictures.",
    )  # fmt: skip


def _tape() -> Iterator[Shape]:
    yield box(4, 20, 18, 33)
    yield disc(11, 26.5, 4.2, kind="thin")
    yield box(18, 31, 33, 33)
    yield Line(33, 30, 33, 34.5)


def _drill() -> Iterator[Shape]:
    yield box(42, 25, 56, 30)
    yield Polygon(((56, 25), (72, 25), (75, 27.5), (72, 30), (56, 30)), "outline", "paper")
    yield from (
        path(curve((x, 30), (x + 2, 29), (x + 2, 26), (x + 4, 25), 8)) for x in (57, 62, 67)
    )


def _rule() -> Iterator[Shape]:
    yield box(79, 25, 106, 31)
    yield from (Line(x, 25, x, 28 if x % 4 else 29.2, "thin") for x in range(82, 105, 2))


def _caliper() -> Iterator[Shape]:
    yield box(5, 46, 38, 49)
    yield Polygon(((5, 46), (9, 46), (9, 55), (7.6, 60), (5, 55)), "outline", "paper")
    yield Polygon(((19, 45), (27, 45), (27, 50), (22, 50), (22, 55), (19.4, 60), (19, 55)),
                  "outline", "paper")  # fmt: skip
    yield disc(14, 56, 4.7, "metal", "thin")


def _spanner() -> Iterator[Shape]:
    yield box(52, 51, 75, 56)
    yield Polygon(((45, 47), (48, 47), (48, 50.5), (53, 50.5), (53, 57), (41, 57), (41, 53.5),
                   (45, 53.5)), "outline", "paper")  # fmt: skip
    yield box(41, 46, 44.6, 53.5)


def paper_strip() -> Drawing:
    """A strip of paper round the bar, pricked, then laid flat and measured."""
    x, y, r = 22.0, 26.0, 12.0
    overlap = 0.35  # radians either side of the pin, which stands up to the right
    turns = [-pi / 4 - overlap + (2 * pi + 2 * overlap) * step / 36 for step in range(37)]
    ring = [
        (x + (r + 1 + 0.045 * n) * cos(t), y + (r + 1 + 0.045 * n) * sin(t))
        for n, t in enumerate(turns)
    ]
    shapes = [
        disc(x, y, r, "metal"),
        path(ring, "lit"),
        Line(x + 14.5, y - 14.5, x + 6.6, y - 6.6, "outline"),
        disc(x + 15, y - 15, 1.2, "dark"),
        word(x, y + 1.5, "shaft"),
        word(1, 49, "wrap, prick through both", "start"),
        Polygon(((52, 20), (107, 20), (107, 28), (52, 28)), "tape"),
        disc(58, 24, 0.9, "dark"),
        disc(101, 24, 0.9, "dark"),
        *along(58, 101, 36, "hole to hole", (24, 24)),
        word(109, 49, "÷ 3.1416 = diameter", "end"),
        word(79.5, 15, "lay it flat"),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 51.5, "Diameter by a strip of paper",
        "Left: a strip of paper wraps once round the shaft and overlaps; a pin goes through both "
        "layers. Right: the strip laid flat has two holes; the distance between them divided by "
        "3.1416 is the diameter.",
    )  # fmt: skip
