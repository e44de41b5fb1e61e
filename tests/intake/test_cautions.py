"""Cautions stand at the step they belong to, once, and briefly."""

from __future__ import annotations

import pytest
from django.test import Client
from django.utils.html import escape

from intake import cautions
from intake.cautions import CAUTIONS, caution_for, cautions_along, cautions_at
from intake.domain.questions import QUESTIONS
from intake.long_path import PLANS
from intake.short_path import ABOUT, INSIDE, PROPELLER, REST
from intake.templatetags.know import cautions_of_form

OUTSIDE = ("dia_clean", "face_to_strut_aft", "gap_now", "hub_length", "shell_od", "bearing_play")
FORM = [plan.slug for plan in PLANS]


@pytest.mark.parametrize("slug", OUTSIDE)
def test_nobody_is_sent_under_a_boat_without_a_word(slug: str) -> None:
    assert cautions_at(slug)[:2] == ("boat", "engine")
    assert str(CAUTIONS["boat"]) in (caution_for(slug) or "")


@pytest.mark.parametrize(
    ("slug", "key"),
    [
        ("drive_layout", "engine"),
        ("rotation", "engine"),
        ("old_length_face_to_thread", "pull"),
        ("old_length_overall", "lift"),
        ("face_to_strut_aft", "afloat"),
        ("gap_now", "hands"),
        ("shell_od", "dust"),
        ("reason", "strike"),
        ("engine_power", "limits"),
    ],
)
def test_a_caution_stands_where_the_danger_is(slug: str, key: str) -> None:
    assert key in cautions_at(slug)


def test_most_questions_need_none() -> None:
    assert caution_for("boat_name_and_station") is None
    assert caution_for("water") is None


def test_cautions_belong_to_questions_that_are_asked() -> None:
    everything = set(QUESTIONS) | {"face_to_strut_how", *FORM}
    assert set(cautions._MORE) | set(cautions._OUTSIDE) <= everything
    assert {key for keys in cautions._MORE.values() for key in keys} <= set(CAUTIONS)


@pytest.mark.parametrize("key", CAUTIONS)
def test_a_caution_is_brief(key: str) -> None:
    assert 10 <= len(str(CAUTIONS[key]).split()) <= 55


def test_along_a_path_each_is_said_once_at_its_first_step() -> None:
    short = [plan.slug for plan in (*ABOUT, *INSIDE, *PROPELLER, *REST)]
    along = cautions_along(short)
    said = [key for keys in along.values() for key in keys]
    assert len(said) == len(set(said))
    assert {"boat", "engine", "fumes", "afloat", "hands", "pull", "lift", "dust"} <= set(said)
    outside = next(slug for slug in short if "boat" in cautions_at(slug))
    assert "boat" in along[outside]


def test_what_was_said_before_is_not_said_again() -> None:
    assert cautions_along(["gap_now"], before=["boat", "engine"]) == {"gap_now": ("hands",)}


def test_the_form_says_each_once_in_the_open(client: Client, db: None) -> None:
    page = client.get("/").content.decode()
    for key in ("boat", "engine", "afloat", "diving", "hands", "lift", "dust"):
        assert page.count(str(escape(CAUTIONS[key]))) == 1, key
    at_old_shaft = cautions_of_form("old_length_face_to_thread")["cautions"]
    assert CAUTIONS["pull"] in at_old_shaft
