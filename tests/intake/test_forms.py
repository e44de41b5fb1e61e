"""The customer's form makes the API's body, and says kindly what it cannot read."""

from __future__ import annotations

from typing import Any

import pytest
from django.http import QueryDict

from intake.domain.reading import read_sheet
from intake.forms import FormErrors, body_from_post, read_form
from intake.long_path import PLANS
from intake.measure_page import MeasurePage, read_back
from tests.given import a_body

BOXES: dict[str, Any] = {
    "tape_unit": "in",
    "wants": ["shaft", "coupling", "bearing"],
    "contact.name": "Wilmot Tarpley",
    "contact.phone": "+1 202 555 0100",
    "contact.role": "owner",
    "answers.boat_name_and_station.name": "Biscuit Barrel",
    "answers.boat_name_and_station.station": "single",
    "answers.drive_layout": "inline",
    "answers.flange_direction": "aft",
    "answers.dia_clean.text": "1",
    "answers.dia_clean.method": "caliper",
    "answers.face_to_strut_aft.text": "44 1/8",
    "answers.face_to_strut_aft.method": "rod",
    "answers.gap_now.text": "3/4",
    "answers.gap_now.method": "drill_shank",
    "answers.tail_to_thread.text": "4 7/8",
    "answers.tail_to_thread.method": "tape_short",
    "answers.hub_length.text": "2 15/16",
    "answers.hub_length.method": "caliper",
    "answers.old_length_face_to_thread.text": "49",
    "answers.old_length_face_to_thread.method": "tape",
    "answers.flange_od.text": "4",
    "answers.flange_od.method": "tape_short",
    "answers.shell_od.text": "1 1/4",
    "answers.shell_od.method": "caliper_in_place",
    "answers.bearing_length.text": "2",
    "answers.bearing_length.count": "1",
}


def posted(**changes: Any) -> QueryDict:
    """The clean form, with some boxes changed; a double underscore is a dot."""
    boxes = BOXES | {name.replace("__", "."): value for name, value in changes.items()}
    post = QueryDict(mutable=True)
    for name, value in boxes.items():
        post.setlist(name, value if isinstance(value, list) else [value])
    return post


def errors_of(post: QueryDict) -> dict[str, list[str]]:
    with pytest.raises(FormErrors) as refused:
        read_form(post)
    return refused.value.errors


def test_the_form_makes_the_apis_body() -> None:
    body = body_from_post(posted())
    told = a_body()
    told["answers"]["bearing_length"] = {"text": "2", "count": "1"}
    assert body == told
    assert read_sheet(body) == read_sheet(a_body())


def test_empty_boxes_are_questions_not_asked() -> None:
    body = body_from_post(posted(answers__gap_now__text=" ", tape_unit=""))
    assert "gap_now" not in body["answers"]
    assert body["tape_unit"] is None


def test_what_cannot_be_measured_is_an_answer() -> None:
    post = posted(answers__gap_now__text="", answers__gap_now__state="cannot_measure")
    body, sheet = read_form(post)
    assert body["answers"]["gap_now"] == {"state": "cannot_measure"}
    assert sheet.cannot("gap_now")


def test_a_second_reading_travels_with_the_first() -> None:
    post = posted(answers__face_to_strut_aft__again__text="44 1/4")
    _body, sheet = read_form(post)
    again = sheet.readings["face_to_strut_aft"].again
    assert again is not None
    assert again.text == "44 1/4"


def test_the_coupling_at_that_moment_and_what_changed() -> None:
    post = posted(
        answers__coupling_state__is="loose", answers__changed_since_shaft=["engine", "strut"]
    )
    body, _sheet = read_form(post)
    assert body["answers"]["coupling_state"] == {"is": "loose"}
    assert body["answers"]["changed_since_shaft"] == ["engine", "strut"]


def test_a_number_and_a_tick_that_there_is_none_are_not_both_kept() -> None:
    errors = errors_of(posted(answers__gap_now__state="cannot_measure"))
    assert list(errors) == ["answers.gap_now"]


def test_somebody_must_be_reachable() -> None:
    assert "contact.phone" in errors_of(posted(contact__phone=""))
    read_form(posted(contact__phone="", contact__email="w@example.org"))


def test_every_error_comes_at_once_in_words_for_people() -> None:
    post = posted(answers__gap_now__text="58 5/0", answers__hub_length__text="nan", wants=[])
    errors = errors_of(post)
    assert set(errors) == {"answers.gap_now", "answers.hub_length", "wants"}
    assert errors["wants"] == ["Tick at least one thing that you want from us."]


def test_an_error_is_linked_to_its_box() -> None:
    post = posted(answers__bearing_length__count="many", contact__phone="")
    page = MeasurePage(post, errors_of(post))
    ids = {line["id"] for line in page.summary}
    assert ids == {"f-answers-bearing_length-count", "f-contact-phone"}
    labels = {str(line["label"]) for line in page.summary}
    assert labels == {"How many", "Phone"}


def test_a_second_readings_error_stands_by_the_second_reading() -> None:
    post = posted(answers__face_to_strut_aft__again__text="twelvish")
    errors = errors_of(post)
    wrong = [asked.plan.slug for asked in MeasurePage(post, errors).asked if asked.errors]
    assert wrong == ["face_to_strut_aft.again"], errors


def test_a_second_reading_needs_a_first() -> None:
    errors = errors_of(
        posted(
            answers__face_to_strut_aft__text="",
            answers__face_to_strut_aft__again__text="44 1/8",
        )
    )
    assert errors == {"answers.face_to_strut_aft": ["Please give the first reading too."]}


def test_an_error_without_a_box_is_said_all_the_same() -> None:
    page = MeasurePage(posted(), {"answers.rotation": ["This is right or left."]})
    assert page.summary[0]["message"] == "answers.rotation: This is right or left."


def test_read_back_in_both_systems_and_in_words() -> None:
    read = read_back("face_to_strut_aft", "58 5/8", "in")
    assert read.both == "58 5/8 in · 1489.1 mm"
    assert read.spoken == "fifty-eight and five eighths inches"


def test_read_back_without_a_known_tape_says_what_it_took() -> None:
    read = read_back("face_to_strut_aft", "1489", None)
    assert read.both.endswith("1489 mm")
    assert read.doubts


def test_read_back_of_nothing_is_nothing_and_of_nonsense_is_kind() -> None:
    assert read_back("gap_now", "  ", "in") == read_back("gap_now", "", None)
    nonsense = read_back("gap_now", "58 5/0", "in")
    assert nonsense.error
    assert nonsense.suggestions
    assert not nonsense.both
    assert read_back("no_such_question", "3/4", "in").both


def test_every_measured_question_of_the_page_is_drawn_with_its_ends() -> None:
    for asked in MeasurePage(QueryDict(""), {}).asked:
        assert bool(asked.figure) == asked.plan.drawn, asked.plan.slug


def test_each_question_that_can_fail_says_its_fallback() -> None:
    lengths = [plan for plan in PLANS if plan.boxes[0].kind == "length"]
    assert all(plan.cannot for plan in lengths if not plan.slug.endswith(".again"))
