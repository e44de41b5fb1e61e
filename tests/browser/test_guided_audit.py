"""Screens that the plain shaft never shows, each audited: coupling, bearing, hand-over, waiting."""

from __future__ import annotations

from collections.abc import Callable
from importlib.resources import files

import pytest
from playwright.sync_api import Page, expect

from catalog.services import load_catalog
from tests.browser.conftest import OpenPage
from tests.browser.guided_given import (
    GUIDED_PHONE,
    finish,
    ready_for_no_signal,
    start_a_boat,
    tick,
    to_review,
    walk,
)

BarrierFree = Callable[[Page], None]


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    load_catalog((files("catalog") / "data" / "demo_catalog.csv").read_text("utf-8"))


def _audited(page: Page, barrier_free: BarrierFree) -> None:
    """From its end, where the bar that stays under the thumb covers nothing."""
    page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
    barrier_free(page)


def test_coupling_and_bearing_have_their_screens(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    page = open_page("/guided/", **GUIDED_PHONE)
    start_a_boat(page)

    def seen(slug: str) -> None:
        if slug == "wants":
            tick(page, "wants", "coupling")
            tick(page, "wants", "bearing")
        _audited(page, barrier_free)

    slugs = list(walk(page, seen=seen))
    assert {"flange_od", "flange_direction", "shell_od", "bearing_length"} <= set(slugs)


def test_a_draft_is_handed_over_on_a_page_for_everybody(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    page = open_page("/guided/", **GUIDED_PHONE)
    start_a_boat(page)
    to_review(page)
    page.get_by_role("button", name="helper").click()
    expect(page.locator("main svg path").first).to_be_attached()
    _audited(page, barrier_free)


def test_what_waits_for_a_signal_is_told_to_everybody(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    page = open_page("/guided/", **GUIDED_PHONE)
    ready_for_no_signal(page)
    start_a_boat(page)
    to_review(page)
    page.context.set_offline(True)
    finish(page)
    expect(page.get_by_text("waiting for signal")).to_be_visible()
    _audited(page, barrier_free)
