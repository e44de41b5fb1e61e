"""The counter's side: the price beside a call, and a quote issued by hand."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from quotes import services
from quotes.domain.money import PriceError, read_price
from quotes.models import Quote
from tests.intake.desk_given import a_call
from tests.quotes.given import (
    a_metric_submission,
    a_quote,
    a_quoter,
    a_submission,
    stock_the_shelf,
)

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def desk(client: Client) -> Client:
    client.force_login(a_quoter(), backend="django.contrib.auth.backends.ModelBackend")
    return client


def test_a_stranger_is_asked_to_log_in(client: Client) -> None:
    address = reverse("desk-issue", args=[a_submission().reference])
    assert client.get(address)["Location"].startswith(reverse("login"))


def test_who_may_not_quote_is_refused(client: Client) -> None:
    nobody = a_quoter("bronagh", rights=())
    client.force_login(nobody, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(reverse("desk-issue", args=[a_submission().reference])).status_code == 403
    beside = client.post(reverse("desk-price"), a_call())
    assert beside.status_code == 200, "said in its place: the call goes on"
    assert "may not quote" in beside.content.decode()
    assert "697.07" not in beside.content.decode()


def test_the_price_stands_beside_the_call(desk: Client) -> None:
    said = desk.post(reverse("desk-price"), a_call()).content.decode()
    assert "697.07" in said
    assert "<html" not in said
    assert not Quote.objects.exists()


@pytest.mark.parametrize("boxes", [{}, {"wants": ["shaft"]}, {"answers.dia_clean.text": "1 /"}])
def test_half_a_call_is_no_hindrance(desk: Client, boxes: dict[str, Any]) -> None:
    assert desk.post(reverse("desk-price"), boxes).status_code == 200


def test_a_box_that_cannot_be_read_leaves_the_rest(desk: Client) -> None:
    said = desk.post(reverse("desk-price"), a_call(rudder_clear="abc")).content.decode()
    assert "697.07" in said


def test_the_price_beside_the_call_takes_a_constant_number_of_queries(
    desk: Client, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    with django_assert_max_num_queries(10):  # the dated rates and the rack are two of them
        desk.post(reverse("desk-price"), a_call())


def test_a_released_sheet_can_be_quoted_at_once(desk: Client) -> None:
    submission = a_submission()
    address = reverse("desk-issue", args=[submission.reference])
    assert "Issue the quote" in desk.get(address).content.decode()
    assert desk.post(address).status_code == 302
    said = desk.get(address).content.decode()
    assert Quote.objects.get().number in said
    assert "Issue the quote" not in said
    assert Quote.objects.get().issued_by is not None


def test_a_missing_price_is_typed(desk: Client, do_jobs: Any) -> None:
    submission = a_metric_submission()
    do_jobs()
    address = reverse("desk-issue", args=[submission.reference])
    assert 'name="price.KEY"' in desk.get(address).content.decode()

    wrong = desk.post(address, {"price.KEY": "dear"})
    assert wrong.status_code == 400
    assert 'value="dear"' in wrong.content.decode()
    assert "a price like 12.50" in wrong.content.decode()

    assert desk.post(address, {}).status_code == 400
    assert Quote.objects.get().status == "drafted"

    assert desk.post(address, {"price.KEY": "11,50"}).status_code == 302
    assert Quote.objects.get().status == "issued"


def test_an_open_question_comes_first(desk: Client) -> None:
    asked = a_submission(face_to_strut_aft={"text": "45 1/8", "method": "rod"})
    address = reverse("desk-issue", args=[asked.reference])
    assert "cannot be quoted yet" in desk.get(address).content.decode()
    assert "so it cannot become quoted" in desk.post(address, follow=True).content.decode()
    assert not Quote.objects.exists()


def test_an_issued_quote_is_only_shown(desk: Client) -> None:
    quote = a_quote()
    said = desk.get(reverse("desk-issue", args=[quote.submission.reference])).content.decode()
    assert "Download the PDF" in said


def test_no_such_reference(desk: Client) -> None:
    assert desk.get(reverse("desk-issue", args=["FG-NOSUCH"])).status_code == 404


@pytest.mark.parametrize(("text", "price"), [("12.50", "12.5"), ("12,5", "12.5"), (" 7 ", "7")])
def test_prices_as_people_type_them(text: str, price: str) -> None:
    assert read_price(text) == Decimal(price)


@pytest.mark.parametrize(
    "text", ["", "-3", "nan", "1e9", "12.50.1", "1/2", "twelve", "9" * 10_000, "１２"]
)
def test_what_is_no_price_is_refused(text: str) -> None:
    with pytest.raises(PriceError):
        read_price(text)


def test_the_length_and_the_total_stand_on_top_and_which_shaft_it_is(desk: Client) -> None:
    submission = a_submission(boat_name_and_station={"name": "Corncrake", "station": "port"})
    address = reverse("desk-issue", args=[submission.reference])
    services.issue_quote(submission_id=submission.pk)
    page = desk.get(address).content.decode()
    assert "Corncrake, port" in page
    top = page[: page.index("Part or work")]
    assert '<p class="big">49 in · 1244.6 mm</p>' in top
    assert "Total <strong>697.07</strong>" in top


def test_a_total_that_lacks_a_price_is_never_called_the_total(desk: Client) -> None:
    submission = a_metric_submission()
    page = desk.get(reverse("desk-issue", args=[submission.reference])).content.decode()
    assert "Total so far <strong>" in page
    assert "Total <strong>" not in page
