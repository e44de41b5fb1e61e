"""A full call by keyboard alone, from an unknown customer to the quote that goes out."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from intake.models import Submission
from intake.selectors import current_sheet
from quotes.models import Quote
from tests.browser.conftest import DESK, OpenPage
from tests.browser.one_call import check_or_write, perform, report
from tests.intake.desk_given import stock_the_shelf
from tests.quotes.given import a_quoter

SignedIn = Callable[[Any], list[dict[str, str]]]
MOST_FOR_EACH, MOST_LOADS = 1.3, 2


@pytest.fixture
def loads() -> list[str]:
    """Addresses of whole pages that were loaded, in order."""
    return []


@pytest.fixture
def desk(
    open_page: OpenPage, signed_in: SignedIn, loads: list[str], transactional_db: None
) -> Page:
    """The call page on the counter's screen, with its loads counted from here on."""
    stock_the_shelf()
    page = open_page("/desk/", cookies=signed_in(a_quoter()), **DESK)
    loads.append(page.url)
    page.on("load", lambda loaded: loads.append(loaded.url))
    return page


def test_a_call_becomes_a_quote_before_it_ends(
    desk: Page, loads: list[str], job_thread: None
) -> None:
    counted = perform(desk)
    desk.wait_for_url("**/desk/FG-*/")
    expect(desk.locator(".quote-state")).to_contain_text("is issued", timeout=20_000)
    expect(desk.locator(".quote-state")).to_contain_text("Mailed to odile.marsh@example.org")
    sheet = current_sheet(Submission.objects.get())
    assert sheet.body["answers"]["face_to_strut_aft"] == {"text": "44 1/8", "method": "rod"}
    assert len(sheet.body["answers"]) == 13
    assert Quote.objects.get().status == "issued"
    assert counted.presses / counted.needed <= MOST_FOR_EACH
    assert len(loads) <= MOST_LOADS
    check_or_write(report(counted, len(loads)))
