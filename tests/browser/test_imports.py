"""A table is sent, looked at, taken and taken back in a real browser, without a barrier."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.intake.desk_given import stock_the_shelf
from tests.staff.given import a_member

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]


@pytest.mark.parametrize("screen", [PHONE, DESK], ids=["phone", "desk"])
def test_a_table_of_parts_comes_in_and_goes_back(
    signed_in: SignedIn, transactional_db: None, open_page: OpenPage, barrier_free: BarrierFree,
    screen: Any,
) -> None:  # fmt: skip
    stock_the_shelf()
    cookies = signed_in(a_member("percival", "manager"))
    page = open_page(reverse("imports"), cookies=cookies, **screen)
    barrier_free(page)
    for price, words in (("a lot", "1 thing is to be mended"), ("50.00", "1 changed")):
        text = f"code,price\nBR-1000-1250-2,{price}\n"
        table = {"name": "parts.csv", "mimeType": "text/csv", "buffer": text.encode()}
        page.goto(page.url.partition("/catalog/")[0] + reverse("imports"))
        page.get_by_label("The table").set_input_files(table)  # type: ignore[arg-type]
        page.get_by_role("button", name="Look at it").click()
        expect(page.get_by_text(words)).to_be_visible()
        barrier_free(page)
    page.get_by_label("Why").fill("the maker's list")
    page.get_by_role("button", name="Take all of it").click()
    expect(page.get_by_text("0 added, 1 changed, 0 taken out.")).to_be_visible()
    page.get_by_role("button", name="Take it back").click()
    expect(page.get_by_text("every part is as it was")).to_be_visible()
    barrier_free(page)
