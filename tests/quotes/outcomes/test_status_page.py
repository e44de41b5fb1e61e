"""Did it fit? Asked when it is time, stored once, and silence is no yes."""

from __future__ import annotations

import html
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.models import ShaftFitted
from quotes.cases.models import Case
from quotes.models import NotYetFitted, Outcome, Quote
from quotes.outcomes.selectors import asked_now
from quotes.sending.models import Shipment
from tests.quotes.given import a_quote, a_submission, an_accepted, stock_the_shelf
from tests.quotes.outcomes.given import a_sent, sent

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def tell(client: Client, quote: Quote, **typed: str) -> Any:
    return client.post(reverse("fit", args=[quote.submission.token]), typed, follow=True)


def page_of(client: Client, quote: Quote) -> str:
    answer = client.get(reverse("status", args=[quote.submission.token]))
    return html.unescape(answer.content.decode())


def test_it_is_asked_a_week_and_a_month_after_it_was_really_sent() -> None:
    quote = an_accepted(days_ago=300)
    assert asked_now(quote) == 0, "accepted long ago, and still in the shop"
    sent(quote, days_ago=6)
    for days, asked in ((6, 0), (7, 7), (29, 7), (30, 30), (200, 30)):
        Shipment.objects.update(day=timezone.localdate() - timedelta(days=days))
        assert asked_now(quote) == asked, days


def test_nobody_is_asked_before(client: Client) -> None:
    assert asked_now(a_quote()) == 0
    somebody = {"contact": {"name": "Odile Marsh", "phone": "+1 202 555 0177"}}
    quote = an_accepted(days_ago=100, top=somebody)
    assert "Did it fit?" not in page_of(client, quote)
    assert "We have it already" in html.unescape(tell(client, quote, fitted="yes").content.decode())
    assert not Outcome.objects.exists()


def test_a_fitted_shaft_is_kept_with_its_gap(client: Client) -> None:
    quote = a_sent(days_ago=12)
    assert "Did it fit?" in page_of(client, quote)
    said = html.unescape(tell(client, quote, fitted="yes", gap="13/16").content.decode())
    assert "It helps the next boat" in said
    assert "Did it fit?" not in said
    row, fitted = Outcome.objects.get(), ShaftFitted.objects.get()
    assert (row.after_days, row.fitted, row.gap_typed) == (7, "yes", "13/16")
    assert row.gap_nm == fitted.gap_nm == 20_637_500
    assert row.predicted_nm == 19_050_000
    assert fitted.length_nm == 1_244_600_000
    assert not fitted.misfit
    assert fitted.month == f"{quote.shipment.day:%Y-%m}"
    assert not Case.objects.exists()


def test_a_gap_out_of_its_band_is_a_misfit_though_it_was_fitted(client: Client) -> None:
    tell(client, a_sent(days_ago=12), fitted="yes", gap="1 3/8")
    assert ShaftFitted.objects.get().misfit
    assert Case.objects.get().opened_as == "outside"


def test_a_wide_gap_is_asked_about_kindly_and_then_taken(client: Client) -> None:
    quote = a_sent(days_ago=12)
    answer = tell(client, quote, fitted="no", gap="2", different="it sticks out")
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 400
    assert "2 in · 50.8 mm is a wide gap. Is it from the metal of the strut" in said
    assert "Yes, 2 is what I measured" in said
    assert not Outcome.objects.exists()
    tell(client, quote, fitted="no", gap="1 3/4", sure="2", different="it sticks out")
    assert not Outcome.objects.exists(), "that was said of another number"
    tell(client, quote, fitted="no", gap="2", sure="2", different="it sticks out")
    assert Outcome.objects.get().gap_nm == 50_800_000


def test_it_did_not_fit(client: Client) -> None:
    quote = a_sent(days_ago=12)
    answer = tell(client, quote, fitted="no")
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 400
    assert 'href="#fit-different"' in said
    tell(client, quote, fitted="no", different="an inch too short")
    assert ShaftFitted.objects.get().misfit
    assert Outcome.objects.get().different == "an inch too short"
    case = Case.objects.get()
    assert (case.opened_as, case.opened_by, case.found) == ("no", None, "at_fitting")
    assert "an inch too short" in case.events.get().words


def test_while_a_misfit_is_put_right_nobody_is_asked_again(client: Client) -> None:
    quote = a_sent(days_ago=12)
    tell(client, quote, fitted="no", different="too short")
    Shipment.objects.update(day=timezone.localdate() - timedelta(days=31))
    assert asked_now(quote) == 0
    Case.objects.update(state="done", kind="shorten")
    assert asked_now(quote) == 30
    Case.objects.update(kind="remake")
    assert asked_now(quote) == 0, "the new one is asked about"


def test_a_yes_without_a_gap_proves_nothing(client: Client) -> None:
    tell(client, a_sent(days_ago=12), fitted="yes")
    fitted = ShaftFitted.objects.get()
    assert (fitted.gap_nm, fitted.off_nm, fitted.misfit) == (None, None, False)


def test_a_double_click_is_stored_once(client: Client) -> None:
    quote = a_sent(days_ago=12)
    for _ in range(2):
        tell(client, quote, fitted="no", gap="1 3/8", different="sticks out")
    counts = [each.objects.count() for each in (Outcome, ShaftFitted, Case)]
    assert counts == [1, 1, 1]


def test_it_is_asked_again_after_a_month(client: Client) -> None:
    quote = a_sent(days_ago=12)
    tell(client, quote, fitted="yes", gap="3/4")
    Shipment.objects.update(day=timezone.localdate() - timedelta(days=200))
    assert "A month on: did it fit?" in page_of(client, quote)
    tell(client, quote, fitted="changed", gap="11/16", different="shimmed")
    assert [one.after_days for one in Outcome.objects.all()] == [7, 30]
    assert "did it fit?" not in page_of(client, quote).lower()


# --- Not yet --------------------------------------------------------------------------


def a_day(days: int) -> str:
    return f"{timezone.localdate() + timedelta(days=days):%Y-%m-%d}"


def test_not_yet_is_an_answer_that_asks_again_that_day(client: Client) -> None:
    quote = a_sent(days_ago=12)
    answer = tell(client, quote, fitted="not_yet", ask_on=a_day(20))
    assert "We ask again that day" in answer.content.decode()
    assert "Did it fit?" not in page_of(client, quote)
    assert not Outcome.objects.exists()
    NotYetFitted.objects.update(ask_on=timezone.localdate())
    assert asked_now(quote) == 7
    tell(client, quote, fitted="yes", gap="3/4")
    assert Outcome.objects.get().after_days == 7


@pytest.mark.parametrize("days", ["", "next week", "0", "400"])
def test_not_yet_wants_a_day_that_comes(client: Client, days: str) -> None:
    day = a_day(int(days)) if days.isdecimal() else days
    answer = tell(client, a_sent(days_ago=12), fitted="not_yet", ask_on=day)
    assert answer.status_code == 400
    assert 'href="#fit-ask_on"' in answer.content.decode()
    assert not NotYetFitted.objects.exists()


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
    answer = tell(client, a_sent(days_ago=12), different="shimmed", **typed)
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 400
    assert f'href="{box}"' in said
    assert ">shimmed</textarea>" in said
    if "gap" in typed:
        assert 'value="wide"' in said
    assert not Outcome.objects.exists()


def test_an_order_without_a_shaft_tells_nothing_of_shafts(client: Client) -> None:
    quote = a_sent(days_ago=12, top={"wants": ["bearing"]})
    tell(client, quote, fitted="no", different="the shell is loose")
    assert Outcome.objects.count() == 1
    assert not ShaftFitted.objects.exists()
    assert Case.objects.get().part == "other"


def test_other_doors_are_shut(client: Client) -> None:
    assert client.post(reverse("fit", args=["x" * 43]), {}).status_code == 404
    submission = a_submission()
    assert client.get(reverse("fit", args=[submission.token])).status_code == 405
    answer = client.post(reverse("fit", args=[submission.token]), {"fitted": "yes"})
    assert answer.status_code == 302
