"""The form, the review and the papers to print in Spanish: no English word is left."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from catalog.domain.lengths import inches
from intake.guided_path import guided_path
from intake.models import Submission
from intake.said import reader_words
from tests.english import english_left, seen
from tests.given import a_body as a_plain_body
from tests.intake.bodies import a_body
from tests.intake.desk_given import stock_the_shelf
from tests.quotes.paper.papers import read, texts

pytestmark = pytest.mark.django_db
KNOW = ["before-you-start", "ways-to-the-length", "no-shaft-or-broken", "pass-through"]
KNOW += ["bearing-at-the-strut", "coupling-off"]
FORM = {
    "wants": ["shaft", "coupling", "bearing"],
    "tape_unit": "in",
    "contact.phone": "+1 202 555 0100",
    "contact.role": "owner",
    "answers.boat_name_and_station.name": "Biscuit Barrel",
    "answers.boat_name_and_station.station": "single",
    "answers.drive_layout": "inline",
    "answers.dia_clean.text": "1",
    "answers.dia_clean.method": "caliper",
    "answers.face_to_strut_aft.text": "44 1/8",
    "answers.face_to_strut_aft.method": "rod",
    "answers.gap_now.text": "3/4",
    "answers.gap_now.method": "drill_shank",
    "answers.coupling_state.is": "tight",
    "answers.hub_length.text": "2 15/16",
    "answers.old_length_face_to_thread.text": "49",
    "answers.flange_od.text": "4",
    "answers.flange_direction": "aft",
    "answers.shell_od.text": "1 1/4",
    "answers.bearing_length.text": "2",
    "answers.bearing_length.count": "1",
}


@pytest.fixture
def customer() -> Client:
    """Somebody whose browser asks for Spanish."""
    stock_the_shelf()
    return Client(headers={"accept-language": "es-ES,es;q=0.9"})


def spanish(answer: Any, status: int = 200) -> str:
    """What a page says, once it is sure that it is Spanish."""
    assert answer.status_code == status
    page = answer.content.decode()
    assert '<html lang="es">' in page
    assert english_left(seen(page)) == []
    return seen(page)


# --- Pages --------------------------------------------------------------------------------


@pytest.mark.parametrize("path", ["/", "/know/", "/guided/", *(f"/know/{k}/" for k in KNOW)])
def test_every_page_is_spanish(customer: Client, path: str) -> None:
    spanish(customer.get(path))


@pytest.mark.parametrize("path", ["/", "/know/", "/guided/", *(f"/know/{k}/" for k in KNOW)])
def test_and_english_for_who_reads_english(client: Client, path: str) -> None:
    page = client.get(path).content.decode()
    assert '<html lang="en">' in page
    assert len(english_left(seen(page))) > 5


@pytest.mark.parametrize(
    "typed",
    [
        {},
        {"answers.gap_now.text": "3 x"},
        {"answers.face_to_strut_aft.text": "4 10 5/8"},
        {"answers.hub_length.text": "12,5,0", "wants": []},
        {"contact.phone": "", "contact.email": "not an address"},
        {"answers.bearing_length.count": "many"},
        {"answers.face_to_strut_aft.again.text": "44", "answers.face_to_strut_aft.text": ""},
        {"answers.gap_now.state": "cannot_measure"},
        {"answers.engine_power.text": "310", "answers.gear_ratio.text": "x"},
    ],
)
def test_every_error_is_spanish(customer: Client, typed: dict[str, Any]) -> None:
    sent = {**FORM, **typed} if typed else {}
    answer = customer.post("/", sent)
    if answer.status_code == 200:
        assert "necesita" in spanish(answer) or "otra mirada" in spanish(answer)
    else:
        spanish(customer.get(answer["Location"]))


def review(customer: Client, **typed: Any) -> str:
    sent = customer.post("/", {**FORM, **typed})
    assert sent.status_code == 302, seen(sent.content.decode())
    return str(sent["Location"])


def test_the_review_reads_back_in_spanish_metric_first(customer: Client) -> None:
    page = spanish(customer.get(review(customer)))
    assert "1120,8 mm · 44 1/8 in" in page
    assert "cuarenta y cuatro y un octavo de pulgada" in page
    assert "19,1 mm · 3/4 in" in page
    assert "Cuadra" in page


def test_a_metric_tape_is_read_with_its_comma(customer: Client) -> None:
    again = {"tape_unit": "mm", "slug": "gap_now", "answers.gap_now.text": "19,5"}
    answer = customer.post(reverse("read-back"), again)
    said = seen(answer.content.decode())
    assert "19,5 mm · " in said
    assert "diecinueve coma cinco milímetros" in said
    assert english_left(said) == []


@pytest.mark.parametrize(
    "typed",
    [
        {"answers.face_to_strut_aft.text": "43 1/8"},
        {"answers.gap_now.text": "3"},
        {"answers.dia_clean.text": "1 1/2"},
        {"answers.shell_od.text": "1"},
        {"answers.old_length_face_to_thread.text": "", "answers.gap_now.text": "3/4 shy"},
        {"answers.hub_length.text": "2 15/16", "answers.face_to_strut_aft.text": "44.1"},
    ],
)
def test_every_doubt_of_the_review_is_spanish(customer: Client, typed: dict[str, str]) -> None:
    spanish(customer.get(review(customer, **typed)))


# --- Sent ---------------------------------------------------------------------------------


def test_a_request_remembers_its_language(customer: Client) -> None:
    draft = review(customer).partition("draft=")[2]
    sent = customer.post(reverse("review"), {"draft": draft})
    assert sent.status_code == 302
    assert Submission.objects.get().language == "es"


@pytest.mark.parametrize(
    ("headers", "language"),
    [({}, "en"), ({"accept-language": "es-AR"}, "es"), ({"accept-language": "de"}, "en")],
)
def test_a_program_says_its_customers_language(
    client: Client, headers: dict[str, str], language: str
) -> None:
    """By the header that is for it; the body keeps its contract, and the answer its English."""
    answer = client.post("/api/v1/submissions/", a_body(), "application/json", headers=headers)
    assert answer.status_code == 201
    assert Submission.objects.get().language == language
    assert "language" not in answer.json()


def test_the_body_takes_no_language(client: Client) -> None:
    body = {**a_body(), "language": "es"}
    assert client.post("/api/v1/submissions/", body, "application/json").status_code == 400


def test_a_repeat_keeps_the_first_language(client: Client) -> None:
    for language in ("es", "en"):
        headers = {"accept-language": language, "idempotency-key": "one"}
        answer = client.post("/api/v1/submissions/", a_body(), "application/json", headers=headers)
        assert answer.status_code == 201
    assert Submission.objects.get().language == "es"


# --- The guided path's data ---------------------------------------------------------------


FOR_PROGRAMS = {"know", "name", "slug", "path", "opens", "blind", "said", "kind", "caution"}
FOR_PROGRAMS |= {"lit", "mistake", "default_method"}


def sentences(told: Any, name: str = "") -> Iterator[str]:
    """Every text of the data that people read."""
    if isinstance(told, dict):
        for key, inner in told.items():
            if key not in FOR_PROGRAMS:
                yield from sentences(inner, key)
    elif name in ("options", "methods"):
        yield from (words for _code, words in told)
    elif isinstance(told, list):
        for inner in told:
            yield from sentences(inner, name)
    elif isinstance(told, str):
        yield told


def test_the_guided_path_is_spanish() -> None:
    told = guided_path("es")
    assert told["language"] == "es"
    assert told["metric_first"] is True
    for text in sentences(told):
        assert english_left(re.sub(r"\{\w+\}", " ", text)) == [], text


def test_what_the_phone_can_say_alone_travels_along() -> None:
    table = guided_path("es")["said"]
    assert table == reader_words("es")
    assert len(table) > 60
    assert guided_path("en")["said"] == {}
    assert len(json.dumps(table)) < 20_000


# --- Papers -------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["measuring-sheet", "gauges"])
def test_papers_to_print_are_spanish(client: Client, name: str) -> None:
    answer = client.get(f"{reverse(name)}?lang=es")
    said = " ".join(texts(answer.content))
    assert english_left(said) == []
    assert len(said) > 1500
    assert read(answer.content).trailer["/Root"]["/Lang"] == "es"


def test_the_papers_of_both_languages_are_kept_apart(client: Client) -> None:
    papers = [client.get(f"{reverse('gauges')}?lang={code}").content for code in ("en", "es", "en")]
    assert papers[0] == papers[2] != papers[1]


def test_a_clean_sheet_is_what_it_should_be() -> None:
    """The form above and the clean sheet of all tests are one boat."""
    assert a_plain_body()["answers"]["gap_now"]["text"] == FORM["answers.gap_now.text"]
    assert inches("44 1/8").both() == "44 1/8 in · 1120.8 mm"
