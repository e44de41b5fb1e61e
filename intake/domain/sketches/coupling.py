"""Sketches of couplings: the face, which way the hub points, three pullers, a front end."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin

from intake.domain.shapes import Drawing, Line, Shape, rectangle
from intake.domain.sketches.parts import (
    WIDTH,
    along,
    bar,
    bolt,
    box,
    coupling,
    disc,
    leader,
    nut,
    push,
    sorted_x,
    word,
)


def flange_face() -> Drawing:
    """A flange from its face: rim to rim, hole to neighbouring hole, the ring in the middle."""
    x, y, circle = 36.0, 29.0, 18.0
    holes = [(x + circle * cos(pi * n / 2 + pi / 4), y + circle * sin(pi * n / 2 + pi / 4))
             for n in range(4)]  # fmt: skip
    right = holes[3][0]
    shapes = [
        disc(x, y, 26, "metal"),
        disc(x, y, circle, kind="axis"),
        disc(x, y, 9, "paper"),
        disc(x, y, 6, "paper", "thin"),
        *(disc(a, b, 2.6, "paper") for a, b in holes),
        Line(right, holes[3][1], right, holes[0][1], "lit"),
        *leader(69, 27.5, right, y),
        word(70, 26, "hole to its", "start", "lit"),
        word(70, 31.5, "neighbour", "start", "lit"),
        *leader(69, 48, x + 5.6, y + 5.6),
        word(70, 47, "ring: raised,", "start"),
        word(70, 52.5, "sunk or none", "start"),
        *along(x - 26, x + 26, 60, "rim to rim", (y, y)),
        word(70, 8, "bolts: count them", "start"),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 67.5, "A flange seen on its face",
        "A round flange with four bolt holes. It is measured from rim to rim through the middle; "
        "the bolt circle by the distance from the centre of one hole to the centre of its "
        "neighbour. In the middle there may be a raised or sunk ring.",
    )  # fmt: skip


def hub_ways() -> Drawing:
    """Two couplings from the side: hub pointing back, hub pointing forward."""
    y = 20.0
    shapes = [
        *bar(26, 52, y, 2.6),
        box(6, y - 9, 19, y + 9, "metal"),
        box(19, y - 11, 22, y + 11),
        *coupling(22, y, 1),
        word(28, 41, "hub points back"),
        *bar(62, 108, y, 2.6),
        box(88, y - 9, 104, y + 9, "metal"),
        box(85, y - 11, 88, y + 11),
        *coupling(85, y, -1),
        *nut(67, 72, y, 4.2),
        word(82, 41, "hub points forward"),
        Line(55, 3, 55, 44, "thin"),
        word(12, 6, "gearbox"),
        word(96, 6, "gearbox"),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 46, "Which way the hub points",
        "Side views, engine left. First: the coupling sits behind the gearbox, its long hub points "
        "back to the propeller. Second: the coupling sits in front of the gearbox, its hub points "
        "forward, and the shaft passes through.",
    )  # fmt: skip


def three_pullers() -> Drawing:
    """Three ways to draw a coupling off: long bolts and a packing piece, a plate, a thread."""
    y = 20.0
    shapes = [
        *_long_bolts(y),
        *_plate(y),
        *_own_thread(y),
        *(Line(x, 3, x, 44, "thin") for x in (39, 76)),
        *(word(x, 42.5, number) for x, number in ((20, "1"), (58, "2"), (93, "3"))),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 46, "Three ways to draw a coupling off",
        "One: long bolts draw the shaft's half toward the gearbox half over a packing piece that "
        "stands on the shaft's end. Two: a drilled plate is bolted to the coupling, and a screw in "
        "its middle bears on the shaft's end. Three: an extractor screws into a thread in the "
        "coupling and bears on the shaft's end.",
    )  # fmt: skip


def _half(face: float, y: float, shaft_from: float) -> Iterator[Shape]:
    """A coupling half cut away in its middle, so that the shaft's end in it shows."""
    yield from coupling(face, y, 1)
    yield from bar(shaft_from, face + 17, y, 2.6)
    yield Line(shaft_from, y - 2.6, shaft_from, y + 2.6)


def _long_bolts(y: float) -> Iterator[Shape]:
    yield box(5, y - 11, 8, y + 11, "metal")
    yield from _half(18, y, 18.6)
    yield rectangle(8, y - 2, 18.6, y + 2, "lit", "paper")
    for sign in (-1, 1):
        yield from bolt(4.6, 24, y + sign * 8)


def _plate(y: float) -> Iterator[Shape]:
    yield from _half(57, y, 57.8)
    yield rectangle(48, y - 11, 51, y + 11, "lit", "paper")
    for sign in (-1, 1):
        yield from bolt(47.6, 63, y + sign * 8)
    yield box(44, y - 1.3, 57.8, y + 1.3)
    yield box(41.6, y - 2.6, 44, y + 2.6)


def _own_thread(y: float) -> Iterator[Shape]:
    yield from _half(91, y, 97)
    yield rectangle(84, y - 3.4, 97, y + 3.4, "lit", "paper")
    yield from (Line(x, y - 3.4, x - 1, y + 3.4, "thin") for x in (92, 93.5, 95, 96.5))
    yield box(80.5, y - 1.3, 97, y + 1.3)
    yield box(78, y - 2.6, 80.5, y + 2.6)


def two_v_drives() -> Drawing:
    """Two V-drives: the shaft ends at the gearbox's back, or comes out of its front."""
    y = 22.0
    shapes = [
        box(8, y - 14, 26, y + 9, "metal"),
        box(26, y - 9, 29, y + 9),
        *bar(29, 53, y, 2.6),
        *coupling(29, y, 1, flange=9),
        word(28, 44, "ends at the back"),
        Line(55, 3, 55, 47, "thin"),
        *bar(66, 108, y, 2.6),
        *coupling(80, y, -1, flange=9),
        *nut(63, 67, y, 4.2),
        box(80, y - 9, 83, y + 9),
        box(83, y - 14, 101, y + 9, "metal"),
        *(Line(80, y + s * 2.6, 101, y + s * 2.6, "dashed") for s in (-1, 1)),
        word(82, 44, "comes out in front"),
        *push(10, 3, 5),
        word(12, 6.4, "bow", "start"),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 49, "Two V-drives",
        "Side views, bow left. First: the shaft ends at a flange on the back of the gearbox. "
        "Second: the shaft passes through the gearbox; coupling and nut show in front of it.",
    )  # fmt: skip


def front_end() -> Drawing:
    """The shaft's front end on a pass-through gearbox: nut, lock, and how far it reaches."""
    y, face, tip = 24.0, 74.0, 26.0
    shapes = [
        rectangle(*sorted_x(tip, face, y - 2.8, y + 2.8), "outline", "paper"),
        box(face, y - 15, face + 5, y + 15),
        box(face + 5, y - 12, 104, y + 12, "metal"),
        box(face - 26, y - 7, face - 5, y + 7),
        box(face - 5, y - 15, face, y + 15),
        *(Line(face - 26, y + s * 4, face, y + s * 5, "dashed") for s in (-1, 1)),
        *nut(face - 36, face - 28, y, 6),
        box(face - 28, y - 5, face - 26, y + 5, "dark"),
        Line(face, y - 15, face, y + 15, "lit"),
        *along(tip, face, 46, "how far it reaches", (y + 3, y + 15)),
        word(90, 8, "gearbox"),
        word(2, 6, "nut, washer and lock", "start"),
        *leader(30, 7.5, face - 32, y - 5),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 53.5, "The shaft's front end",
        "Side view, bow left. In front of the gearbox the shaft is held in its coupling by a nut "
        "with washer and lock. The length asked for runs from the coupling's machined face, which "
        "bears on the gearbox, forward to the tip.",
    )  # fmt: skip
