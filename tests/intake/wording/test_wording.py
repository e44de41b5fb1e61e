"""A question is asked in the desk's words once they are adopted; old ones stay on record."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.utils import translation

from intake.domain.questions import QUESTIONS
from intake.guided_path import guided_path
from intake.guided_shell import version
from intake.models import QuestionWording
from intake.said import said
from intake.wording import selectors
from intake.wording.services import WordingErrors, WordingOvertaken, adopt_wording
from staff.trail.selectors import changes_of
from tests.staff.given import a_member

pytestmark = pytest.mark.django_db
SLUG = "face_to_strut_aft"
OWN = QUESTIONS[SLUG].ask
OURS = "From the flange's face to the strut's after end: how far is it?"


@pytest.fixture
def percival() -> User:
    return a_member("percival", "manager")


def adopt(by: User, **told: Any) -> QuestionWording:
    shown = {"slug": SLUG, "ask": OURS, "ask_es": "", "reason": "people took the back of it"}
    return adopt_wording(**{**shown, "by": by, **told})


def test_form_phone_and_paper_ask_in_the_new_words(percival: User, client: Client) -> None:
    assert said(OWN) == OWN
    before = version()
    adopt(percival, ask=f"<b>{OURS}</b>")
    page = client.get("/").content.decode()
    assert "&lt;b&gt;From the flange" in page
    assert OWN not in page
    steps = {step["slug"]: step["ask"] for step in guided_path("en")["steps"]}
    assert steps[SLUG] == f"<b>{OURS}</b>"
    assert version() != before  # what a phone keeps is fetched anew


def test_spanish_readers_keep_their_words_until_there_are_others(percival: User) -> None:
    with translation.override("es"):
        usual = said(OWN)
        adopt(percival)
        assert said(OWN) == usual
        adopt(percival, ask_es="¿Cuánto hay de la cara de la brida al final del arbotante?")
        assert said(OWN).startswith("¿Cuánto hay de la cara")


def test_empty_words_go_back_and_every_version_stays(percival: User) -> None:
    adopt(percival)
    adopt(percival, ask="", reason="it was no better")
    assert said(OWN) == OWN
    assert [row.number for row in selectors.wordings_of(SLUG)] == [2, 1]
    assert changes_of("question", SLUG)[0].what["asked"] == [OURS, ""]


@pytest.mark.parametrize(
    ("told", "box"),
    [({"ask": "x" * 301}, "ask"), ({"ask": "how?"}, "ask"), ({"reason": " "}, "reason"),
     ({"ask": OWN}, "ask"), ({"ask_es": "¿sí?"}, "ask_es")],
)  # fmt: skip
def test_what_is_no_question_is_refused_at_its_box(
    percival: User, told: dict[str, str], box: str
) -> None:
    with pytest.raises(WordingErrors) as refused:
        adopt(percival, **told)
    assert list(refused.value.errors) == [box]
    assert not QuestionWording.objects.exists()


def test_of_two_managers_at_once_the_second_is_told(percival: User) -> None:
    adopt(percival, based_on=0)
    with pytest.raises(WordingOvertaken):
        adopt(percival, ask="Something else altogether?", based_on=0)


def test_a_page_pays_no_query_for_the_words(django_assert_num_queries: Any) -> None:
    with django_assert_num_queries(0):
        said(OWN)
