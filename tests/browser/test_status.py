"""The customer's own page and the counter's quote, in a real browser."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from intake import jobs
from quotes.models import Quote
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.intake.desk_given import a_call
from tests.quotes.given import (
    a_metric_submission,
    a_quote,
    a_quoter,
    a_submission,
    stock_the_shelf,
)

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
SCREENS = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["360", "1280"])


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


def fits(page: Page, screen: Any) -> None:
    """As wide as the screen: a phone zooms out of a wider page, so its own width tells nothing."""
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= screen["viewport"]["width"], f"{wide} px"


@SCREENS
@pytest.mark.parametrize("state", ["asked", "ready", "quoted", "draft"])
def test_the_page_is_barrier_free(
    open_page: OpenPage, barrier_free: BarrierFree, screen: Any, state: str
) -> None:
    if state == "asked":
        submission = a_submission(face_to_strut_aft={"text": "45 1/8", "method": "rod"})
    elif state == "ready":
        submission = a_submission()
    elif state == "quoted":
        submission = a_quote().submission
    else:
        submission = a_metric_submission()
        jobs.drain()
    page = open_page(reverse("status", args=[submission.token]), **screen)
    barrier_free(page)
    fits(page, screen)


def test_a_quote_is_read_and_accepted_on_a_phone(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    quote = a_quote()
    page = open_page(reverse("status", args=[quote.submission.token]), **PHONE)
    with page.expect_download() as download:
        page.get_by_role("link", name="Download the quote").click()
    assert download.value.suggested_filename == f"quote-{quote.number}-v1.pdf"

    page.get_by_label("Lengths start at the machined face").check()
    page.get_by_role("button", name="Accept version 1").click()
    summary = page.get_by_role("alert")
    expect(summary).to_be_focused()
    expect(summary).to_contain_text("Please give the name")
    expect(page.get_by_label("Lengths start at the machined face")).to_be_checked()
    barrier_free(page)

    for box in page.get_by_role("checkbox").all():
        box.check()
    page.get_by_label("Your name, or a code word").fill("Wilmot Tarpley")
    page.get_by_role("button", name="Accept version 1").dblclick()
    expect(page.get_by_text("Accepted by Wilmot Tarpley")).to_be_visible()
    page.goto(page.url)
    barrier_free(page)
    assert Quote.objects.get().status == "accepted"


def test_a_quote_is_declined_on_a_phone(open_page: OpenPage, barrier_free: BarrierFree) -> None:
    quote = a_quote()
    page = open_page(reverse("status", args=[quote.submission.token]), **PHONE)
    page.get_by_text("No, thank you").click()
    page.get_by_role("button", name="Decline the quote").click()
    expect(page.get_by_text("One word is enough")).to_be_visible()
    barrier_free(page)
    page.get_by_label("What decided it?").fill("price")
    page.get_by_role("button", name="Decline the quote").click()
    expect(page.get_by_text("Declined on")).to_be_visible()


@SCREENS
def test_staff_type_the_price_that_is_missing(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, screen: Any
) -> None:
    submission = a_metric_submission()
    jobs.drain()
    address = reverse("desk-issue", args=[submission.reference])
    page = open_page(address, cookies=signed_in(a_quoter()), **screen)
    barrier_free(page)
    fits(page, screen)
    page.get_by_label("Keys, two").fill("dear")
    page.get_by_role("button", name="Issue the quote").click()
    expect(page.get_by_role("alert")).to_contain_text("a price like 12.50")
    barrier_free(page)
    page.get_by_label("Keys, two").fill("11.50")
    page.get_by_role("button", name="Issue the quote").click()
    expect(page.get_by_text("is issued.")).to_be_visible()
    page.goto(page.url)
    barrier_free(page)


def test_the_price_runs_along_as_a_call_is_typed(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree
) -> None:
    page = open_page(reverse("desk"), cookies=signed_in(a_quoter()), **DESK)
    for name, text in a_call().items():
        box = page.locator(f'[name="{name}"]').first
        if name == "wants" or not box.count():
            continue
        if not box.is_visible():
            page.locator("details:not([open]) > summary").first.click()
        if box.evaluate("box => box.tagName") == "SELECT":
            box.select_option(str(text))
        else:
            box.fill(str(text))
    expect(page.locator("#desk-price")).to_contain_text("697.07")
    barrier_free(page)
