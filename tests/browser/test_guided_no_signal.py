"""The guided path without a signal: nothing is lost, nothing is sent twice."""

from __future__ import annotations

from importlib.resources import files

import pytest
from playwright.sync_api import Page, Route, expect

from catalog.services import load_catalog
from intake.models import Submission
from tests.browser.conftest import OpenPage
from tests.browser.guided_given import (
    GUIDED_PHONE,
    at,
    finish,
    go_on,
    kept_on_the_phone,
    ready_for_no_signal,
    start_a_boat,
    state_is,
    to_review,
    walk,
)

SUBMISSIONS = "**/api/v1/submissions/"


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
    kept_on_the_phone(page, "3/")
    page.reload()
    at(page, "gap_now")
    expect(page.locator('[name="answers.gap_now.text"]')).to_have_value("3/")
    to_review(page)
    page.get_by_role("button", name="Finish; it is sent when there is a signal").click()
    state_is(page, "waiting for signal")
    page.reload()
    state_is(page, "waiting for signal")
    assert Submission.objects.count() == 0
    page.context.set_offline(False)
    state_is(page, "sent")
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
    finish(page)
    state_is(page, "sent")  # tried again by itself
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
    finish(page)
    state_is(page, "waiting for signal")
    expect(page.get_by_text("We try again at")).to_be_visible()
    page.get_by_role("button", name="Try now").click()
    state_is(page, "sent")
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
    finish(page)
    state_is(page, "needs another look")
    page.get_by_role("button", name="Go on").click()
    at(page, "hub_length")
    expect(page.locator(".error").first).to_be_visible()
    assert Submission.objects.count() == 0
    page.fill('[name="answers.hub_length.text"]', "2 15/16")
    to_review(page)
    finish(page)
    state_is(page, "sent")
    assert Submission.objects.count() == 1


def test_another_sheet_under_the_key_brings_the_draft_back(phone_ready: Page) -> None:
    page = phone_ready
    page.context.route(SUBMISSIONS, lambda r: r.fulfill(status=409, json={}), times=1)
    start_a_boat(page)
    to_review(page)
    finish(page)
    state_is(page, "needs another look")
    expect(page.get_by_text("The desk already has a sheet under this number")).to_be_visible()
