"""The status page, the quote and the mails in Spanish: no English word is left."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import astuple, replace
from typing import Any

import pytest
from django.core import mail
from django.test import Client
from django.urls import reverse
from django.utils import translation

from intake.models import Submission
from intake.said import said
from intake.services import receive_submission
from quotes import services
from quotes.links import services as links
from quotes.models import Quote, QuoteDocument
from quotes.said_facts import said_facts
from tests.english import english_left, seen
from tests.given import a_body
from tests.quotes.given import FORTY_MM, an_accepted, stock_the_shelf, ticked
from tests.quotes.paper.papers import read, texts, the_facts

pytestmark = pytest.mark.django_db
CONTACT = {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "email": "wilmot@example.net"}


@pytest.fixture
def customer() -> Client:
    stock_the_shelf()
    return Client(headers={"accept-language": "es"})


def a_request(language: str = "es", **changes: Any) -> Submission:
    top = {"contact": CONTACT, **changes.pop("top", {})}
    return receive_submission(body=a_body(top=top, **changes), language=language)


def a_quote(language: str = "es", **changes: Any) -> Quote:
    return services.issue_quote(submission_id=a_request(language, **changes).pk)


def page_of(customer: Client, submission: Submission) -> str:
    return spanish(customer.get(reverse("status", args=[submission.token])))


def spanish(answer: Any, status: int = 200) -> str:
    assert answer.status_code == status
    page = answer.content.decode()
    assert '<html lang="es">' in page
    assert english_left(seen(page)) == []
    return seen(page)


# --- The status page ----------------------------------------------------------------------


@pytest.mark.parametrize(
    "answers",
    [
        {"face_to_strut_aft": {"text": "42 1/8", "method": "rod"}},
        {"face_to_strut_aft": {"state": "cannot_measure"}},
        {"flange_direction": {"state": "cannot_measure"}},
        {"gap_now": {"text": "3", "method": "tape"}},
        {"without": ("old_length_face_to_thread",)},
        {"hub_length": {"state": "cannot_measure"}, "without": ("tail_to_thread",)},
        {"drive_layout": "v_pass_through"},
    ],
)
def test_what_is_open_is_asked_in_spanish(customer: Client, answers: dict[str, Any]) -> None:
    page_of(customer, a_request(**answers))


def test_a_quote_is_shown_in_spanish_with_comma_and_metric_first(customer: Client) -> None:
    quote = a_quote()
    page = page_of(customer, quote.submission)
    assert "1244,6 mm · 49 in" in page
    assert f"Presupuesto {quote.number}, versión 1" in page
    assert f"{quote.total}".replace(".", ",") in page.replace("\xa0", "")
    assert quote.valid_until is not None
    assert f"de {quote.valid_until.year}" in page


def test_a_draft_a_declined_and_an_accepted_quote(customer: Client) -> None:
    top = {"tape_unit": "mm", "wants": ["shaft", "coupling"]}
    metric = a_request(top=top, without=("shell_od", "bearing_length"), **FORTY_MM)
    services.issue_quote(submission_id=metric.pk)
    page_of(customer, metric)
    declined = services.decline_quote(quote=a_quote(), reason="precio")
    page_of(customer, declined.submission)
    accepted = an_accepted(days_ago=40, top={"contact": CONTACT})
    assert "Aceptado" in page_of(customer, accepted.submission)


def test_what_is_wrong_is_said_in_spanish(customer: Client) -> None:
    quote = a_quote()
    where = [quote.submission.token, 1]
    spanish(customer.post(reverse("accept", args=where), {"name": ""}), 400)
    spanish(customer.post(reverse("decline", args=where), {"reason": ""}), 400)
    services.accept_quote(quote=quote, name="W", confirmations=ticked(quote))
    spanish(customer.post(reverse("decline", args=where), {"reason": "no"}), 409)
    asked = a_request(without=("old_length_face_to_thread",))
    number = asked.current.number
    again = {"sheet_number": number, "text": "4 10 5/8", "start_mark": "x", "method": "rod"}
    spanish(customer.post(reverse("second-reading", args=[asked.token]), again), 400)
    open_one = a_request(flange_direction={"state": "cannot_measure"})
    answer = {"sheet_number": open_one.current.number}
    spanish(customer.post(reverse("answer", args=[open_one.token]), answer), 400)


def test_a_customers_own_words_are_not_translated(customer: Client) -> None:
    names = {"name": "stop", "station": "single"}
    page = page_of(customer, a_request(boat_name_and_station=names))
    assert "stop" in page


# --- The paper ----------------------------------------------------------------------------


def paper_of(quote: Quote) -> bytes:
    return bytes(QuoteDocument.objects.get(quote=quote).content)


def test_the_paper_is_in_the_language_the_request_came_in(customer: Client) -> None:
    pages = texts(paper_of(a_quote()))
    assert len(pages) <= 3
    said_there = " ".join(pages)
    assert english_left(said_there) == []
    assert "Presupuesto Q-" in said_there
    assert "1244,6 mm · 49 in" in said_there
    assert "válido hasta el" in said_there
    assert "Confirme, por favor, antes de aceptar" in said_there


def test_and_says_so_to_who_listens_to_it(customer: Client) -> None:
    root = read(paper_of(a_quote())).trailer["/Root"]
    assert root["/Lang"] == "es"


def test_an_english_request_has_an_english_paper_whoever_looks(customer: Client) -> None:
    with translation.override("es"):
        said_there = " ".join(texts(paper_of(a_quote(language=""))))
    assert "Quote Q-" in said_there
    assert "49 in · 1244.6 mm" in said_there


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"top": {"wants": ["coupling"]}},
        {"top": {"tape_unit": "mm", "wants": ["shaft"]}, **FORTY_MM},
        {"drive_layout": "v_rear_flange", "face_to_strut_aft": {"text": "44 1/8", "method": "rod"}},
        {
            "face_to_strut_aft": {
                "text": "54 1/8",
                "method": "rod",
                "start_mark": "10",
                "again": {"text": "44 1/8", "method": "rod"},
            }
        },
    ],
)
def test_every_fact_on_paper_is_said(changes: dict[str, Any]) -> None:
    facts = the_facts(**changes)
    with translation.override("es"):
        told = said_facts(facts)
    plain = replace(told, drawing=None, gap_drawing=None)
    assert english_left(" | ".join(strings(astuple(plain)))) == []
    assert (told.customer, told.number, told.job) == (facts.customer, facts.number, facts.job)


def strings(told: Any) -> Iterator[str]:
    if isinstance(told, str):
        yield told
    elif isinstance(told, (tuple, list)):
        for one in told:
            yield from strings(one)


def test_english_facts_are_left_alone() -> None:
    facts = the_facts()
    assert said_facts(facts) == facts


def test_a_hostile_name_stays_a_name() -> None:
    name = {"name": "Round bar, port shaft", "station": "single"}
    with translation.override("es"):
        assert said_facts(the_facts(boat_name_and_station=name)).boat == (
            "Round bar, port shaft, eje único"
        )


# --- Mails --------------------------------------------------------------------------------


def test_a_mail_is_in_the_language_the_request_came_in(
    customer: Client, do_jobs: Any, settings: Any
) -> None:
    settings.SITE_URL = "https://desk.example.net"
    for language in ("es", "en"):
        submission = a_request(language)
        links.send_link(submission=submission)
    do_jobs()
    letters = {letter.subject: letter for letter in mail.outbox}
    assert set(letters) == {
        "Su enlace nuevo para Biscuit Barrel",
        "Your new link for Biscuit Barrel",
    }
    letter = letters["Su enlace nuevo para Biscuit Barrel"]
    assert english_left(str(letter.body).replace("desk.example.net", "")) == []
    assert isinstance(letter, mail.EmailMultiAlternatives)
    page, _kind = letter.alternatives[0]
    assert english_left(seen(str(page))) == []
    assert '<html lang="es">' in str(page)


def test_money_has_its_comma() -> None:
    with translation.override("es"):
        assert said("12\xa0345.60") == "12\xa0345,60"
