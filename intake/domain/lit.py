"""The answer being asked, lit: what is measured across, shown or told apart rather than measured.

Lengths along the axis are lit by :func:`intake.domain.dimensions.draw_lit`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from intake.domain import dimensions as dims
from intake.domain.drawing_words import Words
from intake.domain.elevation import shell
from intake.domain.gearbox import power_path
from intake.domain.plan_view import lit_station
from intake.domain.shapes import BOLD, Line, Polygon, Shape, Text, rectangle, text_width
from intake.domain.stations import Stations


@dataclass(frozen=True, slots=True)
class Asked:
    """What one lit answer is drawn from; ``plan`` is where the view from above may stand."""

    slug: str
    at: Stations
    text: str
    station: str
    words: Words
    hook: str = ""
    size: float = 4.3

    @property
    def first(self) -> str:
        """What stands at the answer, in brass."""
        return self.hook or self.words.get(f"{self.slug}.first", "")

    @property
    def across(self) -> str:
        """The name of a diameter, with its number."""
        return f"{self.words[f'{self.slug}.name']} ⌀ {self.text}".rstrip()

    def caption(self, where: float, y: float, named: str = "", first: str = "") -> Iterator[Shape]:
        """Two lines below the drawing, as near below ``where`` as there is room."""
        lines = ((first or self.first, "lit"), (named or self.across, "word"))
        for number, (line, kind) in enumerate(lines):
            half = text_width(line, self.size) * (BOLD if kind == "lit" else 1) / 2
            x = min(max(where, half + 0.8), self.at.width - half - 0.8)
            if line:
                at_y = y + 1.2 + number * (self.size + 1.6)
                yield Text(x, at_y, line, self.size, "middle", kind)


def draw_shown(asked: Asked, y: float) -> Iterator[Shape]:
    """The shapes of one answer that is no length along the axis; captions from paper ``y`` on."""
    yield from _SHOWN[asked.slug](asked, y)


def _clean(asked: Asked, y: float) -> Iterator[Shape]:
    at = asked.at
    left = at.breaks[1] if at.breaks else at.log_end
    yield from _bar(asked, left + 0.6, at.strut_fwd - 0.4, y)


def _journal(asked: Asked, y: float) -> Iterator[Shape]:
    yield from _bar(asked, asked.at.strut_fwd, asked.at.strut_aft, y)


def _bar(asked: Asked, x1: float, x2: float, y: float) -> Iterator[Shape]:
    at = asked.at
    yield from _pair(at, x1, x2, at.radius, "lit")
    yield from _across((x1 + x2) / 2, at.axis - at.radius, at.axis + at.radius)
    yield from asked.caption((x1 + x2) / 2, y)


def _shell(asked: Asked, y: float) -> Iterator[Shape]:
    at, r = asked.at, shell(asked.at)
    yield from _pair(at, at.strut_fwd, at.strut_aft, r, "lit")
    yield from _across(at.strut_aft + 1.6, at.axis - r, at.axis + r)
    yield from _pair(at, at.strut_aft, at.strut_aft + 2.4, r, "tape")
    yield from asked.caption((at.strut_fwd + at.strut_aft) / 2, y)


def _flange(asked: Asked, y: float) -> Iterator[Shape]:
    at, r, thick = asked.at, asked.at.flange, 0.55 * asked.at.unit
    left = min(at.gear_left, at.front_tip) - 1.6
    yield from _pair(at, at.face - thick, at.face + thick, r, "lit")
    yield from _pair(at, left - 1, at.face - thick, r, "tape")
    yield from _across(max(left, 1.2), at.axis - r, at.axis + r)
    yield from asked.caption(at.face, y)


def _pair(at: Stations, x1: float, x2: float, r: float, kind: str) -> Iterator[Shape]:
    yield from (Line(x1, at.axis + sign * r, x2, at.axis + sign * r, kind) for sign in (-1, 1))


def _across(x: float, top: float, bottom: float) -> Iterator[Shape]:
    """An upright dimension with its arrows outside when it is small."""
    small = bottom - top < 8
    reach = 4.0 if small else 0.0
    yield Line(x, top - reach, x, bottom + reach, "lit")
    way = -1 if small else 1
    yield _lit_arrow_up(x, top, way)
    yield _lit_arrow_up(x, bottom, -way)


def _lit_arrow_up(x: float, y: float, way: int) -> Polygon:
    return Polygon(dims.arrow_up(x, y, way).points, "lit", "paper")


def _lit_arrow(x: float, y: float, way: int) -> Polygon:
    """An arrow head whose tip is at x and points to the right (1) or to the left (-1)."""
    back = x - way * 2.8
    return Polygon(((x, y), (back, y - 1.1), (back, y + 1.1)), "lit", "paper")


def _hub_way(asked: Asked, y: float) -> Iterator[Shape]:
    at, hub = asked.at, asked.at.unit
    way = -1 if at.passes else 1
    near = at.face + way * 0.5 * at.unit
    yield rectangle(near, at.axis - hub, at.hub_end, at.axis + hub, "lit", "")
    below = at.axis + hub + 2.6
    yield Line(near, below, at.hub_end, below, "lit")
    yield _lit_arrow(at.hub_end + way * 2.2, below, way)
    said = asked.words["forward" if at.passes else "aft"]
    yield from asked.caption((near + at.hub_end) / 2, y, said)


def _datum_face(asked: Asked, y: float) -> Iterator[Shape]:
    at = asked.at
    yield Line(at.face, at.axis - at.flange, at.face, at.axis + at.flange, "lit")
    yield Line(at.face, at.axis + at.flange, at.face, y - 1.6, "tape")
    yield from dims.tape(at.face, min(at.strut_fwd, at.face + 34.0), y)
    yield from asked.caption(at.face + 12.0, y + 5.4, asked.words[f"{asked.slug}.last"])


def _faces(asked: Asked, y: float) -> Iterator[Shape]:
    """The joint between the two flanges, an arrow at it from either side."""
    at, below = asked.at, asked.at.axis + asked.at.flange + 1.9
    for way in (-1, 1):
        x = at.face - way * 0.45
        yield Line(x, at.axis - at.flange, x, at.axis + at.flange, "lit")
        yield Line(at.face - way * 7.5, below, at.face - way * 3.4, below, "lit")
        yield _lit_arrow(at.face - way * 0.9, below, way)
    yield from asked.caption(at.face, y, asked.words[f"{asked.slug}.last"])


def _drive(asked: Asked, y: float) -> Iterator[Shape]:
    """The way the power takes, from the engine to the shaft."""
    run = power_path(asked.at)
    for (x1, y1), (x2, y2) in pairwise(run):
        yield Line(x1, y1, x2, y2, "lit")
    yield _lit_arrow(run[-1][0] + 2.2, run[-1][1], 1)
    named = asked.words[asked.at.layout]
    yield from asked.caption(asked.at.face, y, named, asked.words["drive_layout.first"])


def _which(asked: Asked, y: float) -> Iterator[Shape]:
    yield from lit_station(asked.station, asked.words)
    yield from asked.caption(asked.at.width / 2, y, asked.words[f"{asked.slug}.last"])


_SHOWN: dict[str, Callable[[Asked, float], Iterator[Shape]]] = {
    "dia_clean": _clean,
    "dia_journal": _journal,
    "flange_od": _flange,
    "shell_od": _shell,
    "strut_bore": _shell,
    "flange_direction": _hub_way,
    "forward_datum": _datum_face,
    "coupling_state": _faces,
    "drive_layout": _drive,
    "boat_name_and_station": _which,
}
SHOWN = tuple(_SHOWN)
