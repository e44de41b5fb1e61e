"""The machinist's pages in a real browser, at both widths, in light and dark."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.urls import reverse
from playwright.sync_api import Page, expect

from quotes.models import Quote
from quotes.passport.models import Passport
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.quotes.given import an_accepted, stock_the_shelf
from tests.quotes.parcels.given import an_accepted_parcel
from tests.quotes.shop.shafts import a_sent
from tests.staff.given import a_member

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
SCREENS = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["360", "1280"])


@pytest.fixture
def quote(transactional_db: None) -> Quote:
    """One accepted shaft whose page nobody has drawn yet."""
    stock_the_shelf()
    return an_accepted(days_ago=2)


@pytest.fixture
def bronagh(quote: Quote) -> User:
    return a_member("bronagh", "machinist")


@SCREENS
def test_the_list_and_the_page_that_says_why_not_are_barrier_free(
    open_page: OpenPage,
    signed_in: SignedIn,
    barrier_free: BarrierFree,
    quote: Quote,
    bronagh: User,
    screen: Any,
) -> None:
    cookies = signed_in(bronagh)
    page = open_page(reverse("shop"), cookies=cookies, **screen)
    barrier_free(page)
    page.get_by_role("link", name=quote.number).click()
    expect(page.get_by_role("button", name="Draw the cut sheet")).to_be_visible()
    barrier_free(page)


@SCREENS
def test_a_parcel_of_parts_is_packed_and_goes(
    open_page: OpenPage,
    signed_in: SignedIn,
    barrier_free: BarrierFree,
    quote: Quote,
    bronagh: User,
    screen: Any,
) -> None:
    parcel = an_accepted_parcel(boat_name_and_station={"name": "Fedora", "station": "single"})
    cookies = signed_in(bronagh)
    page = open_page(reverse("shop"), cookies=cookies, **screen)
    expect(page.get_by_role("heading", name="Parcels of parts alone")).to_be_visible()
    barrier_free(page)
    page.get_by_role("button", name="Packed Fedora").click()
    page.get_by_role("link", name="Send Fedora").click()
    expect(page.get_by_label("Who carries it")).to_be_visible()
    barrier_free(page)
    page.get_by_label("Who carries it").fill("fetched by the yard")
    page.get_by_role("button", name="Gone").click()
    expect(page.get_by_text("Please weigh the parcel").first).to_be_visible()
    barrier_free(page)
    page.get_by_label("Weight as weighed, lb").fill("9.5")
    page.get_by_role("button", name="Gone").click()
    expect(page.get_by_role("heading", name="How it left")).to_be_visible()
    barrier_free(page)
    assert parcel.number in page.content()


@SCREENS
def test_at_the_bench_without_a_script_a_shaft_is_sawn_made_and_measured(
    open_page: OpenPage,
    signed_in: SignedIn,
    barrier_free: BarrierFree,
    quote: Quote,
    bronagh: User,
    screen: Any,
) -> None:
    cookies = signed_in(bronagh)
    page = open_page(reverse("shop"), cookies=cookies, java_script_enabled=False, **screen)
    page.get_by_role("button", name="Bar sawn").click()
    page.get_by_role("button", name="Shaft made").click()
    page.get_by_role("link", name="Inspect").click()
    page.get_by_label("Face to thread end").fill("49 3/16")
    page.get_by_role("button", name="See the gap it makes").click()
    expect(page.get_by_text("Shorten, or scrap").first).to_be_visible()
    expect(page.get_by_text("0.188 in (4.76 mm) faced off")).to_be_visible()
    page.get_by_label("Face to thread end").fill("49")
    page.get_by_role("button", name="Store this inspection").click()
    expect(page.get_by_role("heading", name="Number 1")).to_be_visible()
    seen = open_page(
        reverse("shop-shaft", args=[quote.submission.reference]), cookies=cookies, **screen
    )
    barrier_free(seen)


@SCREENS
def test_the_page_behind_a_tag_is_barrier_free_and_takes_hours(
    open_page: OpenPage, barrier_free: BarrierFree, transactional_db: None, screen: Any
) -> None:
    stock_the_shelf()
    quote = a_sent(a_member("bronagh", "machinist"), a_member("cadoc", "machinist"))
    page = open_page(reverse("passport", args=[Passport.objects.get(quote=quote).token]), **screen)
    page.get_by_text("What the letters mean").click()
    barrier_free(page)
    page.get_by_label("Engine hours now").fill("lots")
    page.get_by_role("button", name="Keep the hours").click()
    expect(page.get_by_text("as a whole number").first).to_be_visible()
    barrier_free(page)
