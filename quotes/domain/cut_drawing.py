"""The shaft alone, with every station to the one datum: the drawing of the cut sheet.

Dimensions are ordinates (ISO 129-1): each station has a letter, the letter its line in the table.
The propeller end is to scale; forward of the break lengths are shortened.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from catalog.domain.lengths import Length, inches
from intake.domain.dimensions import arrow
from intake.domain.shapes import Drawing, Line, Polygon, Shape, Text, rectangle
from quotes.domain.cut_facts import StationRow, both_exact
from quotes.domain.order import Shaft
from quotes.domain.stations import (
    BEARING_AFT,
    BEARING_FWD,
    FACE,
    FRONT,
    HUB_END,
    LARGE,
    LEFT,
    NOT_KNOWN,
    SMALL,
    THREAD,
    TIP,
    ZERO,
    Chain,
)

WIDE, HIGH = 180.0, 53.4  # paper mm
_AXIS, _LABELS = 24.6, 44.6
_LEFT, _RIGHT = 12.0, 174.0
_END_ROOM, _THICKEST = 80.0, 14.0
_BETWEEN = 17.2  # labels are no nearer to each other than this


@dataclass(frozen=True, slots=True)
class _Paper:
    """Where stations stand on paper. ``scale`` is paper mm for a real mm at the propeller end."""

    chain: Chain
    diameter: Length
    system: str
    scale: float
    face: float
    break_at: float

    @property
    def radius(self) -> float:
        return self.diameter.in_mm * self.scale / 2

    @property
    def start(self) -> str:
        """The station at its forward end."""
        return next((key for key in (LEFT, FRONT) if self.chain.at(key) is not None), FACE)

    def x(self, key: str) -> float:
        """Paper x of a station that is known."""
        place = self.chain.at(key)
        if place is None or key == FACE:
            return self.face
        if key in (LEFT, FRONT, HUB_END):
            return self.face + max(min(place.in_mm * self.scale, 24.0), -24.0)
        aft = _RIGHT - (self.chain.at(TIP) or self.chain.length).in_mm * self.scale
        at = aft + place.in_mm * self.scale
        return max(at, self.break_at + 5.0) if key in (BEARING_FWD, BEARING_AFT) else at


def cut_drawing(
    chain: Chain,
    rows: Sequence[StationRow],
    shaft: Shaft,
    small: Length | None,
    held: str = "± 1/32 in",
) -> Drawing:
    """The drawing with the letters and values of ``rows``. ``small``: diameter of the small end;
    ``held``: what stands after the two lengths."""
    paper = _paper(chain, shaft.diameter, shaft.system)
    shapes = [
        *_bar(paper),
        *_propeller_end(paper, small, shaft.thread),
        *_datum(paper),
        *_lengths(paper, held),
        *_ordinates(paper, rows),
    ]
    places = "; ".join(f"{row.letter}, {row.name}: {row.inch} in, {row.mm} mm" for row in rows)
    return Drawing(tuple(shapes), WIDE, HIGH, "The shaft to one datum, the coupling face", places)


def _paper(chain: Chain, diameter: Length, system: str) -> _Paper:
    tip = chain.at(TIP) or chain.length
    large = chain.at(LARGE) or chain.length - Length(4 * diameter.nm)
    scale = min(_END_ROOM / (tip - large).in_mm, _THICKEST / diameter.in_mm)
    front = chain.at(LEFT) or chain.at(FRONT)
    face = _LEFT + (min(-front.in_mm * scale, 24.0) if front else 0.0)
    return _Paper(chain, diameter, system, scale, face, face + 38.0)


def _bar(paper: _Paper) -> Iterator[Shape]:
    """Plain bar in two parts with the break between, the bearing's journal hatched below it."""
    r, start = paper.radius, paper.x(paper.start)
    end = paper.x(LARGE) if paper.chain.at(LARGE) else _RIGHT
    yield rectangle(start, _AXIS - r, paper.break_at - 1.2, _AXIS + r, fill="metal")
    yield rectangle(paper.break_at + 1.2, _AXIS - r, end, _AXIS + r, fill="metal")
    for x in (paper.break_at - 1.2, paper.break_at + 1.2):
        yield Line(x - 0.8, _AXIS + r + 1.6, x + 0.8, _AXIS - r - 1.6, "thin")
    yield from _keyway(paper.face + 1.0, paper.face + 2.4 * r + 1.0, _AXIS)
    if paper.chain.at(BEARING_AFT) is not None:
        left = paper.x(BEARING_FWD) if paper.chain.at(BEARING_FWD) else paper.x(BEARING_AFT) - 12
        right = paper.x(BEARING_AFT)
        yield rectangle(left, _AXIS - r, right, _AXIS + r, "thin", "band")
        yield Text((left + right) / 2, _AXIS - r - 1.2, "bearing", 3.0)
    yield Line(start - 4, _AXIS, _RIGHT + 4, _AXIS, "axis")


def _keyway(left: float, right: float, y: float) -> Iterator[Shape]:
    yield rectangle(left, y - 1.1, right, y + 1.1, "thin")


def _propeller_end(paper: _Paper, small: Length | None, thread: str) -> Iterator[Shape]:
    """Taper, thread and nose to scale; where they are not known, words say so."""
    if small is None or paper.chain.at(LARGE) is None:
        end = paper.x(THREAD)
        yield Text(end - 2, _AXIS + 4.6, f"propeller end {NOT_KNOWN}", 3.0, "end", "lit")
        return
    r, s, major = paper.radius, small.in_mm * paper.scale / 2, _major(thread, small) * paper.scale
    large, small_x, end = (paper.x(key) for key in (LARGE, SMALL, THREAD))
    cone = ((large, _AXIS - r), (small_x, _AXIS - s), (small_x, _AXIS + s), (large, _AXIS + r))
    yield Polygon(cone, "outline", "metal")
    yield rectangle(small_x, _AXIS - major, end, _AXIS + major, fill="metal")
    for y in (-0.86 * major, 0.86 * major):
        yield Line(small_x + 1.2, _AXIS + y, end, _AXIS + y, "thin")
    if paper.chain.at(TIP) is not None:
        nose = 0.74 * major
        tip = paper.x(TIP)
        yield rectangle(end, _AXIS - nose, tip, _AXIS + nose, fill="metal")
        yield Line((end + tip) / 2, _AXIS - nose - 0.8, (end + tip) / 2, _AXIS + nose + 0.8, "axis")
    yield from _keyway(large + 0.18 * (small_x - large), small_x - 1.4, _AXIS)
    yield Line(large, _AXIS, paper.x(TIP) if paper.chain.at(TIP) else end, _AXIS, "axis")
    yield Text((large + small_x) / 2, _AXIS - r - 1.2, "taper 1:16", 3.0)
    yield Text((small_x + end) / 2, _AXIS - r - 1.2, thread, 3.0)


def _major(thread: str, small: Length) -> float:
    """Half the thread's outside diameter in mm; a little less than the small end where unknown."""
    size = thread.rpartition("-")[0].replace("-", " ")
    try:
        return inches(size).in_mm / 2
    except ValueError:
        return small.in_mm * 0.45


def _datum(paper: _Paper) -> Iterator[Shape]:
    """The coupling's face, in broken line, with the datum's black triangle (ISO 5459)."""
    x, r = paper.face, paper.radius
    hub = paper.x(HUB_END) if paper.chain.at(HUB_END) else x + 2.4 * r
    front = paper.chain.at(FRONT) is not None
    flange = x + (-3.0 if front else 3.0)
    for y in (-1, 1):
        outline = ((x, _AXIS + y * r), (x, _AXIS + y * 2 * r), (flange, _AXIS + y * 2 * r),
                   (flange, _AXIS + y * 1.5 * r))  # fmt: skip
        yield Polygon(outline, "dashed", "", closed=False)
        if not front:
            neck = ((flange, _AXIS + y * 1.5 * r), (hub, _AXIS + y * 1.5 * r), (hub, _AXIS + y * r))
            yield Polygon(neck, "dashed", "", closed=False)
    low = _AXIS + 2 * r
    yield Polygon(((x, low), (x - 1.6, low + 2.4), (x + 1.6, low + 2.4)), "arrow")


def _lengths(paper: _Paper, held: str) -> Iterator[Shape]:
    """The two lengths that are held, above the shaft: face to thread end, and overall."""
    chain, high = paper.chain, _AXIS - paper.radius
    end = paper.x(THREAD)
    tip = paper.x(TIP) if chain.at(TIP) is not None else end
    start = paper.x(paper.start)
    spans = [(paper.face, end, chain.length, 10.0, "face to thread end ")]
    if (start, tip) != (paper.face, end):
        spans.append((start, tip, chain.overall, 4.0, "overall "))
    for x1, x2, length, y, name in spans:
        for x in (x1, x2):
            yield Line(x, high - 0.9, x, y - 1.2, "dimension")
        yield Line(x1, y, x2, y, "dimension")
        yield arrow(x1, y, 1)
        yield arrow(x2, y, -1)
        text = f"{name}{both_exact(length, paper.system)}, {held}"
        yield Text((paper.face + paper.x(THREAD)) / 2 - 14, y - 0.9, text, 3.2)


def _ordinates(paper: _Paper, rows: Sequence[StationRow]) -> Iterator[Shape]:
    """Below the shaft: from each station down, then aside to where its words have room."""
    known = [one for one in paper.chain.stations if one.x is not None]
    letters = {one.key: row for one, row in zip(paper.chain.stations, rows, strict=True)}
    wanted = [paper.x(one.key) for one in known]
    for one, x, place in zip(known, wanted, _spread(wanted), strict=True):
        row = letters[one.key]
        top = _AXIS + (2 * paper.radius + 2.4 if one.x == ZERO else paper.radius + 0.9)
        yield Line(x, top, x, _LABELS - 5.4, "dimension")
        yield Line(x, _LABELS - 5.4, place, _LABELS - 3.0, "dimension")
        yield Text(place, _LABELS, row.letter, 3.4, kind="lit")
        yield Text(place, _LABELS + 3.8, row.inch, 3.1)
        yield Text(place, _LABELS + 7.4, row.mm, 2.7)


def _spread(wanted: Sequence[float]) -> list[float]:
    """Places in the same order, no two too near, none off the paper, each near where it wants."""
    half = _BETWEEN / 2
    places: list[float] = []
    for x in wanted:
        places.append(max(x, places[-1] + _BETWEEN if places else half))
    limit = WIDE - half
    for at in range(len(places) - 1, -1, -1):
        places[at] = min(places[at], limit)
        limit = places[at] - _BETWEEN
    return places
