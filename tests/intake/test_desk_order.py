"""The chords and stops of the call page: each field has its own, and none hides another."""

from __future__ import annotations

import itertools
import re

import pytest

from intake.desk_check import judge
from intake.desk_fields import contact_fields, order_boxes, sections
from intake.desk_order import CALL_ORDER, CODES, DEEDS, STOPS
from intake.domain.inquiries import INQUIRIES
from intake.domain.questions import QUESTIONS
from tests.given import a_body
from tests.intake.desk_given import stock_the_shelf

SLUGS = [slug for _key, _title, slugs in CALL_ORDER for slug in slugs]


def test_no_chord_is_the_beginning_of_another() -> None:
    codes = list(CODES.values())
    assert len(set(codes)) == len(codes)
    for one, other in itertools.permutations([*codes, *(key for key, _d, _w in DEEDS)], 2):
        assert not other.startswith(one), (one, other)


def test_a_chord_is_one_or_two_plain_letters() -> None:
    for code in CODES.values():
        assert 1 <= len(code) <= 2
        assert code.isascii()
        assert code.isalpha()
        assert code.islower()


def test_every_field_of_the_page_has_a_chord_and_every_chord_a_field() -> None:
    fields = [field for part in sections({}, {}) for field in part.fields]
    shown = [field.code for field in [*contact_fields({}, {}), *fields]]
    shown += [box.code for box in order_boxes({})] + [CODES["wants"]]
    assert sorted(shown) == sorted(CODES.values())
    assert all(shown)


def test_whatever_may_be_asked_next_has_a_field() -> None:
    assert {inquiry.answer for inquiry in INQUIRIES} <= set(SLUGS)


def test_no_question_is_on_the_page_twice() -> None:
    assert len(set(SLUGS)) == len(SLUGS)
    assert set(SLUGS) <= set(QUESTIONS)


def test_enter_stops_at_what_people_say_and_passes_how_it_was_taken() -> None:
    fields = [field for part in sections({}, {}) for field in part.fields]
    stops = [b.name for f in [*contact_fields({}, {}), *fields] for b in f.boxes if b.stop]
    assert {".".join(name.split(".")[:2]).removeprefix("answers.") for name in stops} == STOPS
    assert not [name for name in stops if name.endswith(".method")]
    assert "answers.boat_name_and_station.station" in stops


@pytest.mark.django_db
def test_what_was_not_said_yet_is_listed_and_is_no_finding() -> None:
    stock_the_shelf()
    judged = judge({**a_body(without=("drive_layout", "shell_od")), "channel": "phone"})
    assert [code for _label, code in judged.still_open] == [
        CODES["drive_layout"],
        CODES["shell_od"],
    ]
    assert not [f for f in judged.doubts.findings if f["check"] == "missing-critical"]


@pytest.mark.django_db
def test_what_cannot_be_had_is_a_finding_and_not_asked_again() -> None:
    stock_the_shelf()
    body = a_body(shell_od={"state": "cannot_measure"})
    judged = judge({**body, "channel": "phone"})
    assert judged.still_open == ()
    assert [f["answers"] for f in judged.doubts.findings if f["check"] == "missing-critical"] == [
        ["shell_od"]
    ]


@pytest.mark.django_db
def test_the_next_question_comes_with_its_sketch_and_its_chord() -> None:
    stock_the_shelf()
    body = a_body(face_to_strut_aft={"text": "45 1/8", "method": "rod"})
    asked = judge({**body, "channel": "phone"}).shown.asked  # type: ignore[union-attr]
    assert asked is not None
    assert asked.code == CODES[asked.slug]
    assert "is-lit" in asked.svg
    told = re.findall(r"<text[^>]*>(.*?)</text>|<desc[^>]*>(.*?)</desc>", asked.svg)
    assert not [words for pair in told for words in pair if re.search(r"4[45]", words)]
