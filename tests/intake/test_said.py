"""English of the domain, said in Spanish at the edge; what is not known is left alone."""

from __future__ import annotations

import time
from collections.abc import Iterator

import pytest
from django.template import Context, Template
from django.utils import translation

from catalog.domain.lengths import inches
from catalog.domain.tape import LengthError, read_length
from intake.checks import CHECKS
from intake.domain.drawing import drive_line
from intake.domain.drawing_words import ENGLISH
from intake.domain.history import History
from intake.domain.limits import DEFAULT_LIMITS
from intake.domain.methods import METHOD_WORDS
from intake.domain.questions import QUESTIONS
from intake.domain.shapes import Text
from intake.evaluate import evaluate
from intake.said import drawing_words, said, spoken_in, templates, with_local_numbers
from tests.english import english_left
from tests.given import a_sheet, demo_stock
from tests.intake.checks.examples import EXAMPLES, HISTORY, LIMITS


@pytest.fixture(autouse=True)
def _in_spanish() -> Iterator[None]:
    with translation.override("es"):
        yield


# --- What is known ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("english", "spanish"),
    [
        ("The hub is said to touch the strut.", "Se dice que el núcleo toca el arbotante."),
        ("Two readings differ: 44 in and 45.25 in.", "Dos lecturas difieren: 44 in y 45,25 in."),
        (
            "No unit is written; we read inches, because millimetres would not fit here. Is that "
            "right?",
            "No lleva unidad; leemos pulgadas, porque milímetros no cabría aquí. ¿Es así?",
        ),
        ("This is in or mm.", "Es in o mm."),
        ("58 5/8 in · 1489.1 mm", "1489,1 mm · 58 5/8 in"),
        ("950 mm · ≈37 13/32 in", "950 mm · ≈37 13/32 in"),
        ("-3 in · -76.2 mm", "-76,2 mm · -3 in"),
        ("19.5 mm", "19,5 mm"),
        ("1\u00a0234.50", "1\u00a0234,50"),
        ("44 1/8 in, from mark 10; again 34 1/8", "44 1/8 in, desde la marca 10; otra vez 34 1/8"),
    ],
)
def test_known_sentences(english: str, spanish: str) -> None:
    assert said(english) == spanish


def test_english_stays_english() -> None:
    with translation.override("en"):
        assert said("58 5/8 in · 1489.1 mm") == "58 5/8 in · 1489.1 mm"
        assert said("The hub is said to touch the strut.").startswith("The hub")


def test_another_country_is_the_same_language() -> None:
    with translation.override("es-mx"):
        assert said("The hub is said to touch the strut.").startswith("Se dice")


def test_two_sentences_are_said_one_by_one() -> None:
    text = "The gap is wider than is usual. The hub is said to touch the strut."
    assert said(text) == (
        "La holgura es mayor de lo habitual. Se dice que el núcleo toca el arbotante."
    )


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_finding_is_said(name: str) -> None:
    """Each check's own example, with everything else that fires beside it."""
    history = HISTORY[name][1] if name in HISTORY else History()
    limits = LIMITS.get(name, DEFAULT_LIMITS)
    verdict = evaluate(a_sheet(**EXAMPLES[name][1]), demo_stock(), history, limits)
    assert verdict.findings
    for found in verdict.findings:
        for text in filter(None, (found.message, found.question)):
            assert said(text) != text, text
            assert english_left(said(text)) == []


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_every_open_question_is_said(check) -> None:
    assert said(check.ask).startswith(("¿", "A ", "Con ", "En ", "Si ")) or "¿" in said(check.ask)


@pytest.mark.parametrize("slug", QUESTIONS)
def test_every_asked_question_is_said(slug: str) -> None:
    assert said(QUESTIONS[slug].ask) != QUESTIONS[slug].ask


@pytest.mark.parametrize("words", METHOD_WORDS.values())
def test_every_way_of_measuring_is_said(words: str) -> None:
    assert said(words) != words


TYPED = ["", "58 3/7", "4 10 5/8", "1,489", "x", "44, 44", "58 to 59", "25 13/8", "5/8 ft", "-3"]
TYPED += [
    "1 2 3",
    "3 in 4 mm",
    "99999999 in",
    "58.12345678901 in",
    "twenty five eighths",
    "9" * 200,
]


@pytest.mark.parametrize("typed", TYPED)
def test_every_refusal_is_said(typed: str) -> None:
    with pytest.raises(LengthError) as refused:
        read_length(typed)
    assert english_left(said(refused.value.message)) == []
    assert said(refused.value.message) != refused.value.message


@pytest.mark.parametrize("typed", ["58 shy", "about 58", "10 to 68 5/8", "58.5", "58; 58 1/8"])
def test_every_doubt_is_said(typed: str) -> None:
    read = read_length(typed, None, (inches("20"), inches("100")))
    assert read.doubts
    for doubt in read.doubts:
        assert english_left(said(doubt)) == [], said(doubt)


# --- What is not --------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "Biscuit Barrel",
        "1.489",  # a thousand and more, as Spanish readers write it: left as typed
        "{1} and {2}",
        "%(name)s",
        "{",
        "<script>alert(1)</script>",
        "\x00",
        "the " * 2000,
    ],
)
def test_what_is_not_known_comes_back_unchanged(text: str) -> None:
    assert said(text) == text


def test_what_was_typed_is_not_markup_and_no_hole() -> None:
    hostile = "<img src=x onerror=alert(1)> {2} %(a)s {0.__class__}"
    english = f"{hostile} would do in inches as well as in millimetres."
    assert said(english) == f"{hostile} valdría tanto en pulgadas como en milímetros."
    page = Template("{% load said %}{{ text|said }}").render(Context({"text": english}))
    assert "<img" not in page
    assert "&lt;img" in page


@pytest.mark.parametrize("word", ["and ", "differ: ", " is ", "Two readings ", "{1}"])
def test_its_time_grows_with_the_text_and_no_more(word: str) -> None:
    """A pattern that tried every way would not come back from this within the hour."""
    text = f"Two readings differ: {word * 350}."
    began = time.process_time()
    said(text[:2000])
    assert time.process_time() - began < 2


def test_every_hole_is_filled_in_both_languages() -> None:
    for english, spanish in templates("es"):
        holes = [
            sorted(part.split("}")[0] for part in t.split("{")[1:]) for t in (english, spanish)
        ]
        assert holes[0] == holes[1], english


# --- Drawings and speech ------------------------------------------------------------------


def test_the_drawing_speaks_spanish_with_a_comma() -> None:
    stack = {"system": "mm", "gap_goal": "19.05", "marks": {"gap": "measured"}}
    drawing = with_local_numbers(drive_line(stack, words=drawing_words()))
    said_there = " ".join(shape.text for shape in drawing.shapes if isinstance(shape, Text))
    assert english_left(f"{said_there} {drawing.title} {drawing.description}") == []
    assert "holgura" in said_there
    assert not any(char == "." for char in said_there)


def test_every_word_of_the_drawing_is_said() -> None:
    alike = {"mm"}
    words = {key: word for key, word in drawing_words().items() if len(word) > 1}
    same = [word for key, word in words.items() if word == ENGLISH[key] and "{" not in word]
    assert set(same) <= alike


def test_a_length_is_said_aloud_in_its_language() -> None:
    assert spoken_in(inches("3/4"), "in", "es") == "tres cuartos de pulgada"
    assert spoken_in(inches("3/4"), "in", "en") == "three quarters of an inch"
    assert spoken_in(inches("3/4"), "in", "xx") == "three quarters of an inch"
