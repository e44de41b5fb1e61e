"""The manager's pages in a real browser: no barrier, at both widths, with a season's shapes."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from quotes.insight.pages.all_of_them import QUESTIONS
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.quotes.insight.given import a_fact, a_flag, a_mistake, a_shipped, counted
from tests.staff.given import a_member

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
each_screen = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["phone", "desk"])
SPAN = "?from=2026-01&to=2026-06"


@pytest.fixture
def cookies(signed_in: SignedIn, transactional_db: None) -> list[dict[str, str]]:
    for month in ("2026-02", "2026-03", "2026-04"):
        first = a_fact(month=month, answered=["gap_now"], flags=1, first_verdict="ask",
                       caught="call", machine_seconds=4, desk_seconds=3600, customer_seconds=90,
                       lacking=["bearing: shell 1 5/8 in"])  # fmt: skip
        a_flag(first, "gap-to-blade", was_right=True, answer="gap_now")
        on = date.fromisoformat(f"{month}-11")
        a_mistake(first, "D-CBACK", on, answer="gap_now", cost=Decimal("12.00"), again="q")
        for at in range(8):
            a_shipped(at > 0, month=month, z=at / 4 - 1, stated_fit=0.99)
        a_shipped(False, month=month, stated_fit=0.9, over=["known boat"])
    counted("2026-02", "2026-03", "2026-04")
    return signed_in(a_member("percival", "manager"))


@each_screen
def test_every_question_is_answered_without_a_barrier(
    cookies: list[dict[str, str]], open_page: OpenPage, barrier_free: BarrierFree, screen: Any
) -> None:
    page = open_page(reverse("insight-overview") + SPAN, cookies=cookies, **screen)
    expect(page.get_by_role("heading", name="Do they fit first time?")).to_be_visible()
    barrier_free(page)
    for one in QUESTIONS:
        page.goto(page.url.partition("/insights/")[0] + reverse(one.url_name) + SPAN)
        expect(page.get_by_role("heading", level=1)).to_have_text(one.question)
        assert page.locator("figure svg[role=img]").count() >= 1
        barrier_free(page)


@each_screen
def test_a_number_leads_to_its_requests_and_a_filter_is_kept(
    cookies: list[dict[str, str]], open_page: OpenPage, barrier_free: BarrierFree, screen: Any
) -> None:
    page = open_page(reverse("insight-cost") + SPAN, cookies=cookies, **screen)
    page.get_by_text("look at other months").click()
    page.get_by_label("Measured by").select_option("rod")
    page.get_by_role("button", name="Show").click()
    expect(page.get_by_text("measured by rod")).to_be_visible()
    page.get_by_role("link", name="(D-CBACK)").first.click()
    expect(page.get_by_role("heading", name="Requests behind a number")).to_be_visible()
    expect(page.get_by_text("measured by rod")).to_be_visible()
    expect(page.locator("tbody tr")).to_have_count(3)
    barrier_free(page)
