"""The thread comb: paper edges with marks a pitch apart, to hold against a propeller-nut thread.

Inch threads are those of SAE J755 shaft ends (UNC, ASME B1.1); metric ones the coarse pitches of
the sizes nearby. Two combs share a card, one on its upper and one on its lower edge.
"""

from __future__ import annotations

from math import sqrt

from intake.paper.field import Field

INCH = 25.4
INCH_LONG, METRIC_LONG = 1.5 * INCH, 40.0  # mm of thread a comb runs along
# Name, sizes of thread that have it, pitch in mm.
COMBS: tuple[tuple[str, str, float], ...] = (
    ("13 per inch", "1/2", INCH / 13),
    ("11 per inch", "5/8", INCH / 11),
    ("10 per inch", "3/4", INCH / 10),
    ("9 per inch", "7/8", INCH / 9),
    ("8 per inch", "1", INCH / 8),
    ("7 per inch", "1 1/8, 1 1/4", INCH / 7),
    ("6 per inch", "1 1/2", INCH / 6),
    ("1.5 mm", "", 1.5),
    ("2 mm", "", 2.0),
    ("2.5 mm", "", 2.5),
    ("3 mm", "", 3.0),
)
CARD_WIDE, CARD_HIGH, APART = 56.0, 19.0, 3.0


def teeth(pitch: float) -> int:
    """Whole pitches that a comb shows."""
    long = METRIC_LONG if pitch in (1.5, 2.0, 2.5, 3.0) else INCH_LONG
    return int(long / pitch + 1e-9)


def comb_cards(field: Field, x: float, y: float) -> float:
    """Six cards, three beside each other; returns y below them."""
    _ = field.say
    alt = _(
        "Thread comb: saw-toothed edges for 13, 11, 10, 9, 8, 7 and 6 threads an inch and for "
        "pitches of 1.5, 2, 2.5 and 3 mm."
    )
    wide, high = 3 * CARD_WIDE + 2 * APART, 2 * CARD_HIGH + APART
    with field.figure(alt, x, y, x + wide, y + high):
        for card in range(6):
            left = x + card % 3 * (CARD_WIDE + APART)
            top = y + card // 3 * (CARD_HIGH + APART)
            _card(field, left, top, COMBS[2 * card : 2 * card + 2])
    return y + high


def _card(field: Field, x: float, y: float, combs: tuple[tuple[str, str, float], ...]) -> None:
    corners = [(x, y), (x + CARD_WIDE, y), (x + CARD_WIDE, y + CARD_HIGH), (x, y + CARD_HIGH)]
    field.run(corners, "cut", closed=True)
    for edge, (name, sizes, pitch) in zip((y, y + CARD_HIGH), combs, strict=False):
        down = 1 if edge == y else -1
        _comb(field, x + 4, edge, down, pitch)
        said = f"{field.say(name)} · {sizes}" if sizes else name
        field.label(x + 4, edge + (7.4 if down == 1 else -5.4), said, size=6.6, anchor="start")


def _comb(field: Field, x: float, edge: float, down: int, pitch: float) -> None:
    """A 60 degree saw (ISO 68-1, ASME B1.1) whose crests stand on the edge."""
    deep = pitch * sqrt(3) / 2
    points = [(x, edge)]
    for tooth in range(teeth(pitch)):
        points += [(x + (tooth + 0.5) * pitch, edge + down * deep), (x + (tooth + 1) * pitch, edge)]
    field.run(points, "mark")
