"""Every answer of a stored body becomes the form's boxes again."""

from __future__ import annotations

import json
from importlib import resources
from typing import Any

import pytest
from django.http import QueryDict

from intake.desk_drafts.boxes import as_form, body_of, boxes_of, is_many, known_boxes, texts_in
from intake.desk_drafts.drawn import drawn, label_of
from intake.desk_drafts.going_on.rebasing import answers_in
from intake.desk_fields import contact_fields, order_boxes, sections
from intake.domain.questions import COMPOSITES, QUESTIONS
from intake.domain.reading import read_sheet
from tests.given import a_body

DEMO: list[dict[str, Any]] = json.loads(
    resources.files("quotes.demo").joinpath("bodies.json").read_text("utf-8")
)

# One answer of every shape that a box can say.
SHAPES: dict[str, Any] = {
    "dia_clean": "1 in",
    "face_to_strut_aft": {
        "text": "54 1/8",
        "method": "rod",
        "start_mark": "10",
        "again": {"text": "44 1/8", "method": "tape", "start_mark": "0"},
    },
    "gap_now": {"state": "cannot_measure"},
    "old_length_overall": {"state": "not_applicable"},
    "pin_end": "yes",
    "water": "salt",
    "bolts": {"count": 4, "spacing": "2 5/16", "size": None},
    "engine_power": "120 hp",
    "changed_since_shaft": ["engine", "strut"],
    "measured_when": "2026-04-13",
    "needed_by": {"run": "2026-12-01"},
    "boat_name_and_station": {"name": "Otter, the second", "station": "port"},
}
# No box can say these.
BOXLESS: dict[str, Any] = {
    "supports": [{"what": "bearing", "from_face": "30"}],
    "polished_bands": [["10", "12"]],
    "reuse_coupling": {"reuse": True},
}


@pytest.mark.parametrize("row", DEMO, ids=[row["ref"] for row in DEMO])
def test_a_demo_body_comes_back_from_its_boxes(row: dict[str, Any]) -> None:
    again = body_of(boxes_of(row["body"]))
    assert answers_in(again) == answers_in(row["body"])
    assert read_sheet({**again, "channel": row["body"]["channel"]}) == read_sheet(row["body"])


@pytest.mark.parametrize("slug", SHAPES)
def test_every_shape_of_an_answer_comes_back_from_its_boxes(slug: str) -> None:
    body = a_body(without=(slug,), **{slug: SHAPES[slug]}, top={"channel": "phone"})
    assert read_sheet(body_of(boxes_of(body))) == read_sheet(body)


def test_order_number_metal_and_use_come_back() -> None:
    top = {"job": "PO 7", "alloy": "S20910", "use": "work", "channel": "phone", "wants": ["shaft"]}
    body = a_body(top=top)
    assert read_sheet(body_of(boxes_of(body))) == read_sheet(body)


@pytest.mark.parametrize("slug", BOXLESS)
def test_what_no_box_can_say_has_none(slug: str) -> None:
    told = boxes_of({"answers": {slug: BOXLESS[slug]}})
    assert not any(told.values())


def test_every_box_of_the_page_is_known() -> None:
    fields = [field for part in sections({}, {}) for field in part.fields]
    names = {box.name for field in [*fields, *contact_fields({}, {})] for box in field.boxes}
    names |= {field.state.name for field in fields if field.state}
    names |= {box.name for box in order_boxes({})} | {"wants"}
    assert names <= known_boxes()


def test_a_box_is_known_for_every_part_of_every_answer() -> None:
    for slug, parts in COMPOSITES.items():
        assert {f"answers.{slug}.{part}" for part in parts} <= known_boxes()
    assert "answers.contact_phone" not in known_boxes()
    assert "answers.no_such_question.text" not in known_boxes()


def test_a_tick_that_is_not_there_is_a_box_that_is_empty() -> None:
    form = QueryDict("answers.gap_now.text=3/4&tape_unit=in&csrfmiddlewaretoken=x&seen=3")
    assert texts_in(form) == {
        "answers.gap_now.text": "3/4",
        "answers.gap_now.state": "",
        "tape_unit": "in",
        "wants": "",
    }


def test_ticks_and_lists_are_one_box() -> None:
    form = QueryDict("wants=shaft&wants=bearing&tape_unit=in&answers.changed_since_shaft=engine")
    assert texts_in(form)["wants"] == "shaft,bearing"
    assert as_form({"wants": "shaft,bearing"}).getlist("wants") == ["shaft", "bearing"]
    assert as_form({"wants": ""}).getlist("wants") == []
    assert [slug for slug in QUESTIONS if is_many(f"answers.{slug}")] == [
        slug for slug, question in QUESTIONS.items() if question.kind == "list"
    ]


@pytest.mark.parametrize(
    ("name", "kept", "shown"),
    [
        ("answers.gap_now.state", "not_applicable", ""),
        ("answers.gap_now.state", "cannot_measure", "cannot_measure"),
        ("answers.gap_now.method", "", QUESTIONS["gap_now"].default_method),
        ("answers.gap_now.method", "laser", "laser"),
        ("answers.drive_layout", "inline", "inline"),
        ("answers.drive_layout", "sideways", ""),
        ("contact.role", "", ""),
        ("contact.name", "Odile\nMarsh", "OdileMarsh"),
        ("answers.changed_since_shaft", "engine,strut", "engine,strut"),
    ],
)
def test_the_page_can_show_it_only_so(name: str, kept: str, shown: str) -> None:
    assert drawn(name, kept) == shown


@pytest.mark.parametrize(
    ("name", "label"),
    [
        (GAP := "answers.gap_now.text", "Gap"),
        ("answers.gap_now", "Gap"),
        ("answers.boat_name_and_station.station", "Boat and shaft: shaft"),
        ("contact.phone", "Phone beside the boat"),
        ("job", "Their order number"),
        ("wants", "Wanted"),
        ("answers.face_to_strut_aft.again.text", "Face to strut, aft end"),
        ("answers.needed_by.run", "Needed by"),
    ],
)
def test_a_box_is_called_what_people_call_it(name: str, label: str) -> None:
    assert str(label_of(name)) == label
