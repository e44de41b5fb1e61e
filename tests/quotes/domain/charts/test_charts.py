"""Every chart: well formed, inside its frame, readable at its ends, whatever the numbers are."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.domain.charts.bars import Bar, bars
from quotes.domain.charts.frame import LETTER, WIDTH, Words
from quotes.domain.charts.heat import HeatRow, heat
from quotes.domain.charts.histogram import Column, histogram
from quotes.domain.charts.lines import Line, Plot, lines
from quotes.domain.charts.reliability import Point, reliability
from quotes.domain.charts.scatter import Dot, scatter

HOSTILE = "<script>&\"'"
WORDS = Words("k", f"title {HOSTILE}", f"about {HOSTILE}")
NAME = "{http://www.w3.org/2000/svg}"


def plot(values: tuple[float | None, ...], **told: object) -> Plot:
    names = tuple(f"M{at}" for at in range(len(values)))
    shown: dict[str, object] = {"low": 0.0, "high": 1.0, "ticks": ((0.0, "0 %"), (1.0, "100 %"))}
    return Plot(names, (Line(HOSTILE, values), Line("b", values, kind=1)), **{**shown, **told})  # type: ignore[arg-type]


def some_lines(n: float) -> str:
    marks = ((0, "1"), (0, "2"), (2, "3"), (2, "4"))
    return lines(plot((n, None, 0.5), counts=(int(n), 0, 1), target=n, marks=marks), WORDS)


def some_points(n: float) -> str:
    share = min(n, 1.0)
    return scatter([Dot("1", share, 0.0, n), Dot("2", 0.0, share, 0.0)], WORDS, HOSTILE, "y")


def some_bars(n: float) -> str:
    rows = [Bar(HOSTILE * 20, (n, n), f"{n:.0f}", (n, n * 3)), Bar("b", (0.0,), HOSTILE)]
    return bars(rows, WORDS, (HOSTILE,), marked=("half", "nine of ten"))


def some_bins(n: float) -> str:
    return reliability([Point(HOSTILE, 0.5, min(n, 1.0), 0.0, 1.0, int(n))], WORDS)


CHARTS: dict[str, Callable[[float], str]] = {
    "bars": some_bars,
    "heat": lambda n: heat([HeatRow(HOSTILE * 20, (int(n), 0, 1))], ("a", HOSTILE, "c"), WORDS),
    "histogram": lambda n: histogram([Column(HOSTILE, int(n), 1.0), Column("", 1, n)], WORDS),
    "lines": some_lines,
    "reliability": some_bins,
    "scatter": some_points,
}
SIDES = {"x": 0, "cx": 0, "x1": 0, "x2": 0, "y": 1, "cy": 1, "y1": 1, "y2": 1}
EMPTY = {
    "bars": bars((), WORDS),
    "heat": heat((), (), WORDS),
    "histogram": histogram([Column("0", 0, 0.0)], WORDS),
    "lines": lines(plot((None, None)), WORDS),
    "reliability": reliability((), WORDS),
    "scatter": scatter((), WORDS, "x", "y"),
}
each_chart = pytest.mark.parametrize("name", CHARTS)


def parsed(svg: str) -> ElementTree.Element:
    named = svg.replace("<svg ", f'<svg xmlns="{NAME[1:-1]}" ', 1)
    return ElementTree.fromstring(named)  # noqa: S314 - our own picture


def texts(svg: str) -> list[tuple[str, float, float, float]]:
    """Every text with its two ends and its base line, letters taken at their average width."""
    found = []
    for one in parsed(svg).iter(f"{NAME}text"):
        kind, said = one.get("class", ""), one.text or ""
        x, width = float(one.get("x", "")), len(said) * LETTER
        is_centred = kind.startswith(("chart-value", "chart-month"))
        left = x - width / 2 if is_centred else x - width if kind == "chart-left" else x
        found.append((said, left, left + width, float(one.get("y", ""))))
    return found


@each_chart
@pytest.mark.parametrize("n", [0.0, 1.0, 1e12])
def test_nothing_leaves_the_frame_whatever_the_numbers(name: str, n: float) -> None:
    svg = parsed(CHARTS[name](n))
    _, _, width, height = (float(part) for part in svg.get("viewBox", "").split())
    assert width == WIDTH
    for one in svg.iter():
        for side in SIDES.keys() & one.keys():
            most = (width, height)[SIDES[side]]
            assert -0.1 <= float(one.get(side, "")) <= most + 0.1, (one.tag, one.attrib)
    sizes = [float(r.get(of, "")) for r in svg.iter(f"{NAME}rect") for of in ("width", "height")]
    assert all(size >= 0 and math.isfinite(size) for size in sizes)


@each_chart
def test_a_chart_says_what_it_is_and_takes_no_markup_and_no_style(name: str) -> None:
    text = CHARTS[name](3.0)
    svg = parsed(text)
    assert svg.get("role") == "img"
    assert svg.findtext(f"{NAME}title") == WORDS.title
    assert (svg.findtext(f"{NAME}desc") or "").startswith("about")
    ids = {one.get("id") for one in svg if one.tag in (f"{NAME}title", f"{NAME}desc")}
    assert set((svg.get("aria-labelledby") or "").split()) == ids
    assert "<script" not in text
    assert not re.search(r"\s(style|on\w+)=", text)


@pytest.mark.parametrize("name", EMPTY)
def test_no_data_is_said_in_words(name: str) -> None:
    assert parsed(EMPTY[name]).findtext(f"{NAME}text")


@given(many=st.integers(1, 60))
def test_months_on_an_axis_never_touch(many: int) -> None:
    names = tuple(f"{at:03d} ’26" for at in range(many))
    whole = Plot(names, (Line("a", (0.5,) * many),), 0.0, 1.0, ())
    both = (lines(whole, WORDS), heat([HeatRow("a", (1,) * many)], names, WORDS))
    for svg in both:
        shown = [one for one in texts(svg) if one[0] in names]
        assert shown[0][0] == names[0]
        assert all(left >= 0 and right <= WIDTH for _, left, right, _ in shown)
        assert all(one[2] < other[1] for one, other in pairwise(shown))


@given(spots=st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), min_size=2, max_size=8))
def test_labels_of_points_stand_free_of_each_other(spots: list[tuple[float, float]]) -> None:
    dots = [Dot(str(at), x, y, at) for at, (x, y) in enumerate(spots)]
    svg = scatter(dots, WORDS, "to the right", "up")
    labels = [one for one in texts(svg) if one[0].isdigit()]
    assert len(labels) == len(dots)
    for at, one in enumerate(labels):
        for other in labels[:at]:
            across = min(one[2], other[2]) - max(one[1], other[1])
            assert across < 0.01 or abs(one[3] - other[3]) > 10.9


def test_what_is_said_at_the_end_of_a_bar_stays_inside() -> None:
    rows = [Bar("long", (9e9,), "9 000 000 of 9 000 000"), Bar("none", (0.0,), "0")]
    said = texts(bars(rows, WORDS))
    assert all(right <= WIDTH for _, _, right, _ in said)


def test_parts_of_a_bar_differ_in_their_pattern_and_the_legend_says_which() -> None:
    svg = bars([Bar("a", (1.0, 2.0, 3.0), "6")], WORDS, ("one", "two", "three"))
    fills = re.findall(r'class="part"[^>]*fill="url\(#(k-fill-\d)\)"', svg)
    assert fills[:3] == fills[3:] == ["k-fill-0", "k-fill-1", "k-fill-2"]
    shapes = [ElementTree.tostring(one) for one in parsed(svg).iter(f"{NAME}pattern")]
    assert len({re.sub(rb'id="[^"]*"', b"", shape) for shape in shapes}) == 4


def test_each_cell_has_its_number_and_what_is_none_stays_empty() -> None:
    svg = heat([HeatRow("a", (12, 0, 3))], ("x", "y", "z"), WORDS)
    assert [said for said, *_ in texts(svg)] == ["x", "y", "z", "a", "12", "3"]
    assert re.findall(r"heat-(\d)", svg) == ["4", "0", "1"]


def test_a_month_without_a_value_parts_the_line() -> None:
    one = Line("l", (0.1, 0.2, None, 0.4, 0.5))
    svg = lines(Plot(("a", "b", "c", "d", "e"), (one,), 0, 1, ()), WORDS)
    assert svg.count('class="trace-0"') == 2
    assert svg.count('class="spot"') == 4


def test_two_marks_of_one_month_stand_beside_each_other() -> None:
    svg = lines(plot((0.1, 0.2), marks=((1, "1"), (1, "2"))), WORDS)
    ends = [one for one in texts(svg) if one[0] in ("1", "2")]
    assert all(right <= WIDTH for _, _, right, _ in ends)
    assert ends[0][2] <= ends[1][1] or ends[1][2] <= ends[0][1]
