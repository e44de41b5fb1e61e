"""The machinist's pages in a real browser, at both widths, in light and dark."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.urls import reverse
from playwright.sync_api import Page, expect

from quotes.models import Quote
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.quotes.given import an_accepted, stock_the_shelf
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
