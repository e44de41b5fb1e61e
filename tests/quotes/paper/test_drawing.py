"""The drawing on the quote is vector work, all to one scale, and shows what the facts say."""

from __future__ import annotations

from functools import cache
from io import BytesIO
from typing import Any

import pdfplumber
import pypdfium2 as pdfium
import pytest

from quotes.domain.paper_drawing import WIDE_MM, scale_of
from quotes.paper.page import LEFT, ROOM
from quotes.paper.quote import quote_pdf
from tests.quotes.paper.papers import the_facts, the_paper

_MM = 72 / 25.4
_BELOW_THE_HULL = 224.0  # points from the top: only dimension lines lie level there
# S01 (the desk's worked example): face to strut 44 1/8, gap 3/4, hub 2 15/16, length 49 in.
_STRUT, _GAP, _HUB, _LENGTH, _OVERALL = 44.125, 0.75, 2.9375, 49.0, 49.3125


@cache
def drawn(pdf: bytes) -> tuple[list[Any], list[Any]]:
    """The lines of the drawing as (x0, x1, y, wide), level and upright, in points."""
    with pdfplumber.open(BytesIO(pdf)) as paper:
        page = paper.pages[0]
        lines = [one for one in page.lines if one["tag"] == "Figure" and one["top"] < 360]
    level = [one for one in lines if abs(one["top"] - one["bottom"]) < 0.01]
    upright = [one for one in lines if abs(one["x0"] - one["x1"]) < 0.01]
    return level, upright


def spans(pdf: bytes) -> list[tuple[float, float]]:
    """Level lines that an upright one meets at both ends: dimension lines, longest first."""
    level, upright = drawn(pdf)
    level = [one for one in level if one["top"] > _BELOW_THE_HULL]
    ends = [one["x0"] for one in upright]
    found = {
        (round(one["x0"], 1), round(one["x1"], 1))
        for one in level
        if all(any(abs(x - end) < 0.1 for end in ends) for x in (one["x0"], one["x1"]))
    }
    return sorted(found, key=lambda span: span[0] - span[1])


def test_dimension_lines_are_as_long_as_the_lengths_they_measure() -> None:
    overall, length, strut = spans(the_paper())[:3]
    point = (length[1] - length[0]) / _LENGTH  # points of paper to an inch of boat
    assert (overall[1] - overall[0]) / point == pytest.approx(_OVERALL, abs=0.03)
    assert (strut[1] - strut[0]) / point == pytest.approx(_STRUT, abs=0.03)
    assert overall[0] == length[0] == strut[0]  # one datum


def test_gap_hub_and_tail_are_to_the_same_scale() -> None:
    _level, upright = drawn(the_paper())
    _overall, length, strut = spans(the_paper())[:3]
    point = (length[1] - length[0]) / _LENGTH
    at = {round((one["x0"] - length[0]) / point, 2) for one in upright}
    for station in (_STRUT, _STRUT + _GAP, _STRUT + _GAP + _HUB, _LENGTH, _OVERALL):
        assert min(abs(station - x) for x in at) < 0.03, station
    assert strut[0] == length[0]


def test_the_scale_that_is_printed_is_the_scale_that_is_drawn() -> None:
    length = spans(the_paper())[1]
    drawn_mm = (length[1] - length[0]) / _MM
    assert _LENGTH * 25.4 / drawn_mm == pytest.approx(8, abs=0.5)
    assert the_facts().scale == "to one scale, about 1 : 8"


def test_the_scale_follows_the_paper_it_is_printed_on() -> None:
    stack = {"nominal": {"mm": "25.4"}, "x_strut_aft": "1120.775"}
    assert scale_of(stack, WIDE_MM / 2) == pytest.approx(2 * scale_of(stack))


def test_it_is_line_work_and_no_picture() -> None:
    with pdfplumber.open(BytesIO(the_paper())) as paper:
        assert paper.pages[0].images == []
        assert len(paper.pages[0].lines) > 60


def test_ink_lies_where_the_facts_say() -> None:
    """Rendered by another library: strut barrel and hub stand as dark edges at their stations."""
    scale = 4.0
    image = pdfium.PdfDocument(the_paper())[0].render(scale=scale).to_pil().convert("L")
    length = spans(the_paper())[1]
    point = (length[1] - length[0]) / _LENGTH
    axis = axis_y(the_paper())
    shaft = point / 2  # half of 1 in
    for station in (_STRUT, _STRUT + _GAP):
        x = length[0] + station * point
        column = darkest(image, x, axis - 1.7 * shaft, scale)
        assert column < 120, station
        between = darkest(image, length[0] + (_STRUT + _GAP / 2) * point, axis - 1.7 * shaft, scale)
        assert between > 180  # water, in the gap


def axis_y(pdf: bytes) -> float:
    with pdfplumber.open(BytesIO(pdf)) as paper:
        dashed = [one for one in paper.pages[0].lines if one["tag"] == "Figure"
                  and one["x1"] - one["x0"] > 0.9 * ROOM and one["top"] < 250
                  and abs(one["top"] - one["bottom"]) < 0.01]  # fmt: skip
    return float(dashed[0]["top"])


def darkest(image: Any, x: float, y: float, scale: float) -> int:
    """The darkest of a few pixels round a point of the page."""
    at, row = round(x * scale), round(y * scale)
    return int(min(image.getpixel((at + off, row)) for off in (-2, -1, 0, 1, 2)))


def test_a_number_is_not_struck_by_an_extension_line() -> None:
    """1 3/16 of the nuts lies across the lines of gap and hub: they stop for it."""
    scale = 6.0
    page = pdfium.PdfDocument(the_paper())[0].render(scale=scale).to_pil().convert("L")
    with pdfplumber.open(BytesIO(the_paper())) as paper:
        signs = [c for c in paper.pages[0].chars if c["tag"] == "Figure" and c["top"] < 300]
        _level, upright = drawn(the_paper())
    strut = LEFT + 0.0
    for line in upright:
        for sign in signs:
            inside = sign["x0"] + 0.4 < line["x0"] < sign["x1"] - 0.4
            if inside and line["top"] < sign["top"] and sign["bottom"] < line["bottom"]:
                y = sign["bottom"] - 0.15 * sign["height"]
                strut = max(strut, page.getpixel((round(line["x0"] * scale), round(y * scale))))
    assert strut > 200


def test_a_shaft_through_the_gearbox_is_drawn_to_scale_too() -> None:
    """A gearbox 9 1/4 in long, passed through; the face to the strut is 44 1/8 more."""
    told: dict[str, Any] = {
        "drive_layout": "v_pass_through",
        "flange_direction": "forward",
        "forward_datum": "gearbox_back",
        "gearbox_through": {"text": "9 1/4", "method": "rule"},
        "front_end": {"showing": "3 15/16", "nut": "3/4-10", "thread": "3/4-10", "hand": "right"},
        "front_taper": {"tapered": "yes"},
        "old_length_face_to_thread": {"text": "58 1/4", "method": "tape"},
    }
    found = spans(quote_pdf(the_facts(**told)))
    point = (found[0][1] - found[0][0]) / (58.25 + 3.9375 + 0.3125)
    lengths = [(right - left) / point for left, right in found]
    for inches in (58.25, 44.125 + 9.25, 9.25):
        assert min(abs(inches - one) for one in lengths) < 0.05, inches
