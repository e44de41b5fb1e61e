"""The gauges, measured in the PDF's own geometry: what is wrong here is wrong on every print."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from functools import cache
from itertools import pairwise
from math import atan2, degrees, pi, sqrt

import numpy as np
import pypdfium2
import pytest

from intake.paper.gauges import gauges_pdf
from tests.intake.paper.geometry import Page, Stroke, outside, pages
from tests.quotes.paper.papers import read

INCH = 25.4
TOLERANCE = 0.02  # mm
SIZES = ("a4", "letter")

either_size = pytest.mark.parametrize("size", SIZES)


@cache
def the_gauges(size: str = "a4") -> bytes:
    return gauges_pdf(shop="Otterhithe Shaft Desk", size=size)


@cache
def the_pages(size: str) -> tuple[Page, ...]:
    return pages(the_gauges(size))


# --- The page and its scale bars --------------------------------------------------------


@pytest.mark.parametrize(("size", "wide", "high"), [("a4", 210, 297), ("letter", 215.9, 279.4)])
def test_three_pages_of_the_size_asked_for(size: str, wide: float, high: float) -> None:
    found = the_pages(size)
    assert len(found) == 3
    for page in found:
        assert (page.wide, page.high) == pytest.approx((wide, high), abs=0.01)


@either_size
def test_nothing_reaches_into_the_margin_a_printer_leaves_white(size: str) -> None:
    for page in the_pages(size):
        assert outside(page, 8.0) == []


@either_size
@pytest.mark.parametrize("number", [0, 1, 2])
def test_both_bars_stand_on_every_page(size: str, number: int) -> None:
    page = the_pages(size)[number]
    upright = max(page.figure("Scale bar, 100 mm"), key=lambda stroke: stroke.long)
    level = max(page.figure("Scale bar, 4 inches"), key=lambda stroke: stroke.long)
    assert upright.is_upright
    assert upright.long == pytest.approx(100, abs=TOLERANCE)
    assert level.is_level
    assert level.long == pytest.approx(101.6, abs=TOLERANCE)
    ticks = sorted(s.y[0] for s in page.figure("Scale bar, 100 mm") if s.is_level)
    assert [below - above for above, below in pairwise(ticks)] == pytest.approx([10] * 10, abs=1e-3)
    assert (ticks[0], ticks[-1]) == pytest.approx(upright.y, abs=1e-3)
    ticks = sorted(s.x[0] for s in page.figure("Scale bar, 4 inches") if s.is_upright)
    assert [b - a for a, b in pairwise(ticks)] == pytest.approx([INCH / 4] * 16, abs=1e-3)
    assert (ticks[0], ticks[-1]) == pytest.approx(level.x, abs=1e-3)


@either_size
@pytest.mark.parametrize("number", [0, 1, 2])
def test_a_print_of_it_has_its_bars_at_size(size: str, number: int) -> None:
    """Rendered at 600 dpi by another program, as a printer would; two pixels are 0.085 mm."""
    dpi = 600
    document = pypdfium2.PdfDocument(the_gauges(size))
    dark = document[number].render(scale=dpi / 72, grayscale=True).to_numpy() < 128
    page = the_pages(size)[number]
    bar = max(page.figure("Scale bar, 100 mm"), key=lambda stroke: stroke.long)
    column = dark[:, round((bar.x[0] + 0.1) / INCH * dpi)]
    assert _run(column, (bar.y[0] + 50) / INCH * dpi) / dpi * INCH == pytest.approx(100, abs=0.09)
    bar = max(page.figure("Scale bar, 4 inches"), key=lambda stroke: stroke.long)
    row = dark[round((bar.y[0] + 0.1) / INCH * dpi)]
    assert _run(row, (bar.x[0] + 50) / INCH * dpi) / dpi * INCH == pytest.approx(101.6, abs=0.09)


def _run(line: np.ndarray, inside: float) -> int:
    """How many dark pixels stand together round one of them, beside the ticks."""
    white = np.flatnonzero(~line)
    at = np.searchsorted(white, round(inside))
    return int(white[at] - white[at - 1] - 1)


@either_size
def test_every_page_refuses_a_shrunken_print_and_says_how_to_print(size: str) -> None:
    for page in the_pages(size):
        assert "If this bar is not 100 mm long, do not use this sheet." in page.text
        assert "print at 100 %" in page.text


# --- The wrap strip ---------------------------------------------------------------------


def strip(size: str) -> tuple[tuple[Stroke, ...], float, float]:
    """The strip's strokes, and the left and right edge of its scale."""
    strokes = the_pages(size)[0].figure("Wrap strip")
    outline = max(strokes, key=lambda stroke: stroke.long)
    long_sides = [
        a[0] for a, b in pairwise(outline.points) if a[0] == pytest.approx(b[0], abs=1e-3)
        and abs(a[1] - b[1]) > 150
    ]  # fmt: skip
    return strokes, min(long_sides), max(long_sides)


def marks(size: str, side: str) -> list[float]:
    """Where the marks of one scale stand along the strip; the first is the scale's 0."""
    strokes, left, right = strip(size)
    edge, end = (right, 1) if side == "inch" else (left, 0)
    return sorted(
        s.y[0] for s in strokes if s.is_level and s.long < 6 and abs(s.x[end] - edge) < 1e-3
    )


@either_size
def test_every_inch_mark_stands_at_pi_times_its_diameter(size: str) -> None:
    zero, *found = marks(size, "inch")
    meant = [pi * count / 64 * INCH for count in range(32, 193)]
    assert len(found) == len(meant) == 161
    assert [at - zero for at in found] == pytest.approx(meant, abs=TOLERANCE)


@either_size
def test_every_millimetre_mark_stands_at_pi_times_its_diameter(size: str) -> None:
    zero, *found = marks(size, "mm")
    meant = [pi * half / 2 for half in range(24, 153)]
    assert len(found) == len(meant) == 129
    assert [at - zero for at in found] == pytest.approx(meant, abs=TOLERANCE)


@either_size
def test_the_line_to_read_at_allows_for_the_papers_own_thickness(size: str) -> None:
    strokes, left, right = strip(size)
    lines = [s for s in strokes if s.is_level and s.long == pytest.approx(7, abs=0.01)]
    on_wings = [s for s in lines if s.x[1] <= left + 0.01 or s.x[0] >= right - 0.01]
    assert len(on_wings) == 2
    zero = marks(size, "inch")[0]
    for line in on_wings:
        assert zero - line.y[0] == pytest.approx(pi * 0.10, abs=TOLERANCE)
    assert "0.31 mm before the 0" in the_pages(size)[0].text


@either_size
def test_a_prick_is_aimed_at_rings_on_that_line_among_the_marks(size: str) -> None:
    strokes, left, right = strip(size)
    rings = [s for s in strokes if s.curved]
    line = marks(size, "inch")[0] - pi * 0.10
    assert len(rings) == 2
    for ring in rings:
        assert sum(ring.y) / 2 == pytest.approx(line, abs=TOLERANCE)
        middle = sum(ring.x) / 2
        assert 0 < min(middle - left, right - middle) < 5.4


@either_size
def test_numbers_stand_at_their_marks(size: str) -> None:
    """The middle of each whole number of millimetres, and of 1, 2 and 3 in, along the strip."""
    _strokes, left, right = strip(size)
    lanes = {"mm": (left, (left + right) / 2), "inch": ((left + right) / 2, right)}
    zero = marks(size, "mm")[0]
    for lane, scale, numbers in (("mm", 1.0, range(15, 76, 5)), ("inch", INCH, range(1, 4))):
        found = _numbers(the_pages(size)[0], *lanes[lane], below=zero + 30)
        assert sorted(found) == sorted(str(number) for number in numbers)
        for number in numbers:
            assert found[str(number)] - zero == pytest.approx(pi * number * scale, abs=0.4)


def _numbers(page: Page, left: float, right: float, *, below: float) -> dict[str, float]:
    mm = 25.4 / 72
    bold = [
        sign
        for sign in page.chars
        if not sign["upright"] and "Bold" in sign["fontname"] and sign["text"].isdigit()
        and left <= (sign["x0"] + sign["x1"]) / 2 * mm <= right and sign["top"] * mm > below
    ]  # fmt: skip
    groups: list[list[dict]] = []  # type: ignore[type-arg]
    for sign in sorted(bold, key=lambda sign: sign["top"]):
        if groups and sign["top"] - groups[-1][-1]["bottom"] < 1:
            groups[-1].append(sign)
        else:
            groups.append([sign])
    return {
        "".join(sign["text"] for sign in group): (group[0]["top"] + group[-1]["bottom"]) / 2 * mm
        for group in groups
    }


# --- The target -------------------------------------------------------------------------


@either_size
def test_circles_have_the_diameters_they_are_named_by(size: str) -> None:
    circles = [s for s in the_pages(size)[1].figure("Target") if s.curved]
    across = sorted(s.x[1] - s.x[0] for s in circles)
    flanges = [3.5 * INCH, 4 * INCH, 4.5 * INCH, 5 * INCH, 5.75 * INCH, 7.25 * INCH, 100, 102]
    bolt_circles = [78, 3.25 * INCH, 4.25 * INCH, 4.75 * INCH, 6 * INCH]
    assert across == pytest.approx(sorted([*flanges, *bolt_circles]), abs=TOLERANCE)
    assert any(one == pytest.approx(127, abs=TOLERANCE) for one in across)
    for circle in circles:
        assert circle.y[1] - circle.y[0] == pytest.approx(circle.x[1] - circle.x[0], abs=1e-3)
        assert sum(circle.x) / 2 == pytest.approx(sum(circles[0].x) / 2, abs=1e-3)
        assert sum(circle.y) / 2 == pytest.approx(sum(circles[0].y) / 2, abs=1e-3)


@either_size
def test_spokes_stand_for_three_four_and_six_bolts(size: str) -> None:
    strokes = the_pages(size)[1].figure("Target")
    ring = next(s for s in strokes if s.curved)
    middle = sum(ring.x) / 2, sum(ring.y) / 2
    angles = set()
    for spoke in (s for s in strokes if not s.curved and 80 < _length(s) < 90):
        far = max(spoke.points, key=lambda p: abs(p[0] - middle[0]) + abs(p[1] - middle[1]))
        angles.add(round(degrees(atan2(middle[1] - far[1], far[0] - middle[0])), 3) % 360)
    for count, first in ((3, 90), (4, 0), (6, 30)):
        assert {(first + 360 / count * n) % 360 for n in range(count)} <= angles
    assert len(angles) == 8


def _length(stroke: Stroke) -> float:
    (x1, y1), (x2, y2) = stroke.points[0], stroke.points[-1]
    return sqrt((x2 - x1) ** 2 + (y2 - y1) ** 2)


@either_size
def test_both_scales_of_diameters_read_from_the_centre(size: str) -> None:
    strokes = the_pages(size)[1].figure("Target")
    ring = next(s for s in strokes if s.curved)
    middle, axis = sum(ring.x) / 2, sum(ring.y) / 2
    ticks = [s for s in strokes if s.is_upright and s.y[1] == pytest.approx(axis, abs=1e-3)
             and s.long < 3]  # fmt: skip
    inch = sorted(2 * (s.x[0] - middle) / INCH for s in ticks if s.x[0] > middle)
    metric = sorted(2 * (middle - s.x[0]) for s in ticks if s.x[0] < middle)
    assert inch == pytest.approx([n / 8 for n in range(4, 59)], abs=TOLERANCE / INCH)
    assert metric == pytest.approx([2 * n for n in range(6, 93)], abs=TOLERANCE)


# --- Comb and wedge ---------------------------------------------------------------------


@either_size
def test_comb_teeth_stand_a_pitch_apart_on_the_edge(size: str) -> None:
    combs = [s for s in the_pages(size)[2].figure("Thread comb") if len(s.points) > 10]
    meant = [*(INCH / count for count in (13, 11, 10, 9, 8, 7, 6)), 1.5, 2, 2.5, 3]
    found = []
    for comb in combs:
        crests, roots = comb.points[::2], comb.points[1::2]
        steps = [b[0] - a[0] for a, b in pairwise(crests)]
        found.append(sum(steps) / len(steps))
        # No step is off, and their errors do not add up.
        assert steps == pytest.approx([found[-1]] * len(steps), abs=1e-3)
        assert len({round(y, 3) for _x, y in crests}) == 1
        deep = [abs(y - crests[0][1]) for _x, y in roots]
        assert deep == pytest.approx([found[-1] * sqrt(3) / 2] * len(deep), abs=0.01)
        assert crests[-1][0] - crests[0][0] > 30
    assert sorted(found) == pytest.approx(sorted(meant), abs=0.001)


@either_size
def test_comb_crests_lie_on_a_line_that_is_cut(size: str) -> None:
    strokes = the_pages(size)[2].figure("Thread comb")
    edges = {round(y, 2) for s in strokes if len(s.points) < 10 for _x, y in s.points}
    for comb in (s for s in strokes if len(s.points) > 10):
        assert round(comb.points[0][1], 2) in edges


def the_wedge(size: str) -> tuple[tuple[Stroke, ...], float, float, float]:
    """Its strokes, the y of its fold, the x of its thin end and of its thick end."""
    strokes = the_pages(size)[2].figure("Gap wedge")
    fold = max((s for s in strokes if s.is_level), key=lambda s: s.long)
    return strokes, fold.y[0], fold.x[0], fold.x[1]


@either_size
def test_the_wedge_rises_one_in_six_from_a_quarter_to_one_and_a_quarter(size: str) -> None:
    strokes, fold, thin, thick = the_wedge(size)
    sides = [s for s in strokes if len(s.points) == 4]
    assert thick - thin == pytest.approx(6 * INCH, abs=TOLERANCE)
    assert len(sides) == 2  # the wedge and its flap
    for side, way in zip(sorted(sides, key=lambda s: s.y[0]), (-1, 1), strict=True):
        meant = [(thin, 0), (thin, 0.25 * INCH), (thick, 1.25 * INCH), (thick, 0)]
        for (x, y), (meant_x, high) in zip(side.points, meant, strict=True):
            assert (x, y) == pytest.approx((meant_x, fold + way * high), abs=TOLERANCE)


@either_size
def test_each_mark_of_the_wedge_stands_where_it_is_as_high_as_it_says(size: str) -> None:
    strokes, fold, thin, _thick = the_wedge(size)
    upright = [s for s in strokes if s.is_upright and len(s.points) == 2]
    on_fold = sorted(s.x[0] for s in upright if s.y[0] == pytest.approx(fold, abs=1e-3))
    high = [0.25 * INCH + (x - thin) / 6 for x in on_fold]
    assert high == pytest.approx(list(range(7, 32)), abs=TOLERANCE)
    on_slope = sorted(
        (s.x[0], s.y[1] - fold) for s in upright if s.y[0] != pytest.approx(fold, abs=1e-3)
    )
    assert [y for _x, y in on_slope] == pytest.approx(
        [n / 32 * INCH for n in range(8, 41)], abs=TOLERANCE
    )
    for x, y in on_slope:
        assert y == pytest.approx(0.25 * INCH + (x - thin) / 6, abs=TOLERANCE)


def test_what_is_folded_is_drawn_with_long_dashes_and_two_dots() -> None:
    page = read(the_gauges()).pages[2]
    dashes = [
        tuple(float(one) for one in operands[0])
        for operands, operator in page.get_contents().operations
        if operator == b"d"
    ]
    double_dotted = [one for one in dashes if len(one) == 6]
    assert double_dotted
    assert all(one[0] > 5 * one[1] > 5 * one[2] for one in double_dotted)


# --- What it says, and how --------------------------------------------------------------


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (0, "Standard uncertainty 0.006 in (0.15 mm)"),
        (0, "no fit can be made by it"),
        (0, "Prick a pin"),
        (1, "standard uncertainty 0.04 in (1 mm)"),
        (1, "4 in from 102 mm not at all"),
        (2, "Standard uncertainty 0.03 in (0.8 mm)"),
        (2, "cannot tell 13 an inch from 2 mm"),
        (2, "13 per inch"),
    ],
)
def test_it_says_what_paper_can_do_and_what_not(number: int, said: str) -> None:
    assert said in the_pages("a4")[number].text


@either_size
def test_fonts_are_embedded_and_the_file_is_small(size: str) -> None:
    assert len(the_gauges(size)) <= 80_000
    for page in read(the_gauges(size)).pages:
        for font in page["/Resources"]["/Font"].values():
            assert "/FontFile2" in font.get_object()["/FontDescriptor"].get_object()


def test_it_is_tagged_and_says_its_title_and_language() -> None:
    paper = read(the_gauges())
    root = paper.trailer["/Root"]
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"].get_object()["/Marked"]
    assert paper.metadata.title == "Paper gauges"
    assert all("/StructParents" in page for page in paper.pages)
    figures = {stroke.figure for page in the_pages("a4") for stroke in page.strokes}
    assert "" not in figures  # every line belongs to a figure that says what it is


def test_the_same_size_makes_the_same_bytes_in_another_process() -> None:
    code = (
        "import hashlib; from intake.paper.gauges import gauges_pdf;"
        "print(hashlib.sha256(gauges_pdf(shop='Otterhithe Shaft Desk', size='a4')).hexdigest())"
    )
    environ = {**os.environ, "PYTHONHASHSEED": "7"}
    said = subprocess.run(
        [sys.executable, "-c", code], env=environ, capture_output=True, text=True, check=True
    )
    assert said.stdout.strip() == hashlib.sha256(the_gauges()).hexdigest()


@either_size
def test_a_language_a_third_longer_still_fits(size: str) -> None:
    def longer(text: str) -> str:
        return f"{text} {'palabra ' * (len(text) // 24)}".strip()

    pdf = gauges_pdf(shop="x", size=size, say=longer, language="es")
    assert read(pdf).trailer["/Root"]["/Lang"] == "es"
    for page in pages(pdf):
        assert outside(page, 8.0) == []
    assert marks(size, "mm")  # and the gauges are where they were
