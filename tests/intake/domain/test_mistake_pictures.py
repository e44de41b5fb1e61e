"""The pictures of the usual mistakes: right and wrong told by word and mark, and well inside."""

from __future__ import annotations

import json
import re
from itertools import combinations

import pytest

from intake.domain.drawing import ASKED
from intake.domain.mistake_pictures import (
    MISTAKES_OF,
    PICTURES,
    WORDS,
    picture,
    pictures_for_app,
)
from intake.domain.questions import QUESTIONS
from intake.domain.shapes import Drawing, Line, Polygon, Shape, Text
from intake.short_path import ABOUT, INSIDE, PROPELLER, REST

MEASURED = [
    plan.slug
    for plan in (*ABOUT, *INSIDE, *PROPELLER, *REST)
    if plan.slug in QUESTIONS and QUESTIONS[plan.slug].methods
]


def _corners(shape: Shape) -> list[tuple[float, float]]:
    if isinstance(shape, Line):
        return [(shape.x1, shape.y1), (shape.x2, shape.y2)]
    if isinstance(shape, Polygon):
        return list(shape.points)
    left, right = shape.span
    return [(left, shape.y - 0.72 * shape.size), (right, shape.y)]


def _texts(drawing: Drawing) -> list[Text]:
    return [shape for shape in drawing.shapes if isinstance(shape, Text)]


@pytest.mark.parametrize("name", PICTURES)
def test_right_and_wrong_have_a_word_and_a_mark_each(name: str) -> None:
    drawing = picture(name)
    said = [text.text for text in _texts(drawing)]
    assert said.count("right") == said.count("wrong") == 1
    assert {WORDS[f"{name}.right"], WORDS[f"{name}.wrong"]} <= set(said)
    for word in ("right", "wrong"):
        assert WORDS[f"{name}.{word}"] in drawing.description
    upper = [s for s in drawing.shapes if max(y for _, y in _corners(s)) < 34.5]
    lower = [s for s in drawing.shapes if min(y for _, y in _corners(s)) > 34.7]
    assert len(upper) + 1 + len(lower) == len(drawing.shapes), "only a hairline lies between"
    assert any(s.kind == "lit" for s in upper)
    assert not any(s.kind in ("lit", "tape") for s in lower), "brass is for what is right"


@pytest.mark.parametrize("name", PICTURES)
def test_everything_lies_on_the_paper_and_no_text_on_another(name: str) -> None:
    drawing = picture(name)
    for shape in drawing.shapes:
        for x, y in _corners(shape):
            assert 0 <= x <= drawing.width_mm, shape
            assert 0 <= y <= drawing.height_mm, shape
    for one, other in combinations(_texts(drawing), 2):
        (a1, b1), (a2, b2) = _corners(one)
        (c1, d1), (c2, d2) = _corners(other)
        assert a2 <= c1 or c2 <= a1 or b2 <= d1 or d2 <= b1, (one.text, other.text)


@pytest.mark.parametrize("name", PICTURES)
def test_the_two_halves_differ_in_more_than_colour(name: str) -> None:
    def half(low: float, high: float) -> set[tuple[float, float]]:
        corners = [c for s in picture(name).shapes if not isinstance(s, Text) for c in _corners(s)]
        return {(round(x, 1), round(y - low, 1)) for x, y in corners if low < y < high and x > 17}

    assert len(half(0, 34.5) ^ half(35.6, 70)) > 4


@pytest.mark.parametrize("slug", MEASURED)
def test_every_measured_question_of_the_short_path_has_its_picture(slug: str) -> None:
    assert MISTAKES_OF[slug]


def test_every_picture_belongs_to_a_question() -> None:
    assert {name for names in MISTAKES_OF.values() for name in names} == set(PICTURES)
    for slug in MISTAKES_OF:
        assert slug.removesuffix(".again") in {*QUESTIONS, *ASKED, "boat_name_and_station"}


def test_another_language_leaves_no_english_word() -> None:
    foreign = dict.fromkeys(WORDS, "~")
    for name in PICTURES:
        drawing = picture(name, foreign)
        said = drawing.title + drawing.description + "".join(t.text for t in _texts(drawing))
        assert not re.search("[a-zA-Z]", said), said


def test_all_of_them_are_light() -> None:
    text = json.dumps(pictures_for_app(), separators=(",", ":"))
    assert len(text) < 120_000
    assert set(json.loads(text)["pictures"]) == set(PICTURES)
