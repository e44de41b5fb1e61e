"""Pages on which a manager keeps things true: no barrier at either width, nothing typed is lost."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.intake.desk_given import stock_the_shelf
from tests.quotes.given import a_quote
from tests.staff.given import a_member

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
each_screen = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["phone", "desk"])


@pytest.fixture
def cookies(signed_in: SignedIn, transactional_db: None) -> list[dict[str, str]]:
    stock_the_shelf()
    return signed_in(a_member("percival", "manager"))


@each_screen
def test_a_part_is_changed_with_the_quotes_that_rest_on_it_in_view(
    cookies: list[dict[str, str]], open_page: OpenPage, barrier_free: BarrierFree, screen: Any
) -> None:
    quote = a_quote()
    code = next(line["code"] for line in quote.lines if line["code"].startswith("CP"))
    page = open_page(reverse("part-edit", args=[code]), cookies=cookies, **screen)
    expect(page.get_by_role("link", name=quote.number)).to_be_visible()
    barrier_free(page)
    page.get_by_label("Price from today on").fill("a lot")
    page.get_by_role("button", name="Store it").click()
    expect(page.get_by_role("alert")).to_contain_text("Please write why")
    expect(page.get_by_label("Price from today on")).to_have_value("a lot")
    barrier_free(page)
    page.get_by_label("Price from today on").fill("121.00")
    page.get_by_label("Why", exact=True).fill("the maker asks more")
    page.get_by_role("button", name="Store it").click()
    expect(page.get_by_text("the maker asks more").first).to_be_visible()


@each_screen
def test_costs_words_and_changes_are_free_of_barriers(
    cookies: list[dict[str, str]], open_page: OpenPage, barrier_free: BarrierFree, screen: Any
) -> None:
    page = open_page(reverse("costs"), cookies=cookies, **screen)
    page.get_by_label("One call-back").fill("15")
    page.get_by_label("Name of the change").fill("autumn")
    page.get_by_role("button", name="Reckon with these").click()
    expect(page.get_by_role("alert")).to_contain_text("Please write why")
    barrier_free(page)
    page.get_by_label("Why").fill("the phone got dearer")
    page.get_by_role("button", name="Reckon with these").click()
    expect(page.get_by_text("One call-back: 15.00")).to_be_visible()
    barrier_free(page)
    root = page.url.partition("/insights/")[0]
    page.goto(root + reverse("word-question", args=["gap_now"]))
    page.get_by_label("Asked so").fill("How wide is it?")
    barrier_free(page)
    page.get_by_label("Why").fill("shorter")
    page.get_by_role("button", name="Ask it so from now on").click()
    expect(page.get_by_text("Asked so from now on")).to_be_visible()
    barrier_free(page)
    for name, words in (("all-changes", "Every change"), ("cause-alarms", "Causes that come back")):
        page.goto(root + reverse(name))
        expect(page.get_by_role("heading", level=1)).to_have_text(words)
        barrier_free(page)
