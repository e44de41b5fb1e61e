"""The drawing: its numbers add up, every answer can be lit, no text lies on another."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import combinations
from typing import Any
from xml.etree import ElementTree

import pytest

from intake.domain.drawing import ASKED, drive_line, gap_picture, length_text
from intake.domain.drawing_words import ENGLISH
from intake.domain.shapes import Drawing, Line, Polygon, Text, hatch, runs
from intake.domain.stations import sizes, stations
from intake.domain.svg import to_svg

STACK: dict[str, Any] = {
    "layout": "inline",
    "system": "inch",
    "nominal": {"mm": "25.400000", "inch": "1"},
    "x_strut_aft": "1120.775000",
    "x_strut_fwd": "1044.575000",
    "gap_goal": "19.050000",
    "gap_min": "12.700000",
    "gap_max": "25.400000",
    "hub_length": "74.612500",
    "nut_standoff": "30.162500",
    "nose": "7.937500",
    "taper_length": "69.850000",
    "length": "1244.600000",
    "overall": "1252.537500",
    "front_length": None,
    "predicted_gap": "19.050000",
    "tail": "123.825000",
    "u_mm": "1.4500",
    "marks": {
        "face_to_strut_aft": "measured",
        "gap": "computed",
        "hub_length": "measured",
        "tail": "computed",
        "length": "computed",
        "overall": "assumed",
    },
}
PASSING = STACK | {
    "layout": "v_pass_through",
    "system": "mm",
    "front_length": "101.6",
    "gearbox_through": "254",
}
TWO_INCH = STACK | {"nominal": {"mm": "50.8"}, "hub_length": "152.4", "nut_standoff": "60.3"}
STACKS = {
    "empty": {},
    "inch": STACK,
    "passing": PASSING,
    "two-inch": TWO_INCH,
    "down-angle": STACK | {"layout": "down_angle"},
    "rear-flange-twin": STACK | {"layout": "v_rear_flange", "station": "port"},
    "passing-twin": PASSING | {"station": "starboard"},
}
ONLY_PASSING = {"gearbox_through", "front_end"}
WAYS = [{"shorten": True}, {"shorten": False}, {"width_mm": 170.0}, {"width_mm": 170.0,
        "shorten": False}]  # fmt: skip


def texts(drawing: Drawing) -> list[Text]:
    return [shape for shape in drawing.shapes if isinstance(shape, Text)]


def box(text: Text) -> tuple[float, float, float, float]:
    left, right = text.span
    return left, text.y - 0.72 * text.size, right, text.y


@pytest.mark.parametrize("stack", STACKS.values(), ids=STACKS)
@pytest.mark.parametrize("way", WAYS, ids=str)
def test_no_text_lies_on_another_or_off_the_paper(
    stack: dict[str, Any], way: dict[str, Any]
) -> None:
    drawing = drive_line(stack, **way)
    boxes = [(text.text, box(text)) for text in texts(drawing)]
    for said, (left, top, right, bottom) in boxes:
        assert 0 <= left < right <= drawing.width_mm, said
        assert 0 <= top < bottom <= drawing.height_mm, said
    for (one, a), (other, b) in combinations(boxes, 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, f"{one!r} lies on {other!r}"


@pytest.mark.parametrize("slug", ASKED)
@pytest.mark.parametrize("layout", ["inline", "down_angle", "v_rear_flange", "v_pass_through"])
def test_every_asked_answer_can_be_lit(slug: str, layout: str) -> None:
    if slug in ONLY_PASSING and layout != "v_pass_through":
        return  # there is nothing to go through
    drawing = drive_line({"layout": layout}, lit=slug)
    lit = [shape for shape in drawing.shapes if shape.slug == slug]
    assert {shape.part for shape in lit} == {"ends"}
    assert any(shape.kind == "lit" for shape in lit)
    assert {shape.slug for shape in drawing.shapes} == {"", slug}
    words = [text for text in texts(drawing) if text.slug == slug]
    assert words
    for text in words:
        left, right = text.span
        assert 0 <= left < right <= drawing.width_mm, text.text
    for one, other in combinations(words, 2):
        assert box(one)[2] <= box(other)[0] or one.y != other.y, (one.text, other.text)


def test_only_the_asked_answer_is_lit() -> None:
    for slug in set(ASKED) - ONLY_PASSING:
        brass = {s.slug for s in drive_line({}, lit=slug).shapes if s.kind in ("lit", "tape")}
        assert brass == {slug}


def test_the_words_at_the_two_ends_may_be_others() -> None:
    drawing = drive_line(STACK, lit="gap_now", hook="hook here", thumb="read there")
    assert [t.text for t in texts(drawing) if t.kind == "lit"] == ["hook here", "read there"]


def test_another_language_leaves_no_english_word() -> None:
    foreign = dict.fromkeys(ENGLISH, "~")
    for lit in ("", *ASKED):
        for stack in STACKS.values():
            drawing = drive_line(stack, lit=lit, words=foreign)
            said = "".join(text.text for text in texts(drawing)) + drawing.title
            assert not re.search("[a-zA-Z]", said), said


@pytest.mark.parametrize("more", [{}, {"u_mm": "6"}, {"predicted_gap": "-3"}, {"u_mm": "0"}])
def test_the_gap_too_leaves_no_english_word_in_another_language(more: dict[str, Any]) -> None:
    for stack in ({}, STACK | more, STACK | more | {"system": "mm"}):
        drawing = gap_picture(stack, dict.fromkeys(ENGLISH, "~"))
        said = " ".join(text.text for text in texts(drawing)) + drawing.title + drawing.description
        assert not re.search("[a-zA-Z]", re.sub(r"\d (in|mm)\b", "", said)), said


@pytest.mark.parametrize("layout", ["inline", "down_angle", "v_rear_flange", "v_pass_through"])
def test_each_drive_is_drawn_in_its_own_way(layout: str) -> None:
    mine = [s for s in drive_line({"layout": layout}).shapes if not s.slug]
    others = {"inline", "down_angle", "v_rear_flange", "v_pass_through"} - {layout}
    for other in others:
        assert mine != [s for s in drive_line({"layout": other}).shapes if not s.slug]


def test_a_twin_shows_from_above_which_shaft_it_is() -> None:
    port = drive_line(STACK | {"station": "port"})
    assert "port" in [text.text for text in texts(port)]
    assert "which shaft it is: port" in port.description
    assert drive_line(STACK | {"station": "single"}).shapes == drive_line(STACK).shapes
    full = {}
    for side in ("port", "starboard"):
        shapes = drive_line({"station": side}, lit="boat_name_and_station").shapes
        full[side] = next(s for s in shapes if isinstance(s, Line) and s.kind == "lit").y1
    assert full["port"] > full["starboard"]  # the bow is on the left


def test_a_lit_dimension_shows_both_its_ends() -> None:
    said = [text.text for text in texts(drive_line(STACK, lit="face_to_strut_aft"))]
    assert "hook: flange face" in said
    assert "thumb: strut's metal" in said


def test_all_can_be_lit_on_one_page() -> None:
    svg = to_svg(drive_line({}, lit="all"))
    reachable = set(re.findall(r'data-slug="(\w+)"', svg))
    assert set(ASKED) - {*ONLY_PASSING, "boat_name_and_station"} <= reachable


@pytest.mark.parametrize("shorten", [True, False])
def test_the_aft_end_is_drawn_to_scale_and_adds_up(shorten: bool) -> None:
    size = sizes(STACK)
    at = stations(size, passes=False, shorten=shorten, width=110.0, axis=20.0)
    scale = (at.hub_back - at.hub_front) / size.hub
    assert at.hub_front - at.strut_aft == pytest.approx(size.gap * scale)
    assert at.thread_end - at.hub_back == pytest.approx(size.nut * scale)
    assert at.tip - at.thread_end == pytest.approx(size.nose * scale)
    assert at.unit == pytest.approx(size.diameter * scale)
    if not shorten:
        assert at.strut_aft - at.face == pytest.approx(size.face_to_strut * scale)


@pytest.mark.parametrize("stack", STACKS.values(), ids=STACKS)
@pytest.mark.parametrize("shorten", [True, False])
def test_the_stations_stand_in_order(stack: dict[str, Any], shorten: bool) -> None:
    passes = stack.get("layout") == "v_pass_through"
    layout = stack.get("layout", "inline")
    at = stations(
        sizes(stack), passes=passes, shorten=shorten, width=110.0, axis=20.0, layout=layout
    )
    middle = at.breaks or (at.log_end, at.strut_fwd)
    row = [at.front_tip, at.face, at.gland, at.log, at.log_end, *middle, at.strut_fwd,
           at.strut_aft, at.hub_front, at.hub_back, at.thread_end, at.tip, 110.0]  # fmt: skip
    assert row == sorted(row)


def test_the_printed_numbers_add_up() -> None:
    value = {}
    for text in texts(drive_line(STACK)):
        if text.slug and text.text not in "MCAT":  # the letter in its box is no number
            value[text.slug] = sum(map(Fraction, text.text.split()))
    length = value["face_to_strut_aft"] + value["tail_to_thread"]
    assert length == value["old_length_face_to_thread"]
    assert value["gap_now"] == Fraction(3, 4)


def test_marks_are_letters_with_a_key_and_a_dashed_line() -> None:
    drawing = drive_line(STACK)
    assert "inches · M measured · C computed · A assumed (dashed)" in [
        text.text for text in texts(drawing)
    ]
    overall = [s for s in drawing.shapes if s.slug == "old_length_overall"]
    assert any(isinstance(s, Line) and s.kind == "dashed" for s in overall)


def test_the_customers_own_words_are_printed_and_escaped() -> None:
    wild = '44 <script>"&'
    svg = to_svg(drive_line(STACK, readings={"face_to_strut_aft": wild}))
    assert "<script" not in svg
    assert "44 &lt;script&gt;&quot;&amp;" in svg


@pytest.mark.parametrize("stack", STACKS.values(), ids=STACKS)
@pytest.mark.parametrize("lit", ["", "all", "gap_now"])
def test_the_svg_is_well_formed_and_says_itself_in_words(stack: dict[str, Any], lit: str) -> None:
    svg = to_svg(drive_line(stack, lit=lit), ident="x")
    root = ElementTree.fromstring(svg)  # noqa: S314 (our own text)
    assert root.findtext("title")
    assert "strut with bearing" in (root.findtext("desc") or "")
    assert "style=" not in svg
    assert svg == to_svg(drive_line(stack, lit=lit), ident="x")


def test_parts_can_be_referred_to() -> None:
    first = to_svg(drive_line({}, lit="all"), ident="big")
    second = to_svg(drive_line({}, lit="gap_now"), ident="small", parts_of="big")
    assert 'id="big-back"' in first
    assert 'href="#big-back"' in second
    assert len(second) < 4000


@pytest.mark.parametrize("bad", ["0", "-5", "999999999"])
def test_absurd_numbers_still_make_a_drawing(bad: str) -> None:
    keys = ("x_strut_aft", "hub_length", "predicted_gap", "nut_standoff", "nose", "length")
    drawing = drive_line(dict.fromkeys(keys, bad) | {"nominal": {"mm": bad}})
    assert to_svg(drawing)
    assert to_svg(gap_picture({"predicted_gap": bad, "u_mm": bad}))


def test_the_fog_says_in_words_whether_it_lies_in_the_band() -> None:
    sure, unsure = gap_picture(STACK), gap_picture(STACK | {"u_mm": "6"})
    assert "lies inside the fair band" in sure.description
    assert "outside the fair band" in unsure.description
    assert "3/4 in, give or take 1/16 in (2 of 3)" in [text.text for text in texts(sure)]
    assert "not known yet" in [text.text for text in texts(gap_picture({}))]


def test_a_wider_doubt_is_a_wider_fog() -> None:
    def fog(u: str) -> float:
        shapes = gap_picture(STACK | {"u_mm": u}).shapes
        dark = next(s for s in shapes if isinstance(s, Polygon) and s.fill == "fog-1")
        return dark.points[1][0] - dark.points[0][0]

    assert fog("3.0") == pytest.approx(2 * fog("1.5"))


def test_no_hub_inside_the_strut_is_called_a_gap() -> None:
    said = [text.text for text in texts(gap_picture(STACK | {"predicted_gap": "-3"}))]
    assert "no gap: they would touch" in said


def test_hatching_stays_in_its_box() -> None:
    for line in hatch(2, 3, 9, 5):
        assert 2 <= line.x1 <= line.x2 <= 9
        assert 3 <= line.y2 <= line.y1 <= 5


def test_fractions_are_set_as_fractions() -> None:
    assert runs("2 15/16") == (("2", "plain"), ("15", "over"), ("16", "under"))
    assert runs("3/4 in") == (("3", "over"), ("4", "under"), (" in", "plain"))
    assert length_text("19.05", "inch") == "3/4 in"
    assert length_text("100", "mm") == "100 mm"
