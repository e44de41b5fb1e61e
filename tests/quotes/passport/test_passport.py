"""The page behind a shaft's tag: what it shows, what it never shows, what an owner may add."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from intake.models import Submission
from quotes.models import Quote
from quotes.outcomes.models import Outcome
from quotes.passport import tags
from quotes.passport.models import HoursReading, Passport
from quotes.privacy.services import forget_requests
from tests.quotes.given import an_accepted, stock_the_shelf
from tests.quotes.paper.papers import texts
from tests.quotes.shop.shafts import a_made, a_sent, inspected
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf(settings: Any) -> None:
    stock_the_shelf()
    settings.LINK_THROTTLE = ""


@pytest.fixture
def bronagh() -> User:
    return a_member("bronagh", "machinist")


@pytest.fixture
def second() -> User:
    return a_member("cadoc", "machinist")


@pytest.fixture
def sent(bronagh: User, second: User) -> Quote:
    """A shaft that has left us."""
    return a_sent(bronagh, second)


def page(quote: Quote, client: Client | None = None) -> str:
    answer = (client or Client()).get(address(quote))
    assert answer.status_code == 200
    return " ".join(answer.content.decode().split())


def address(quote: Quote, name: str = "passport") -> str:
    return reverse(name, args=[Passport.objects.get(quote=quote).token])


def test_the_tag_leads_to_the_page_and_nobody_guesses_it(bronagh: User) -> None:
    quote = a_made(bronagh)
    passport = Passport.objects.get(quote=quote)
    assert len(passport.token) >= 22, "128 bits"
    assert tags.address_of(passport).endswith(address(quote))
    client = logged_in(bronagh)
    pdf = client.get(reverse("shaft-tag", args=[quote.submission.reference]))
    assert pdf["Content-Type"] == "application/pdf"
    assert quote.number in texts(pdf.content)[0]
    assert Client().get(reverse("passport", args=["A" * 22])).status_code == 404


def test_before_the_bar_is_sawn_there_is_no_tag(bronagh: User) -> None:
    quote = an_accepted(days_ago=0)
    answer = logged_in(bronagh).get(reverse("shaft-tag", args=[quote.submission.reference]))
    assert "The tag is there as soon as the bar is sawn" in answer.content.decode()
    assert not Passport.objects.exists(), "looking makes none"


def test_it_shows_the_shaft_as_made_and_the_gap_once_told(sent: Quote) -> None:
    said = page(sent)
    for words in ("Biscuit Barrel", sent.number, "49 in · 1244.6 mm", "UNS S20910", "as made",
                  "3/4 in", "nobody has told it yet"):  # fmt: skip
        assert words in said
    Outcome.objects.create(quote=sent, after_days=7, fitted="yes", gap_nm=20_637_500)
    said = page(sent)
    assert "13/16 in · 20.6 mm" in said
    assert "nobody has told it yet" not in said


def test_nobodys_name_no_phone_and_no_price_and_no_search_engine(sent: Quote) -> None:
    answer = Client().get(address(sent))
    said = answer.content.decode()
    for secret in ("Tarpley", "Wilmot", "202 555", "697.07", "180.00", sent.submission.token,
                   sent.submission.reference, "bronagh"):  # fmt: skip
        assert secret not in said
    assert "noindex" in answer["X-Robots-Tag"]
    assert "no-store" in answer["Cache-Control"]
    assert '<meta name="robots" content="noindex, nofollow">' in said


def test_while_it_is_in_the_shop_it_says_so(bronagh: User) -> None:
    quote = a_made(bronagh)
    assert "This shaft is still in the shop" in page(quote)
    assert "as ordered" in page(quote)
    inspected(quote, bronagh, length="49 1/32")
    assert "49 1/32 in · 1245.4 mm" in page(quote)


# --- Hours --------------------------------------------------------------------------------


def tell(quote: Quote, hours: str, renewed: str = "") -> Any:
    return Client().post(address(quote, "passport-hours"), {"hours": hours, "renewed": renewed})


def test_the_owner_adds_hours_and_the_bearings_hours_are_counted(sent: Quote) -> None:
    for hours, renewed in (("1000", ""), ("1 240", ""), ("1,300", "yes"), ("1350", "")):
        assert tell(sent, hours, renewed).status_code == 302
    tell(sent, "1350")  # a double click
    assert [one.hours for one in HoursReading.objects.all()] == [1350, 1300, 1240, 1000]
    said = page(sent)
    assert re.search(r'class="big">50 h<', said), "since the bearing was renewed"
    assert said.count("renewed</td>") == 1


@pytest.mark.parametrize("hours", ["", "many", "-3", "12.5", "9" * 12, "²"])
def test_hours_that_cannot_be_are_refused_and_shown_again(sent: Quote, hours: str) -> None:
    answer = tell(sent, hours)
    assert answer.status_code == 400
    assert "as a whole number, like 1240" in answer.content.decode()
    assert not HoursReading.objects.exists()


def test_too_many_readings_from_one_address_wait(sent: Quote, settings: Any) -> None:
    settings.LINK_THROTTLE = "2/hour"
    answers = [tell(sent, str(1000 + n)).status_code for n in range(4)]
    assert answers == [302, 302, 429, 429]
    assert HoursReading.objects.count() == 2


# --- Same again ---------------------------------------------------------------------------


def test_same_again_begins_a_request_with_boat_side_and_the_old_shaft(sent: Quote) -> None:
    client = Client()
    answer = client.post(address(sent, "passport-again"))
    assert answer["Location"].startswith(reverse("measure") + "?draft=")
    form = client.get(answer["Location"]).content.decode()
    assert 'value="Biscuit Barrel"' in form
    assert f'value="as {sent.submission.reference}"' in form
    assert 'value="49 in"' in form, "the old shaft's length, as we made it"
    assert Submission.objects.count() == 1, "nothing is sent by it"
    assert "Wilmot" not in form


def test_an_erased_customer_takes_the_page_along(sent: Quote, do_jobs: Callable[[], int]) -> None:
    gone = address(sent)
    tell(sent, "1000")
    forget_requests([sent.submission_id])
    assert Client().get(gone).status_code == 404
    assert not HoursReading.objects.exists()
