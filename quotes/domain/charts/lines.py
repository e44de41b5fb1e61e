"""A figure by month: a line, what it may really be as a band, marks, and bars of counts below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from quotes.domain.charts.frame import WIDTH, Words, box, frame, line, nothing, path, text

_LEFT, _RIGHT, _TOP, _ROOM, _BELOW = 48, 6, 16, 150, 22
_COUNT_ROOM = 34
_MOST_NAMES = 6
_MARK, _MANY = 14, 4  # room for the number of a mark, and for how many to the right of a line


@dataclass(frozen=True, slots=True)
class Line:
    """One line. A month without a value is None: the line has a gap there.

    ``band``: the lower and upper end for each month. ``kind`` 0 or 1: full, or broken.
    """

    name: str
    values: tuple[float | None, ...]
    band: tuple[tuple[float, float] | None, ...] = ()
    kind: int = 0


@dataclass(frozen=True, slots=True)
class Plot:
    """Lines over months. ``low`` and ``high`` are the ends of the scale, ``ticks`` what is written
    beside it (value, words). ``marks``: (place of the month, its number). ``counts`` in bars below.
    """

    months: tuple[str, ...]
    lines: tuple[Line, ...]
    low: float
    high: float
    ticks: tuple[tuple[float, str], ...]
    target: float | None = None
    marks: tuple[tuple[int, str], ...] = ()
    counts: tuple[int, ...] = field(default=())
    counts_words: str = ""


def lines(plot: Plot, words: Words) -> str:
    """Draw it; a single month is drawn as a point."""
    if not plot.months or all(value is None for one in plot.lines for value in one.values):
        return nothing(words, "Nothing in these months.")
    drawn = [*_scale(plot), *_legend(plot)]
    for one in plot.lines:
        drawn += _line(plot, one)
    drawn += _marks(plot)
    top = _TOP + _ROOM + _BELOW
    drawn += _counts(plot, top, words.key)
    return frame(words, top + (_COUNT_ROOM + 18 if plot.counts else 0) + _legend_room(plot), drawn)


def _legend_room(plot: Plot) -> float:
    return 18 if len(plot.lines) > 1 else 0


def _x(plot: Plot, at: int) -> float:
    room = WIDTH - _LEFT - _RIGHT
    if len(plot.months) == 1:
        return _LEFT + room / 2
    return _LEFT + 8 + (room - 16) * at / (len(plot.months) - 1)


def _y(plot: Plot, value: float) -> float:
    span = (plot.high - plot.low) or 1
    inside = min(max(value, plot.low), plot.high)
    return _TOP + _ROOM * (1 - (inside - plot.low) / span)


def _scale(plot: Plot) -> Iterator[str]:
    for value, words in plot.ticks:
        y = _y(plot, value)
        yield line(_LEFT, y, WIDTH - _RIGHT, y)
        yield text(words, _LEFT - 4, y + 4, "chart-left")
    if plot.target is not None:
        y = _y(plot, plot.target)
        yield line(_LEFT, y, WIDTH - _RIGHT, y, "target")
        yield text("target", _LEFT + 2, y - 3, "chart-end")
    step = max(1, -(-len(plot.months) // _MOST_NAMES))
    for at, month in enumerate(plot.months):
        if at % step == 0:
            yield text(month, _x(plot, at), _TOP + _ROOM + 14, "chart-month")


def _line(plot: Plot, one: Line) -> Iterator[str]:
    spots = [(at, value) for at, value in enumerate(one.values) if value is not None]
    if one.band:
        ends = [(at, band) for at, band in enumerate(one.band) if band]
        upper = [(_x(plot, at), _y(plot, band[1])) for at, band in ends]
        lower = [(_x(plot, at), _y(plot, band[0])) for at, band in reversed(ends)]
        yield path([*upper, *lower], "band", closed=True)
    for run in _runs(spots):
        yield path([(_x(plot, at), _y(plot, value)) for at, value in run], f"trace-{one.kind}")
    for at, value in spots:
        yield _spot(_x(plot, at), _y(plot, value), one.kind)


def _runs(spots: Sequence[tuple[int, float]]) -> Iterator[list[tuple[int, float]]]:
    """Neighbouring months together; a month without a value parts them."""
    run: list[tuple[int, float]] = []
    for spot in spots:
        if run and spot[0] != run[-1][0] + 1:
            yield run
            run = []
        run.append(spot)
    if run:
        yield run


def _spot(x: float, y: float, kind: int) -> str:
    if kind:
        return f'<rect class="spot" x="{x - 3:.1f}" y="{y - 3:.1f}" width="6" height="6"/>'
    return f'<circle class="spot" cx="{x:.1f}" cy="{y:.1f}" r="3"/>'


def _marks(plot: Plot) -> Iterator[str]:
    seen: dict[int, int] = {}
    for at, number in plot.marks:
        x, row = _x(plot, at), seen.get(at, 0)
        seen[at] = row + 1
        yield line(x, _TOP - 2, x, _TOP + _ROOM, "event")
        aside = 2 + row * _MARK if x < WIDTH - _MANY * _MARK else -(row + 1) * _MARK
        yield text(number, x + aside, _TOP - 4, "chart-end")


def _counts(plot: Plot, top: float, key: str) -> Iterator[str]:
    if not plot.counts:
        return
    highest, step = max(plot.counts) or 1, (WIDTH - _LEFT - _RIGHT) / len(plot.counts)
    yield text(plot.counts_words, 0, top + 10, "chart-label", 52)
    for at, count in enumerate(plot.counts):
        height = _COUNT_ROOM * count / highest
        width = min(step * 0.6, 22)
        x = _x(plot, at) - width / 2
        yield box(x, top + 18 + _COUNT_ROOM - height, width, height, key, "fill-1")


def _legend(plot: Plot) -> Iterator[str]:
    if len(plot.lines) < 2:
        return
    top = _TOP + _ROOM + _BELOW + (_COUNT_ROOM + 18 if plot.counts else 0) + 10
    x = 0.0
    for one in plot.lines:
        yield line(x, top - 4, x + 22, top - 4, f"trace-{one.kind}")
        yield _spot(x + 11, top - 4, one.kind)
        yield text(one.name, x + 28, top, "chart-label", 24)
        x += WIDTH / 2
