"""What is folded away on the form: it opens when it is needed, and every question can be told."""

from __future__ import annotations

import html
import re
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from intake.desk_fields import sections
from intake.domain.questions import QUESTIONS
from intake.domain.reading import read_sheet
from intake.forms import body_from_post
from intake.long_path import MORE, THROUGH
from intake.models import Submission
from tests.intake.desk_given import stock_the_shelf
from tests.intake.test_forms import BOXES, posted

NEEDED = {"gearbox_through", "front_end", "front_taper", "forward_datum"}
MISSED = {
    "shaft_in": "out",
    "engine_mounts": "soft",
    "propeller_stays": "yes",
    "between_strut_and_propeller.kind": "anode",
    "between_strut_and_propeller.length": "1 1/4",
    "bearing_place.in": "strut",
    "bearing_place.struts": "2",
    "bearing_hours.text": "250",
    "bearing_wear": "one_side",
}
FRONT = {
    "answers.gearbox_through.text": "9 1/2",
    "answers.gearbox_through.method": "rule",
    "answers.front_end.showing": "4 1/4",
    "answers.front_end.nut": "castle",
    "answers.front_taper.tapered": "yes",
    "answers.forward_datum": "gearbox_back",
}


def send(client: Client, **changes: Any) -> Any:
    return client.post(reverse("measure"), BOXES | changes)


def is_open(page: Any, key: str) -> bool:
    found = re.search(rf'<details class="folded" id="part-{key}"[^>]*?( open)?>', page)
    assert found, key
    return bool(found[1])


def test_the_form_and_the_desk_have_boxes_for_every_question_that_was_missing() -> None:
    slugs = {name.partition(".")[0] for name in MISSED}
    assert {plan.slug for plan in MORE} == slugs
    assert {plan.slug for plan in THROUGH} == NEEDED
    at_the_desk = {field.key for section in sections({}, {}) for field in section.fields}
    assert {f"answers.{slug}" for slug in slugs | NEEDED} <= at_the_desk
    for plan in (*MORE, *THROUGH):
        assert plan.ask == QUESTIONS[plan.slug].ask


def test_what_is_told_in_more_reaches_the_sheet() -> None:
    sheet = read_sheet(body_from_post(posted(**{f"answers__{k}": v for k, v in MISSED.items()})))
    assert sheet.choices["shaft_in"] == "out"
    assert sheet.choices["bearing_wear"] == "one_side"
    assert sheet.part("between_strut_and_propeller", "kind") == "anode"
    assert sheet.part("bearing_place", "struts") == 2
    assert sheet.part("bearing_hours", "text") == "250"


def test_a_second_reading_on_the_form_carries_its_mark() -> None:
    again = {"text": "54 1/8", "start_mark": "10", "method": "rod"}
    boxes = {f"answers__face_to_strut_aft__again__{k}": v for k, v in again.items()}
    body = body_from_post(posted(**boxes))
    assert body["answers"]["face_to_strut_aft"]["again"] == again
    reading = read_sheet(body).readings["face_to_strut_aft"]
    assert reading.again is not None
    assert reading.again.length == reading.length


@pytest.mark.django_db
def test_both_parts_are_folded_at_first(client: Client) -> None:
    page = client.get(reverse("measure")).content.decode()
    assert not is_open(page, "through")
    assert not is_open(page, "more")
    assert page.count('name="shown"') == page.count("disabled") == 2


@pytest.mark.django_db
def test_without_a_script_the_form_comes_back_once_with_what_is_needed(client: Client) -> None:
    stock_the_shelf()
    page = send(client, **{"answers.drive_layout": "v_pass_through"})
    said = page.content.decode()
    assert page.status_code == 200
    assert "One step more" in said
    assert is_open(said, "through")
    assert 'value="44 1/8"' in said
    assert '<input type="hidden" name="shown" value="through">' in said
    again = send(client, **{"answers.drive_layout": "v_pass_through", "shown": "through"})
    assert again.status_code == 302, "asked once, not for ever"


@pytest.mark.django_db
def test_who_has_answered_them_is_not_sent_back(client: Client) -> None:
    stock_the_shelf()
    answer = send(client, **{"answers.drive_layout": "v_pass_through"}, **FRONT)
    assert answer.status_code == 302
    review = html.unescape(client.get(answer["Location"]).content.decode())
    assert "4 1/4 in · 108" in review
    assert "Nut: castle" in review or "nut: castle" in review
    assert "back of the gearbox" in review


@pytest.mark.django_db
def test_what_was_left_out_is_not_read_back(client: Client) -> None:
    stock_the_shelf()
    answer = send(client)
    assert answer.status_code == 302
    review = html.unescape(client.get(answer["Location"]).content.decode())
    for plan in (*MORE, *THROUGH):
        assert str(plan.ask) not in review


@pytest.mark.django_db
def test_the_desk_types_them_too(client: Client) -> None:
    from tests.intake.desk_given import a_call, a_new_call, a_person

    stock_the_shelf()
    client.force_login(a_person(), backend="django.contrib.auth.backends.ModelBackend")
    boxes = a_call() | {f"answers.{name}": text for name, text in MISSED.items()}
    answer = client.post(a_new_call(), boxes)
    assert answer.status_code == 302, answer.content.decode()
    told = Submission.objects.get().current.body["answers"]
    assert told["between_strut_and_propeller"] == {"kind": "anode", "length": "1 1/4"}
    assert told["bearing_place"] == {"in": "strut", "struts": "2"}
    assert told["engine_mounts"] == "soft"
