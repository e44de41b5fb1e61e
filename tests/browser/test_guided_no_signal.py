"""The guided path without a signal: nothing is lost, nothing is sent twice."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from importlib.resources import files
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect

from catalog.services import load_catalog
from intake.hand_over.models import HandedDraft
from intake.models import Submission
from tests.browser.conftest import OpenPage
from tests.browser.guided_given import (
    GUIDED_PHONE,
    answer,
    at,
    drafts,
    go_on,
    ready_for_no_signal,
    start_a_boat,
    to_review,
    walk,
)

SUBMISSIONS = "**/api/v1/submissions/"
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
def phone_ready(open_page: OpenPage) -> Iterator[Page]:
    """A phone that has visited once and holds all it needs."""
    page = open_page("/guided/", **GUIDED_PHONE)
    expect(page.get_by_role("button", name="Measure a boat")).to_be_visible()
    ready_for_no_signal(page)
    return page


def _finish(page: Page) -> None:
    page.locator(".moving button.button:not(.quiet)").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Your boats on this phone")


def _state(page: Page, words: str) -> None:
    expect(page.locator(".boats .state")).to_contain_text(words, timeout=20_000)


def test_the_signal_goes_half_way_and_one_submission_arrives(phone_ready: Page) -> None:
    page = phone_ready
    slow = page.context.new_cdp_session(page)
    slow.send("Network.emulateNetworkConditions", {
        "offline": False, "latency": 400, "downloadThroughput": 50_000, "uploadThroughput": 20_000,
    })  # fmt: skip
    page.reload()
    start_a_boat(page)
    list(walk(page, until="gap_now"))
    slow.send("Network.emulateNetworkConditions", {
        "offline": False, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1,
    })  # fmt: skip
    slow.detach()
    page.context.set_offline(True)
    page.fill('[name="answers.gap_now.text"]', "3/")
    page.reload()
    at(page, "gap_now")
    expect(page.locator('[name="answers.gap_now.text"]')).to_have_value("3/")
    to_review(page)
    page.get_by_role("button", name="Finish; it is sent when there is a signal").click()
    _state(page, "waiting for signal")
    page.reload()
    _state(page, "waiting for signal")
    assert Submission.objects.count() == 0
    page.context.set_offline(False)
    _state(page, "sent")
    expect(page.get_by_text("Sent as FG-")).to_be_visible()
    page.reload()
    page.get_by_role("link", name="See what the desk says").wait_for()
    assert Submission.objects.get().boat_name == "Biscuit Barrel"


def test_know_how_is_there_without_a_signal(phone_ready: Page) -> None:
    page = phone_ready
    start_a_boat(page)
    page.context.set_offline(True)
    page.get_by_role("link", name="Read more, with pictures").click()
    page.wait_for_url("**/know/before-you-start/")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    page.goto("/")  # a page that needs the desk: back to the boats, with a word why
    expect(page.get_by_text("That page needs a signal")).to_be_visible()


def test_an_answer_lost_on_the_way_does_not_send_twice(phone_ready: Page) -> None:
    page = phone_ready
    lost = []

    def lose(route: Route) -> None:
        route.fetch()  # it arrives at the desk ...
        lost.append(route.request.headers["idempotency-key"])
        route.abort()  # ... and its answer does not come back

    page.context.route(SUBMISSIONS, lose, times=1)
    start_a_boat(page)
    to_review(page)
    _finish(page)
    _state(page, "sent")  # tried again by itself
    assert len(lost) == 1
    assert Submission.objects.get().idempotency_key == lost[0]


@pytest.mark.parametrize("status", [429, 503])
def test_a_busy_desk_is_tried_again(phone_ready: Page, status: int) -> None:
    page = phone_ready
    page.context.route(
        SUBMISSIONS, lambda r: r.fulfill(status=status, headers={"Retry-After": "3600"}), times=1
    )
    start_a_boat(page)
    to_review(page)
    _finish(page)
    _state(page, "waiting for signal")
    expect(page.get_by_text("We try again at")).to_be_visible()
    page.get_by_role("button", name="Try now").click()
    _state(page, "sent")
    assert Submission.objects.count() == 1


def test_what_the_desk_cannot_read_comes_back_at_its_question(phone_ready: Page) -> None:
    page = phone_ready
    start_a_boat(page)
    list(walk(page, until="hub_length"))
    page.fill('[name="answers.hub_length.text"]', "about so long")
    go_on(page)
    go_on(page)  # who insists goes on
    at(page, "dia_clean")
    list(walk(page))
    _finish(page)
    _state(page, "needs another look")
    page.get_by_role("button", name="Go on").click()
    at(page, "hub_length")
    expect(page.locator(".error").first).to_be_visible()
    assert Submission.objects.count() == 0
    page.fill('[name="answers.hub_length.text"]', "2 15/16")
    to_review(page)
    _finish(page)
    _state(page, "sent")
    assert Submission.objects.count() == 1


def test_another_sheet_under_the_key_brings_the_draft_back(phone_ready: Page) -> None:
    page = phone_ready
    page.context.route(SUBMISSIONS, lambda r: r.fulfill(status=409, json={}), times=1)
    start_a_boat(page)
    to_review(page)
    _finish(page)
    _state(page, "needs another look")
    expect(page.get_by_text("The desk already has a sheet under this number")).to_be_visible()


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
    to_review(page)
    other.goto(page.url)
    expect(other.get_by_role("heading", level=1)).to_have_text("As we understood you")
    kept: dict[str, Any] = drafts(page)[0]["values"]  # type: ignore[assignment]
    assert kept["answers.gap_now.text"] == "3/4"
    assert kept["answers.gap_now.method"] == "drill_shank"
    send = ".moving button.button:not(.quiet)"
    page.evaluate(f"document.querySelector('{send}').click()")
    other.evaluate(f"document.querySelector('{send}')?.click()")
    _state(page, "sent")
    _state(other, "sent")
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
    _finish(helper)
    _state(helper, "sent")
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
    _finish(page)
    expect(page.locator(".boats")).to_contain_text("1 photo")
    page.context.set_offline(False)
    _state(page, "sent")
    expect(page.locator(".boats")).to_contain_text("photos sent", timeout=20_000)
    assert Submission.objects.get().photos.count() == 1
