"""The whole line in small: broom handle, pieces, a second reading, a gearbox to pass."""

from __future__ import annotations

from collections.abc import Iterator

from intake.domain.shapes import (
    Drawing,
    Line,
    Polygon,
    Shape,
    curve,
    height_of,
    path,
    rectangle,
)
from intake.domain.sketches.parts import (
    WIDTH,
    along,
    bar,
    box,
    coupling,
    leader,
    nut,
    walls,
    word,
)

AXIS, FACE, LOG, LOG_END, STRUT, STRUT_AFT = 22.0, 18.0, 42.0, 60.0, 80.0, 90.0
_HULL = (
    *curve((0, 37), (24, 37), (36, 30), (50, 22), 16),
    *curve((50, 22), (64, 14), (84, 7), (WIDTH, 6), 16)[1:],
)


def broom_handle() -> Drawing:
    """A rod through strut and log to the gearbox flange, marked at the strut's end."""
    shapes = [
        *_hull(),
        *_gearbox(),
        *_rod(FACE, 106),
        *_log(),
        *_strut(),
        Line(STRUT_AFT, AXIS - 3, STRUT_AFT, AXIS + 3, "lit"),
        *along(FACE, STRUT_AFT, 44, "measured on the bench", (AXIS + 10.5, AXIS + 6.5)),
        *leader(9, 6.5, FACE, AXIS - 8),
        word(2, 5.5, "machined face", "start"),
        *leader(99, 33.5, STRUT_AFT + 0.4, AXIS + 2),
        word(108, 37.5, "mark", "end"),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 52, "A broom handle through strut and log",
        "Side view, engine left. A rod runs through the strut and the log to the machined face of "
        "the gearbox flange. It is marked at the aft metal end of the strut; face to mark is "
        "measured on the bench.",
    )  # fmt: skip


def pieces() -> Drawing:
    """Three lengths along a shaft that is still in: face to log, log, log to strut."""
    y, tops = 41, AXIS + 4.5
    shapes = [
        *_hull(),
        *_gearbox(),
        *bar(FACE, WIDTH, AXIS, 2.4),
        *coupling(FACE, AXIS, 1, flange=10),
        *_log(),
        *_strut(),
        *along(FACE, LOG, y, "1", (AXIS + 10.5, tops)),
        *along(LOG, LOG_END, y, "2", (tops, tops)),
        *along(LOG_END, STRUT_AFT, y, "3", (tops, AXIS + 6.5)),
        *leader(52, 9.5, 52, AXIS - 4),
        word(52, 8.5, "log"),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 49, "Three pieces along the shaft",
        "Side view, engine left, shaft in place. Piece 1: coupling face to the inner end of the "
        "log. Piece 2: the log itself. Piece 3: outer end of the log to the aft metal end of the "
        "strut.",
    )  # fmt: skip


def read_twice() -> Drawing:
    """The same empty line read twice, the second time without seeing the first number."""
    tops = (AXIS + 10.5, AXIS + 6.5)
    shapes = [
        *_hull(),
        *_gearbox(),
        *_log(),
        *_strut(),
        Line(FACE, AXIS, STRUT_AFT, AXIS, "axis"),
        *along(FACE, STRUT_AFT, 43, "first reading, written down", tops),
        *along(FACE, STRUT_AFT, 55, "second reading, the first one covered", tops),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 62.5, "The empty boat, read twice",
        "Side view, engine left, no shaft. The distance from the machined face of the gearbox "
        "flange to the aft metal end of the strut is taken twice, the second time with the first "
        "number covered.",
    )  # fmt: skip


def through_gearbox() -> Drawing:
    """Front face to the gearbox's back, and front face to the strut."""
    face, back, tops = 26.0, 54.0, AXIS + 10.5
    shapes = [
        *bar(10, WIDTH, AXIS, 2.4),
        *coupling(face, AXIS, -1, flange=10),
        *nut(9, 13, AXIS, 4),
        box(face, AXIS - 10, face + 3, AXIS + 10),
        box(face + 3, AXIS - 14, back, AXIS + 10, "metal"),
        *(Line(face, AXIS + s * 2.4, back, AXIS + s * 2.4, "dashed") for s in (-1, 1)),
        Polygon(((85, 4), (89, 4), (88, AXIS - 6), (81, AXIS - 6)), "outline", "metal"),
        *_strut_barrel(),
        *along(face, back, 39, "through the gearbox", (tops, tops)),
        *along(face, STRUT_AFT, 51, "front face to strut", (tops, AXIS + 6.5)),
        word(42, 6.5, "gearbox"),
        word(80, 15, "strut", "end"),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 58.5, "Lengths through the gearbox",
        "Side view, engine side left. The shaft passes through the gearbox and is held by a "
        "coupling in front of it. Two lengths count from the machined face of that coupling: to "
        "the back of the gearbox, and to the aft metal end of the strut.",
    )  # fmt: skip


def _hull() -> Iterator[Shape]:
    yield Polygon((*_HULL, (WIDTH, 38.5), (0, 38.5)), "thin", "water")
    yield path(_HULL, "outline")
    yield path([(x, y - 1.4) for x, y in _HULL])


def _gearbox() -> Iterator[Shape]:
    yield box(3, AXIS - 8, FACE - 5, AXIS + 8, "metal")
    yield box(FACE - 5, AXIS - 5, FACE - 3, AXIS + 5)
    yield box(FACE - 3, AXIS - 10, FACE, AXIS + 10)


def _log() -> Iterator[Shape]:
    return walls(LOG, LOG_END, AXIS, 2.6, 4.4)


def _strut() -> Iterator[Shape]:
    a, b = STRUT + 2, STRUT_AFT - 2
    leg = ((a, AXIS - 6), (b, AXIS - 6), (b - 2, height_of(_HULL, b)), (a - 2, height_of(_HULL, a)))
    yield Polygon(leg, "outline", "metal")
    yield from _strut_barrel()


def _strut_barrel() -> Iterator[Shape]:
    yield from walls(STRUT, STRUT_AFT, AXIS, 3.6, 6)
    for y in (AXIS - 3.6, AXIS + 2.4):
        yield rectangle(STRUT, y, STRUT_AFT, y + 1.2, "thin", "dark")


def _rod(x1: float, x2: float) -> Iterator[Shape]:
    yield rectangle(x1, AXIS - 1.5, x2, AXIS + 1.5, "tape", "")
