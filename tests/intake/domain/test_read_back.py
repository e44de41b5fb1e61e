"""The sheet said aloud: the words for every kind of answer, in order, nothing passed over."""

from __future__ import annotations

from typing import Any

import pytest

from intake.domain.methods import METHODS
from intake.domain.read_back import WAYS, PageWords, digits, read_back
from intake.domain.reading import read_sheet
from tests.given import a_body

WORDS = PageWords(
    labels={
        "boat_name_and_station": "Boat and shaft",
        "drive_layout": "Drive",
        "face_to_strut_aft": "Face to strut, aft end",
        "gap_now": "Gap",
        "bolts": "Flange bolts",
        "bearing_length": "Bearing length",
        "thread": "Propeller nut thread",
        "engine_power": "Engine power",
        "water": "Water",
        "changed_since_shaft": "Changed",
        "supports": "Supports",
    },
    choices={
        "drive_layout": {"inline": "straight back"},
        "changed_since_shaft": {"mounts": "engine mounts"},
    },
    parts={
        "boat_name_and_station": {"name": "name", "station": "shaft"},
        "bolts": {"count": "how many", "size": "size", "spacing": "hole to neighbour"},
        "water": {"kind": "kind", "weeks_idle": "weeks idle"},
    },
    part_choices={("water", "kind"): {"salt": "salt"}},
)


def said(body: dict[str, Any], unread: dict[str, str] | None = None) -> list[str]:
    sheet = read_sheet(body)
    return [s.text for s in read_back(sheet, WORDS, unread or {}, body["answers"])]


@pytest.mark.parametrize(
    ("slug", "answer", "sentence"),
    [
        (
            "face_to_strut_aft",
            {"text": "44 1/8", "method": "rod"},
            "Face to strut, aft end: forty-four and one eighth inches, by rod.",
        ),
        (
            "face_to_strut_aft",
            {"text": "1121 mm", "method": "tape_helper"},
            "Face to strut, aft end: one thousand one hundred and twenty-one millimetres, "
            "by tape with a helper.",
        ),
        (
            "face_to_strut_aft",
            {"text": "54 1/8", "method": "rod", "start_mark": "10"},
            "Face to strut, aft end: forty-four and one eighth inches, by rod, "
            "taken from the 10 mark.",
        ),
        (
            "face_to_strut_aft",
            {"text": "44", "method": "rod", "again": {"text": "44 1/8", "method": "tape"}},
            "Face to strut, aft end: forty-four inches, by rod; the second time "
            "forty-four and one eighth inches, by tape, both ends held.",
        ),
        ("gap_now", {"state": "cannot_measure"}, "Gap: cannot be measured."),
        ("gap_now", {"state": "not_applicable"}, "Gap: does not apply."),
        ("drive_layout", "inline", "Drive: straight back."),
        (
            "boat_name_and_station",
            {"name": "Thimble", "station": "port"},
            "Boat and shaft: Thimble, shaft port.",
        ),
        (
            "bolts",
            {"count": "4", "size": "7/16", "spacing": "2 1/4"},
            "Flange bolts: how many four, size 7/16, hole to neighbour two and one quarter inches.",
        ),
        ("bearing_length", {"text": "2"}, "Bearing length: two inches."),
        ("thread", {"text": "3/4-10"}, "Propeller nut thread: 3/4-10."),
        ("engine_power", "310 hp", "Engine power: 310 hp."),
        ("water", {"kind": "salt", "weeks_idle": "2"}, "Water: kind salt, weeks idle two."),
        ("changed_since_shaft", ["mounts", "strut"], "Changed: engine mounts, strut."),
        (
            "supports",
            [{"what": "log", "from_face": "20"}],
            "Supports: log twenty inches.",
        ),
    ],
)
def test_each_kind_of_answer_is_said(slug: str, answer: Any, sentence: str) -> None:
    assert sentence in said(a_body(**{slug: answer}))


def test_the_order_is_that_of_the_page_and_it_ends_with_who_and_number() -> None:
    told = said(a_body(top={"job": "12-B"}))
    starts = [text.split(":")[0] for text in told]
    assert starts[:4] == ["Boat and shaft", "Drive", "Face to strut, aft end", "Gap"]
    assert told[-3:] == [
        "You want from us: shaft, coupling and bearing.",
        "Your order number: 12-B.",
        "That is for Wilmot Tarpley, on plus one, two zero two, five five five, "
        "zero one zero zero.",
    ]


def test_what_could_not_be_read_is_asked_for_in_its_place() -> None:
    body = a_body(without=("gap_now",))
    sentences = read_back(read_sheet(body), WORDS, {"gap_now": "3/", "log_id": "?!"}, {})
    told = [s.text for s in sentences]
    assert told[3] == "Gap: I have “3/” and cannot read it. What was it?"
    assert "Log id: I have “?!” and cannot read it. What was it?" in told
    assert [s.doubtful for s in sentences[:4]] == [False, False, False, True]


def test_a_doubt_of_the_reader_is_asked_with_its_number() -> None:
    body = a_body(face_to_strut_aft={"text": "44 1/8 shy", "method": "rod"})
    doubts = [s for s in read_back(read_sheet(body), WORDS, {}, {}) if s.doubtful]
    assert doubts
    assert all(s.text.startswith("Face to strut, aft end: ") for s in doubts)


@pytest.mark.parametrize(
    ("contact", "last"),
    [
        ({}, "I have no name yet, and I have no number to ring yet."),
        ({"name": "Odile Marsh"}, "That is for Odile Marsh, and I have no number to ring yet."),
        (
            {"phone": "555 0100"},
            "I have no name yet, on five five five, zero one zero zero.",
        ),
        (
            {"name": "Odile Marsh", "phone": "5550100", "email": "o@example.org"},
            "That is for Odile Marsh, on five five five zero one zero zero, by mail o@example.org.",
        ),
    ],
)
def test_who_is_missing_is_said_too(contact: dict[str, str], last: str) -> None:
    assert said(a_body(top={"contact": contact}))[-1] == last


def test_every_way_of_measuring_can_be_said() -> None:
    assert set(WAYS) == set(METHODS)


def test_a_number_is_said_in_its_groups() -> None:
    assert digits("(020) 555-01") == "zero two zero, five five five, zero one"
