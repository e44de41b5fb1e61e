"""Did it fit? Asked when it is time, stored once, and silence is no yes."""

from __future__ import annotations

import html
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from intake.models import ShaftFitted
from quotes.models import Outcome, Quote
from quotes.outcomes.selectors import asked_now, leaves_on
from tests.quotes.given import a_quote, a_submission, an_accepted, stock_the_shelf

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def tell(client: Client, quote: Quote, **typed: str) -> Any:
    return client.post(reverse("fit", args=[quote.submission.token]), typed, follow=True)


def page_of(client: Client, quote: Quote) -> str:
    answer = client.get(reverse("status", args=[quote.submission.token]))
    return html.unescape(answer.content.decode())


def test_it_is_asked_a_week_and_a_month_after_it_left() -> None:
    quote = an_accepted(days_ago=0)
    left = leaves_on(quote)
    assert left is not None
    assert 10 <= (left - quote.accepted_at.date()).days <= 18, "ten working days for the coupling"
    assert asked_now(an_accepted(days_ago=12, boat_name_and_station="Thimble")) == 0
    assert asked_now(an_accepted(days_ago=26, boat_name_and_station="Teal")) == 7
    assert asked_now(an_accepted(days_ago=50, boat_name_and_station="Smew")) == 30


def test_nobody_is_asked_before(client: Client) -> None:
    assert asked_now(a_quote()) == 0
    somebody = {"contact": {"name": "Odile Marsh", "phone": "+1 202 555 0177"}}
    quote = an_accepted(days_ago=1, top=somebody)
    said = page_of(client, quote)
    assert "Did it fit?" not in said
    assert "It should leave us about" in said
    assert "We have it already" in html.unescape(tell(client, quote, fitted="yes").content.decode())
    assert not Outcome.objects.exists()


def test_a_fitted_shaft_is_kept_with_its_gap(client: Client) -> None:
    quote = an_accepted(days_ago=30)
    assert "Did it fit?" in page_of(client, quote)
    said = html.unescape(tell(client, quote, fitted="yes", gap="13/16").content.decode())
    assert "It helps the next boat" in said
    assert "Did it fit?" not in said
    row, fitted = Outcome.objects.get(), ShaftFitted.objects.get()
    assert (row.after_days, row.fitted, row.gap_typed) == (7, "yes", "13/16")
    assert row.gap_nm == fitted.gap_nm == 20_637_500
    assert fitted.length_nm == 1_244_600_000
    assert not fitted.misfit
    assert fitted.month == f"{leaves_on(quote):%Y-%m}"


def test_a_gap_out_of_its_band_is_a_misfit_though_it_was_fitted(client: Client) -> None:
    tell(client, an_accepted(days_ago=30), fitted="yes", gap="2")
    assert ShaftFitted.objects.get().misfit


def test_it_did_not_fit(client: Client) -> None:
    quote = an_accepted(days_ago=30)
    answer = tell(client, quote, fitted="no")
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 400
    assert 'href="#fit-different"' in said
    tell(client, quote, fitted="no", different="an inch too short")
    assert ShaftFitted.objects.get().misfit
    assert Outcome.objects.get().different == "an inch too short"


def test_a_yes_without_a_gap_proves_nothing(client: Client) -> None:
    tell(client, an_accepted(days_ago=30), fitted="yes")
    fitted = ShaftFitted.objects.get()
    assert (fitted.gap_nm, fitted.off_nm, fitted.misfit) == (None, None, False)


def test_silence_is_no_success() -> None:
    an_accepted(days_ago=90)
    assert not Outcome.objects.exists()
    assert not ShaftFitted.objects.exists()


def test_a_double_click_is_stored_once(client: Client) -> None:
    quote = an_accepted(days_ago=30)
    for _ in range(2):
        tell(client, quote, fitted="yes", gap="3/4")
    assert Outcome.objects.count() == ShaftFitted.objects.count() == 1


def test_it_is_asked_again_after_a_month(client: Client) -> None:
    quote = an_accepted(days_ago=30)
    tell(client, quote, fitted="yes", gap="3/4")
    Quote.objects.update(accepted_at=quote.accepted_at.replace(year=quote.accepted_at.year - 1))
    assert "A month on: did it fit?" in page_of(client, quote)
    tell(client, quote, fitted="changed", gap="5/8", different="shimmed")
    assert [one.after_days for one in Outcome.objects.all()] == [7, 30]
    assert "did it fit?" not in page_of(client, quote).lower()


@pytest.mark.parametrize(
    ("typed", "box"),
    [
        ({}, "#fit-yes"),
        ({"fitted": "perhaps"}, "#fit-yes"),
        ({"fitted": "yes", "gap": "wide"}, "#fit-gap"),
    ],
)
def test_what_cannot_be_read_is_said_and_nothing_lost(
    client: Client, typed: dict[str, str], box: str
) -> None:
    answer = tell(client, an_accepted(days_ago=30), different="shimmed", **typed)
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 400
    assert f'href="{box}"' in said
    assert ">shimmed</textarea>" in said
    if "gap" in typed:
        assert 'value="wide"' in said
    assert not Outcome.objects.exists()


def test_an_order_without_a_shaft_tells_nothing_of_shafts(client: Client) -> None:
    quote = an_accepted(days_ago=60, top={"wants": ["bearing"]})
    tell(client, quote, fitted="yes")
    assert Outcome.objects.count() == 1
    assert not ShaftFitted.objects.exists()


def test_other_doors_are_shut(client: Client) -> None:
    assert client.post(reverse("fit", args=["x" * 43]), {}).status_code == 404
    submission = a_submission()
    assert client.get(reverse("fit", args=[submission.token])).status_code == 405
    answer = client.post(reverse("fit", args=[submission.token]), {"fitted": "yes"})
    assert answer.status_code == 302
