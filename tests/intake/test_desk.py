"""The counter's pages: what they show, who may open them, what they cost in queries."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from intake import desk_fields, desk_words, selectors
from intake.desk_order import CALL_ORDER
from intake.domain import questions
from intake.models import Submission
from tests.intake.desk_given import a_call, a_new_call, a_person, an_inch_out, stock_the_shelf

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def parts_on_the_shelf(db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


@pytest.fixture
def counter(client: Client) -> Client:
    """A browser with the counter logged in."""
    client.force_login(a_person("counter", "maud"))
    return client


def save(client: Client, boxes: dict[str, Any]) -> Submission:
    """Save a call and find it again."""
    answer = client.post(a_new_call(), boxes)
    assert answer.status_code == 302, answer.content.decode()[:3000]
    return selectors.by_reference(answer["Location"].rstrip("/").split("/")[-1])


def first_open(submission: Submission) -> str:
    """The check of the first finding that holds it."""
    return str(selectors.current_sheet(submission).outcome["findings"][0]["check"])


def a_record(submission: Submission, **changes: Any) -> dict[str, Any]:
    """The boxes of a call card: the boat length, measured again and right."""
    number = selectors.current_sheet(submission).number
    return {
        "check": first_open(submission),
        "sheet_number": str(number),
        "tape_unit": "in",
        "outcome": "corrected",
        "said_by": "Wilmot Tarpley",
        "cause": "R-BURN-X",
        "answers.face_to_strut_aft.text": "44 1/8",
        "answers.face_to_strut_aft.method": "rod",
        **changes,
    }


# --- Typing a call --------------------------------------------------------------------


def test_the_page_asks_in_the_order_people_speak(counter: Client) -> None:
    page = counter.get(reverse("desk")).content.decode()
    told = ["contact.phone", "answers.boat_name_and_station.name", "answers.drive_layout"]
    told += ["answers.face_to_strut_aft.text", "answers.gap_now.text", "answers.dia_clean.text"]
    places = [page.index(f'name="{name}"') for name in told]
    assert places == sorted(places)
    assert "style=" not in page
    assert "<script>" not in page


def test_every_choice_and_part_on_the_page_is_one_the_reader_knows() -> None:
    for slug, options in desk_words.CHOICES.items():
        bare = questions.BARE_PART.get(slug, "")
        known = questions.CHOICES.get(slug) or questions.COMPOSITES[slug][bare]
        assert {value for value, _word in options} <= set(known), slug
    for slug, parts in desk_words.PARTS.items():
        for name, _word, options in parts:
            known = questions.COMPOSITES[slug][name]
            assert not options or known == "text" or {value for value, _w in options} <= set(known)


def test_every_question_of_the_page_has_boxes() -> None:
    for _key, _title, slugs in CALL_ORDER:
        assert all(desk_fields.answer_field(slug, {}, {}).boxes[0].name for slug in slugs)


def test_a_saved_call_is_a_submission_by_phone(counter: Client) -> None:
    saved = save(counter, a_call())
    assert saved.channel == "phone"
    assert saved.boat_name == "Biscuit Barrel"
    sheet = selectors.current_sheet(saved)
    assert sheet.body["answers"]["face_to_strut_aft"] == {"text": "44 1/8", "method": "rod"}
    assert sheet.made_by is not None


def test_what_cannot_be_read_is_told_by_its_field_and_kept(counter: Client) -> None:
    answer = counter.post(a_new_call(), a_call(gap_now="3/4/5", hub_length="2 15/16"))
    page = answer.content.decode()
    assert answer.status_code == 400
    assert 'value="3/4/5"' in page
    assert 'value="2 15/16"' in page
    field = page[page.index('id="f-answers-gap_now-read"') :]
    assert 'class="error"' in field[: field.index("</div>")]
    assert not Submission.objects.exists()


def test_text_of_customers_is_never_markup(counter: Client) -> None:
    boxes = a_call(**{"contact.name": "<b>Bold</b>", "answers.boat_name_and_station.name": "<i>x"})
    saved = save(counter, boxes)
    for page in (reverse("submission", args=[saved.reference]), reverse("call-queue")):
        shown = counter.get(page).content.decode()
        assert "<b>Bold" not in shown
        assert "<i>x" not in shown


# --- The panel beside it --------------------------------------------------------------


def check(client: Client, boxes: dict[str, Any]) -> str:
    answer = client.post(a_new_call("desk-keep"), boxes)
    assert answer.status_code == 200
    return answer.content.decode()


def test_a_call_that_adds_up_is_released(counter: Client) -> None:
    panel = check(counter, a_call())
    assert "verdict-release" in panel
    assert "44 1/8 in · 1120.8 mm" in panel
    assert "<svg" in panel
    assert not Submission.objects.exists()


def test_routes_an_inch_apart_are_asked_about(counter: Client) -> None:
    panel = check(counter, an_inch_out())
    assert "verdict-release" not in panel.split("Ask next")[-1][:400]
    assert 'class="question"' in panel
    assert panel.count('class="finding ') <= 3


def test_two_findings_of_one_question_say_it_once(counter: Client) -> None:
    panel = check(counter, a_call(face_to_strut_aft="45 1/8", gap_now="3/4", hub_length="2 15/16"))
    asked = re.findall(r"Ask: ([^<]+)", panel)
    assert len(asked) == len(set(asked)) >= 1
    assert panel.count("The same question settles it.") == 1


def test_half_a_number_does_not_stop_the_rest(counter: Client) -> None:
    panel = check(counter, a_call(gap_now="3/"))
    assert "Not read yet" in panel
    assert "44 1/8 in · 1120.8 mm" in panel
    assert "verdict" in panel


@pytest.mark.parametrize("text", ["9" * 5000, "<b>x</b>", "=1+1", "½½½", "\u202e44", "nan", "1e9"])
def test_whatever_is_typed_the_panel_answers(counter: Client, text: str) -> None:
    panel = check(counter, a_call(face_to_strut_aft=text))
    assert "<b>x" not in panel


def test_an_empty_page_is_no_error(counter: Client) -> None:
    assert "Type the first numbers" in check(counter, {})


# --- One submission -------------------------------------------------------------------


def test_the_page_of_a_submission_costs_the_same_with_a_longer_history(
    counter: Client, django_assert_max_num_queries: Any
) -> None:
    saved = save(counter, an_inch_out())
    card = reverse("record-call", args=[saved.reference])
    page = reverse("submission", args=[saved.reference])
    with django_assert_max_num_queries(12):
        counter.get(page)
    for _again in range(4):
        counter.post(card, a_record(saved, outcome="not_reached", said_by="", cause=""))
    with django_assert_max_num_queries(12):
        counter.get(page)


def test_a_reference_may_be_typed_small(counter: Client) -> None:
    saved = save(counter, a_call())
    page = counter.get(reverse("submission", args=[saved.reference.lower()]))
    assert page.status_code == 200
    assert re.search(r"44 1/8 in · 1120\.8 mm", page.content.decode())


def test_an_unknown_reference_is_not_found(counter: Client) -> None:
    assert counter.get("/desk/FG-AAAAAA/").status_code == 404


# --- Who may ---------------------------------------------------------------------------

ADDRESSES = {"desk": "/desk/", "queue": "/desk/calls/", "insights": "/insights/by-month/"}


@pytest.mark.parametrize(
    "address", [*ADDRESSES.values(), "/desk/FG-AAAAAA/", "/insights/mismatches.csv"]
)
def test_nobody_enters_without_a_login(client: Client, address: str) -> None:
    answer = client.get(address)
    assert answer.status_code == 302
    assert answer["Location"].startswith("/accounts/login/")


@pytest.mark.parametrize(
    ("group", "desk", "queue", "insights"),
    [
        ("counter", 200, 200, 403),
        ("machinist", 403, 200, 403),
        ("manager", 200, 200, 200),
        ("stranger", 403, 403, 403),
    ],
)
def test_each_group_opens_its_own_pages(
    client: Client, group: str, desk: int, queue: int, insights: int
) -> None:
    client.force_login(a_person(group))
    got = [client.get(ADDRESSES[name]).status_code for name in ("desk", "queue", "insights")]
    assert got == [desk, queue, insights]


def test_a_machinist_reads_and_writes_nothing(client: Client) -> None:
    client.force_login(a_person("counter"))
    saved = save(client, an_inch_out())
    client.force_login(a_person("machinist"))
    page = client.get(reverse("submission", args=[saved.reference]))
    assert page.status_code == 200
    assert "Record the answer" not in page.content.decode()
    card = reverse("record-call", args=[saved.reference])
    assert client.get(card).status_code == 403
    assert client.post(card, a_record(saved)).status_code == 403
    assert client.post(a_new_call(), a_call()).status_code == 403
    assert client.post(a_new_call("desk-keep"), a_call()).status_code == 403
