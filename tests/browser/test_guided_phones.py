"""Several boats, windows and phones: each keeps what is its own, and one sheet is sent once."""

from __future__ import annotations

import base64
from importlib.resources import files
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from catalog.services import load_catalog
from intake.hand_over.models import HandedDraft
from intake.models import Submission
from tests.browser.conftest import OpenPage
from tests.browser.guided_given import (
    GUIDED_PHONE,
    answer,
    at,
    drafts,
    finish,
    go_on,
    ready_for_no_signal,
    start_a_boat,
    state_is,
    to_review,
    walk,
)

# A picture of 40 x 30 pixels.
PNG = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAACgAAAAeCAIAAADRv8uKAAAALklEQVR42u3NMQEAMAgAIF0Qg5nE+Ivg"
    "6QMFyOmKCy+OiMVisVgsFovFYrF49wECDQEs+JO+8wAAAABJRU5ErkJggg=="
)


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    load_catalog((files("catalog") / "data" / "demo_catalog.csv").read_text("utf-8"))


@pytest.fixture
def phone_ready(open_page: OpenPage) -> Page:
    """A phone that has visited once and holds all it needs."""
    page = open_page("/guided/", **GUIDED_PHONE)
    expect(page.get_by_role("button", name="Measure a boat")).to_be_visible()
    ready_for_no_signal(page)
    return page


def test_two_boats_are_kept_renamed_and_deleted(phone_ready: Page) -> None:
    page = phone_ready
    for name in ("Biscuit Barrel", "Second Helping"):
        start_a_boat(page)
        answer(page, "wants")
        go_on(page)
        page.fill('[name="answers.boat_name_and_station.name"]', name)
        go_on(page)
        at(page, "drive_layout")
        page.locator("[data-boats]").click()
    rows = page.locator(".boats > li")
    expect(rows).to_have_count(2)
    first = rows.filter(has_text="Biscuit Barrel")
    first.get_by_role("button", name="Rename").click()
    page.fill("#rename", "Biscuit Tin")
    page.keyboard.press("Enter")
    second = rows.filter(has_text="Second Helping")
    second.get_by_role("button", name="Delete").click()
    expect(second).to_contain_text("It cannot be brought back")
    second.get_by_role("button", name="Delete").click()
    expect(rows).to_have_count(1)
    expect(rows.get_by_role("heading")).to_have_text("Biscuit Tin")
    rows.get_by_role("button", name="Go on").click()
    at(page, "drive_layout")


def test_two_windows_lose_no_text_and_send_once(phone_ready: Page) -> None:
    page = phone_ready
    start_a_boat(page)
    list(walk(page, until="gap_now"))
    other = page.context.new_page()
    other.goto(page.url)
    expect(other.locator("#screen")).to_have_attribute("data-slug", "gap_now")
    page.fill('[name="answers.gap_now.text"]', "3/4")
    expect(other.locator('[name="answers.gap_now.text"]')).to_have_value("3/4")
    other.locator('[value="drill_shank"]').evaluate("box => box.click()")
    expect(page.locator('[value="drill_shank"]')).to_be_checked()
    page.bring_to_front()
    to_review(page)
    other.goto(page.url)
    expect(other.get_by_role("heading", level=1)).to_have_text("As we understood you")
    kept: dict[str, Any] = drafts(page)[0]["values"]  # type: ignore[assignment]
    assert kept["answers.gap_now.text"] == "3/4"
    assert kept["answers.gap_now.method"] == "drill_shank"
    send = ".moving button.button:not(.quiet)"
    page.evaluate(f"document.querySelector('{send}').click()")
    other.evaluate(f"document.querySelector('{send}')?.click()")
    state_is(page, "sent")
    state_is(other, "sent")
    assert Submission.objects.count() == 1


def test_a_helper_takes_over(open_page: OpenPage, phone_ready: Page) -> None:
    page = phone_ready
    start_a_boat(page)
    list(walk(page, until="hub_length"))
    page.locator("[data-boats]").click()
    page.get_by_role("button", name="Give it to my helper's phone").click()
    expect(page.get_by_role("img", name="Square code of the link")).to_be_visible()
    link = page.locator("input[readonly]").input_value()
    helper = open_page(link, **GUIDED_PHONE)
    at(helper, "hub_length")
    assert HandedDraft.objects.count() == 1
    helper.goto("/guided/")
    helper.goto(link)  # opened again, it is the same draft
    at(helper, "hub_length")
    assert len(drafts(helper)) == 1
    to_review(helper)
    finish(helper)
    state_is(helper, "sent")
    assert Submission.objects.get().boat_name == "Biscuit Barrel"


def test_a_link_that_ran_out_says_so(open_page: OpenPage) -> None:
    page = open_page("/guided/#h=nobody-knows-this-one", **GUIDED_PHONE)
    expect(page.get_by_text("That link is no longer good")).to_be_visible()


def test_a_photo_waits_with_the_draft_and_follows_it(phone_ready: Page) -> None:
    page = phone_ready
    page.context.set_offline(True)
    start_a_boat(page)
    list(walk(page, until="drive_layout"))
    page.set_input_files("[type=file]", {"name": "a.png", "mimeType": "image/png", "buffer": PNG})
    expect(page.get_by_role("img", name="1 photo")).to_be_visible()
    to_review(page)
    finish(page)
    expect(page.locator(".boats")).to_contain_text("1 photo")
    page.context.set_offline(False)
    state_is(page, "sent")
    expect(page.locator(".boats")).to_contain_text("photos sent", timeout=20_000)
    assert Submission.objects.get().photos.count() == 1
