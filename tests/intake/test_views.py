"""The customer's door: measure, review, send once; nothing typed is lost, a GET changes nothing."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from intake.models import Submission
from tests.intake.desk_given import stock_the_shelf
from tests.intake.test_forms import BOXES

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def parts_on_the_shelf(db: None) -> None:
    stock_the_shelf()


def fill_in(client: Client, **changes: Any) -> Any:
    """Send the form with some boxes changed; a double underscore is a dot."""
    boxes = BOXES | {name.replace("__", "."): value for name, value in changes.items()}
    return client.post(reverse("measure"), boxes)


def review_of(client: Client, **changes: Any) -> str:
    """The address of the review of a filled-in form."""
    answer = fill_in(client, **changes)
    assert answer.status_code == 302, answer.content.decode()
    return str(answer["Location"])


def draft_in(address: str) -> str:
    return address.split("draft=")[1]


def test_the_page_asks_and_warns_and_stores_nothing(client: Client) -> None:
    page = client.get(reverse("measure"))
    text = page.content.decode()
    assert page.status_code == 200
    for word in ("keel stands on blocks", "Battery off", "floods a boat afloat", "edges cut"):
        assert word in text
    assert "does not certify strength, whip or alignment" in text
    assert "sessionid" not in page.cookies
    assert not re.search(r"\sstyle=|\son\w+=", text)


def test_nothing_typed_is_lost_when_something_cannot_be_read(client: Client) -> None:
    page = fill_in(client, answers__gap_now__text="58 5/0", contact__name="O'Brien & <b>")
    text = page.content.decode()
    assert page.status_code == 200
    assert 'href="#f-answers-gap_now-text"' in text
    assert 'value="58 5/0"' in text
    assert 'value="44 1/8"' in text
    assert "O&#x27;Brien &amp; &lt;b&gt;" in text
    assert re.search(r'name="answers.gap_now.text"[^>]*aria-invalid="true"', text)
    assert not Submission.objects.exists()


def test_the_review_says_everything_in_both_systems_and_in_words(client: Client) -> None:
    text = client.get(review_of(client)).content.decode()
    for said in (
        "44 1/8 in · 1120.8 mm",
        "forty-four and one eighth inches",
        "rod through the log",
        "Biscuit Barrel, her only shaft",
        "straight back from the engine",
        "It adds up",
    ):
        assert said in text
    assert not Submission.objects.exists()


def test_the_review_asks_what_does_not_add_up(client: Client) -> None:
    text = client.get(review_of(client, answers__face_to_strut_aft__text="45 1/8")).content.decode()
    assert "What we would ask you" in text
    assert "finding-ask" in text or "finding-stop" in text


def test_what_cannot_be_measured_is_reviewed_with_its_fallback(client: Client) -> None:
    address = review_of(client, answers__gap_now__text="", answers__gap_now__state="cannot_measure")
    text = client.get(address).content.decode()
    assert "we lean on the boat&#x27;s lengths" in text


def test_change_brings_back_what_was_typed(client: Client) -> None:
    draft = draft_in(review_of(client))
    text = client.get(reverse("measure"), {"draft": draft}).content.decode()
    assert 'value="2 15/16"' in text
    assert f'name="draft" value="{draft}"' in text


def test_sent_twice_it_is_stored_once(client: Client) -> None:
    draft = draft_in(review_of(client))
    first = client.post(reverse("review"), {"draft": draft})
    second = client.post(reverse("review"), {"draft": draft})
    stored = Submission.objects.get()
    assert first["Location"] == second["Location"] == reverse("status", args=[stored.token])
    assert stored.channel == "form"
    body = stored.sheets.get().body
    assert body["answers"]["face_to_strut_aft"] == {"text": "44 1/8", "method": "rod"}


def test_a_changed_sheet_is_a_new_one(client: Client) -> None:
    draft = draft_in(review_of(client))
    client.post(reverse("review"), {"draft": draft})
    again = review_of(client, draft=draft, answers__hub_length__text="3")
    assert draft_in(again) == draft
    client.post(reverse("review"), {"draft": draft})
    assert Submission.objects.count() == 2


def test_two_boats_at_once_do_not_mix(client: Client) -> None:
    port = review_of(client, answers__boat_name_and_station__name="Port Boat")
    other = review_of(client, answers__boat_name_and_station__name="Other Boat")
    assert "Port Boat" in client.get(port).content.decode()
    assert "Other Boat" in client.get(other).content.decode()


def test_another_session_does_not_see_a_draft(client: Client) -> None:
    address = review_of(client)
    answer = Client().get(address)
    assert answer.status_code == 302
    assert answer["Location"] == reverse("measure")


def test_one_length_is_read_back(client: Client) -> None:
    boxes = {"slug": "face_to_strut_aft", "answers.face_to_strut_aft.text": "58 5/8"}
    text = client.post(reverse("read-back"), {**boxes, "tape_unit": "in"}).content.decode()
    assert "58 5/8 in · 1489.1 mm" in text
    assert "<html" not in text


@pytest.mark.parametrize("slug", ["face_to_strut_aft", "../../x", "<b>", ""])
def test_read_back_of_nonsense_is_a_kind_sentence(client: Client, slug: str) -> None:
    boxes = {"slug": slug, f"answers.{slug}.text": "1e9"}
    answer = client.post(reverse("read-back"), boxes)
    assert answer.status_code == 200
    assert "<b>" not in answer.content.decode()


def test_read_back_changes_nothing_and_is_not_got(client: Client) -> None:
    assert client.get(reverse("read-back")).status_code == 405


@pytest.mark.parametrize("template", ["400", "403", "404", "429", "500"])
def test_error_pages_stand_alone(template: str) -> None:
    from django.template.loader import render_to_string

    text = render_to_string(f"{template}.html", {"request_id": "1a2b3c4d"})
    assert "1a2b3c4d" in text
    assert "<h1>" in text


def test_the_login_page_says_kindly_what_went_wrong(client: Client) -> None:
    answer = client.post(reverse("login"), {"username": "nobody", "password": "wrong"})
    assert "do not belong together" in answer.content.decode()
