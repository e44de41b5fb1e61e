"""The browser's drawing is the server's: every shape of every vector, and the SVG made of them."""

from __future__ import annotations

import json
from collections.abc import Iterator
from math import isclose
from typing import Any
from xml.etree import ElementTree

import pytest
from playwright.sync_api import Page

from intake.domain.drawing_words import ENGLISH
from intake.domain.mistake_pictures import MISTAKES_OF, PICTURES, picture, pictures_for_app
from intake.domain.shape_rows import rows
from intake.domain.svg import to_svg
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.intake.domain.drawing_vectors import VECTORS, drawn

KEPT: dict[str, Any] = json.loads(VECTORS.read_text(encoding="utf-8"))
HOME = "/static/fairgap/guided/drawing"
AS_ROWS = """
const row = (s) => s.is === "line" ? ["L", s.x1, s.y1, s.x2, s.y2, s.kind]
  : s.is === "text" ? ["T", s.x, s.y, s.text, s.size, s.anchor, s.kind]
  : ["P", s.points.flat(), s.kind, s.fill, s.closed ? 1 : 0];
"""
DRAW_ALL = f"""async ([words, cases]) => {{
  const {{ driveLineShapes, keepWords }} = await import("{HOME}/drive_line.js");
  {AS_ROWS}
  keepWords(words);
  return cases.map(({{ stack, options }}) => {{
    const made = driveLineShapes(stack, options);
    return {{ ...made, shapes: made.shapes.map((s) => [s.slug, s.part, row(s)]) }};
  }});
}}"""
DRAW_GAPS = f"""async ([words, stacks]) => {{
  const {{ gapShapes }} = await import("{HOME}/gap_picture.js");
  {AS_ROWS}
  return stacks.map((stack) => {{
    const made = gapShapes(stack, words);
    return {{ ...made, shapes: made.shapes.map(row) }};
  }});
}}"""
SHOW = f"""async ([words, stack, options]) => {{
  const {{ driveLine, keepWords }} = await import("{HOME}/drive_line.js");
  keepWords(words);
  const svg = driveLine(stack, options);
  document.querySelector("main").replaceChildren(svg);
  return new XMLSerializer().serializeToString(svg);
}}"""
PICTURES_OF = f"""async (given) => {{
  const {{ keepPictures, mistakePicture, mistakesOf }} = await import("{HOME}/drive_line.js");
  keepPictures(given);
  const main = document.querySelector("main");
  main.replaceChildren(...Object.keys(given.pictures).map(mistakePicture));
  const texts = [...main.children].map((svg) => new XMLSerializer().serializeToString(svg));
  return [texts, mistakesOf("gap_now"), mistakesOf("nothing"), mistakePicture("nothing")];
}}"""


@pytest.fixture
def page(open_page: OpenPage) -> Page:
    """A page of our own, under our own rules of what may run in it."""
    return open_page("/", **DESK)


def _flat(shape: Any) -> Iterator[Any]:
    if isinstance(shape, list):
        for one in shape:
            yield from _flat(one)
    else:
        yield shape


def _same(ours: Any, theirs: Any) -> bool:
    """Equal words; numbers equal to 0.01 mm (ours are kept rounded to that)."""
    left, right = list(_flat(ours)), list(_flat(theirs))
    return len(left) == len(right) and all(
        a == b if isinstance(a, str) else isclose(a, b, abs_tol=0.0051)
        for a, b in zip(left, right, strict=True)
    )


def _expected(case: dict[str, Any]) -> list[list[Any]]:
    groups = [["", "plain", KEPT["backs"][case["back"]]], *case["expected"]["groups"]]
    return [[slug, part, shape] for slug, part, shapes in groups for shape in shapes]


def test_every_shape_of_every_vector_is_drawn_alike(page: Page) -> None:
    cases = KEPT["cases"]
    made = page.evaluate(DRAW_ALL, [KEPT["words"], cases])
    assert len(made) == len(cases) >= 60
    for case, one in zip(cases, made, strict=True):
        told, expected = (case["stack"], case["options"]), case["expected"]
        shapes = _expected(case)
        assert len(one["shapes"]) == len(shapes), told
        for ours, theirs in zip(shapes, one["shapes"], strict=True):
            assert _same(ours, theirs), (told, ours, theirs)
        assert one["widthMm"] == expected["width"], told
        assert isclose(one["heightMm"], expected["height"], abs_tol=0.011), told
        assert (one["title"], one["description"]) == (expected["title"], expected["description"])


def test_every_shape_of_every_gap_is_drawn_alike(page: Page) -> None:
    gaps = KEPT["gaps"]
    made = page.evaluate(DRAW_GAPS, [KEPT["words"], [one["stack"] for one in gaps]])
    for kept, one in zip(gaps, made, strict=True):
        told, expected = kept["stack"], kept["expected"]
        ((_, _, shapes),) = expected["groups"]
        assert len(one["shapes"]) == len(shapes), told
        for ours, theirs in zip(shapes, one["shapes"], strict=True):
            assert _same(ours, theirs), (told, ours, theirs)
        assert (one["title"], one["description"]) == (expected["title"], expected["description"])


def _outline(element: ElementTree.Element) -> list[Any]:
    """An element without its ids, as nested lists."""
    kept = {key: value for key, value in element.attrib.items() if "id" not in key}
    kept.pop("aria-labelledby", None)
    if "class" in kept:
        kept["class"] = kept["class"].strip()
    name = element.tag.rpartition("}")[2]
    return [name, kept, element.text or "", element.tail or "", *map(_outline, element)]


@pytest.mark.parametrize("lit", ["", "all", "gap_now", "boat_name_and_station"])
def test_the_element_is_the_servers_svg(page: Page, lit: str) -> None:
    case = next(c for c in KEPT["cases"] if c["options"].get("lit", "") == lit)
    told = page.evaluate(SHOW, [KEPT["words"], case["stack"], case["options"]])
    here, there = (ElementTree.fromstring(svg) for svg in (told, to_svg(drawn(case))))  # noqa: S314
    assert _outline(here) == _outline(there)


def test_who_cannot_see_it_is_told_what_it_shows(page: Page) -> None:
    stack = {"layout": "v_rear_flange", "station": "port"}
    page.evaluate(SHOW, [ENGLISH, stack, {"lit": "gap_now", "readings": {"gap_now": "3/4"}}])
    drawing = page.get_by_role("img", name="Drive line: gap shown")
    assert drawing.count() == 1
    ids = (drawing.get_attribute("aria-labelledby") or "").split()
    told = " ".join(page.locator(f"#{ident}").text_content() or "" for ident in ids)
    assert "which shaft it is: port" in told
    assert "Gap 3/4" in told


def test_only_the_asked_answer_is_seen_among_the_dimensions(page: Page) -> None:
    page.evaluate(SHOW, [ENGLISH, {}, {"lit": "hub_length"}])
    assert page.locator("main .ends:visible").count() == 1
    assert page.locator("main .is-lit .ends text").all_text_contents() == [
        "hub's front face", "back face", "hub",
    ]  # fmt: skip
    assert float(page.locator("main .back").evaluate("(e) => getComputedStyle(e).opacity")) < 0.6


def test_a_hostile_reading_stays_text(page: Page) -> None:
    told = page.evaluate(
        SHOW, [ENGLISH, {}, {"readings": {"gap_now": "<img src=x onerror=alert(1)>"}}]
    )
    assert "&lt;img" in told
    assert page.locator("main img").count() == 0


def test_the_pictures_of_mistakes_are_the_servers(page: Page) -> None:
    texts, of_gap, of_nothing, none = page.evaluate(PICTURES_OF, pictures_for_app())
    assert of_gap == list(MISTAKES_OF["gap_now"])
    assert (of_nothing, none) == ([], None)
    for name, told in zip(PICTURES, texts, strict=True):
        here, there = (ElementTree.fromstring(s) for s in (told, to_svg(picture(name))))  # noqa: S314
        assert _outline(here) == _outline(there), name
        assert rows(picture(name).shapes)


def test_a_picture_can_be_read_on_the_smallest_phone(open_page: OpenPage) -> None:
    page = open_page("/", **PHONE | {"viewport": {"width": 320, "height": 640}})
    page.evaluate(PICTURES_OF, pictures_for_app())
    for text in page.locator("main svg text").all():
        assert text.evaluate("(e) => e.getBoundingClientRect().height") >= 11, text.text_content()
