"""Which shaft of several: the boat seen from above, bow to the left as in the drawing below it."""

from __future__ import annotations

from collections.abc import Iterator

from intake.domain.drawing_words import Words
from intake.domain.shapes import Line, Polygon, Shape, Text, curve, ellipse, path

HIGH = 11.5  # paper mm the view takes, above the drawing
STATIONS = ("port", "starboard", "centre")
_LEFT, _RIGHT, _MIDDLE, _HALF = 30.0, 66.0, 5.6, 4.6
# Facing the bow, which lies to the left, port is the lower side of the paper.
_SHAFTS = {"starboard": -2.2, "centre": 0.0, "port": 2.2}


def plan_view(station: str, words: Words) -> Iterator[Shape]:
    """The boat from above with her shafts; ``station`` is drawn full and named."""
    yield path(_deck(), "outline")
    yield Text(_LEFT - 1.4, _MIDDLE + 1.1, words["bow"], 3.4, "end")
    for name, off in _shafts(station):
        kind = "outline" if name == station else "dashed"
        yield from _shaft(_MIDDLE + off, kind)
    if station in _SHAFTS:
        yield Text(_RIGHT + 3.4, _word_y(station), words[station], 3.4, "start")


def lit_station(station: str, words: Words) -> Iterator[Shape]:
    """The asked shaft lit; both of a pair, each with its side, where none is named yet."""
    for name, off in _shafts(station):
        if name == station or station not in _SHAFTS:
            yield from _shaft(_MIDDLE + off, "lit")
            yield Text(_RIGHT + 3.4, _word_y(name), words[name], 3.4, "start", "lit")


def _shafts(station: str) -> list[tuple[str, float]]:
    return [(name, off) for name, off in _SHAFTS.items() if name != "centre" or station == "centre"]


def _word_y(name: str) -> float:
    return _MIDDLE + 1.1 + 1.25 * _SHAFTS[name]


def _deck() -> tuple[tuple[float, float], ...]:
    y, half, stern = _MIDDLE, _HALF, _RIGHT
    side = curve((stern, y - half * 0.86), (_LEFT + 18, y - half * 1.05),
                 (_LEFT + 7, y - half), (_LEFT, y), 16)  # fmt: skip
    other = tuple((x, 2 * y - at) for x, at in reversed(side))
    return (*side, *other[1:], side[0])


def _shaft(y: float, kind: str) -> Iterator[Shape]:
    x = _RIGHT - 1.0
    yield Line(_LEFT + 20.0, y, x, y, kind)
    yield Polygon(ellipse(x + 0.6, y, 0.5, 1.3, 12), kind, "paper")
