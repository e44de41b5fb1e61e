"""The drive line with letters in place of numbers: each answer's letter stands where it is taken.

Lengths along the shaft get theirs on their dimension line; what is measured across gets a balloon.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from intake.domain import dimensions as dims
from intake.domain.drawing import FIRST_ROW, ROW, drive_line
from intake.domain.drawing_words import ENGLISH, Words
from intake.domain.elevation import WATER_DOWN, shell
from intake.domain.shapes import Drawing, Line, Polygon, Shape, Text, ellipse
from intake.domain.stations import Stations, sizes, stations
from intake.paper.field import WIDE

_ALONG = ("face_to_strut_aft", "hub_length", "gap_now", "old_length_face_to_thread",
          "gearbox_through")  # fmt: skip
_BALLOON, _SIZE = 2.5, 3.7  # mm


def lettered(stack: Mapping[str, str], letters: Mapping[str, str], words: Words) -> Drawing:
    """The drawing, as wide as the field. ``letters`` by answer slug; other lengths are left out."""
    words = words or ENGLISH
    along = {slug: letter for slug, letter in letters.items() if slug in _ALONG}
    drawn = drive_line(stack, readings=along, width_mm=WIDE, words=words)
    kept = [shape for shape in drawn.shapes if not shape.slug or shape.slug in along]
    axis = max(
        (s for s in kept if isinstance(s, Line) and s.kind == "axis"), key=lambda s: s.x2 - s.x1
    ).y1
    kept = _closed_up(kept, axis + WATER_DOWN + FIRST_ROW)
    layout = str(stack.get("layout") or "inline")
    at = stations(sizes(stack), passes=layout == "v_pass_through", shorten=True, width=WIDE,
                  axis=axis, layout=layout)  # fmt: skip
    shapes = (*kept, *_across(at, letters))
    return replace(drawn, shapes=shapes, height_mm=_bottom(shapes) + 1.2)


def _closed_up(shapes: list[Shape], first: float) -> list[Shape]:
    """Rows of dimensions moved up over rows that nobody stands in any more."""
    rows = sorted({round(_row(s, first)) for s in shapes if _row(s, first) > -0.1})
    lift = {row: (row - new) * ROW for new, row in enumerate(rows)}
    of = {s.slug: round(_row(s, first)) for s in shapes if _row(s, first) > -0.1}
    return [_lifted(s, lift[of[s.slug]], first) if s.slug in of else s for s in shapes]


def _row(shape: Shape, first: float) -> float:
    """Which row a level dimension line lies in; below zero for all that is none."""
    level = isinstance(shape, Line) and shape.slug and shape.y1 == shape.y2
    return (shape.y1 - first) / ROW if level and isinstance(shape, Line) else -1.0


def _lifted(shape: Shape, up: float, first: float) -> Shape:
    """Moved up; an extension line keeps its upper end on the part."""
    if isinstance(shape, Line):
        y1 = shape.y1 if shape.y1 < first - 2 else shape.y1 - up
        return replace(shape, y1=y1, y2=shape.y2 - up)
    if isinstance(shape, Polygon):
        return replace(shape, points=tuple((x, y - up) for x, y in shape.points))
    return replace(shape, y=shape.y - up)


def _across(at: Stations, letters: Mapping[str, str]) -> Iterator[Shape]:
    left = at.breaks[0] if at.breaks else at.strut_fwd
    way = -1 if at.passes else 1
    places = {
        "dia_clean": ((at.log_end + left) / 2, at.axis - at.radius, -6.0, -6.5),
        "flange_od": (at.face + way * 0.3 * at.unit, at.axis - at.flange, way * 8.0, -2.5),
        "shell_od": (at.strut_aft - 0.6, at.axis - shell(at), 5.4, -12.0),
    }
    for slug, (x, y, right, down) in places.items():
        if slug in letters:
            yield from _balloon(x, y, x + right, y + down, letters[slug])
    if "bearing_length" in letters:
        yield from _bearing(at, letters["bearing_length"])


def _balloon(x: float, y: float, to_x: float, to_y: float, letter: str) -> Iterator[Shape]:
    """A letter in a ring, with a leader that ends in a dot on what is meant (ISO 128-2)."""
    yield Line(x, y, to_x, to_y, "dimension")
    yield Polygon(ellipse(x, y, 0.5, 0.5), "arrow")
    yield Polygon(ellipse(to_x, to_y, _BALLOON, _BALLOON), "dimension", "paper")
    yield Text(to_x, to_y + 0.36 * _SIZE, letter, _SIZE)


def _bearing(at: Stations, letter: str) -> Iterator[Shape]:
    """The bearing's length, close under the strut."""
    y = at.axis + at.barrel + 5.2
    x1, x2 = at.strut_fwd, at.strut_aft
    yield Line(x1, at.axis + at.barrel + 0.9, x1, y + 1.2, "dimension")
    yield Line(x2, at.axis + at.barrel + 0.9, x2, y + 1.2, "dimension")
    yield Line(x1, y, x2, y, "dimension")
    yield dims.arrow(x1, y, 1)
    yield dims.arrow(x2, y, -1)
    yield Text((x1 + x2) / 2, y - 0.8, letter, _SIZE)


def _bottom(shapes: tuple[Shape, ...]) -> float:
    lowest = 0.0
    for shape in shapes:
        if isinstance(shape, Line):
            lowest = max(lowest, shape.y1, shape.y2)
        elif isinstance(shape, Polygon):
            lowest = max(lowest, *(y for _x, y in shape.points))
        else:
            lowest = max(lowest, shape.y)
    return lowest
