"""A period judged again, from the form to the result, in a real browser at both widths."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from intake import jobs
from intake.services import receive_submission
from quotes.replay.handlers import crew
from quotes.replay.models import Replay
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.given import a_body
from tests.intake.desk_given import a_person, stock_the_shelf
from tests.quotes.replay.given import done

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
SCREENS = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["360", "1280"])


@pytest.fixture(autouse=True)
def _requests(transactional_db: None, settings: Any) -> Iterator[None]:
    """Three requests of three people, judged in this process."""
    settings.REPLAY_PROCESSES = 0
    crew.cache_clear()
    stock_the_shelf()
    for number in range(3):
        contact = {"phone": f"+1 202 555 01{number:02}", "role": "owner"}
        receive_submission(body=a_body(top={"contact": contact}))
    yield
    crew.cache_clear()


@SCREENS
def test_a_manager_judges_a_period_again(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, screen: Any
) -> None:
    page = open_page(reverse("replays"), cookies=signed_in(a_person("manager")), **screen)
    barrier_free(page)
    page.get_by_role("link", name="Judge a period again").click()
    page.get_by_label("Find a limit, a check or a question by its words").fill("log hose")
    page.get_by_role("button", name="Find").click()
    page.get_by_label("What is the inside diameter of the shaft log or hose?").select_option("yes")
    page.get_by_label("Find a limit, a check or a question by its words").fill("old shaft asked")
    page.get_by_role("button", name="Find").click()
    box = page.get_by_label("boat against old shaft: asked beyond (inch shafts)")
    box.fill("7/16")
    page.get_by_role("button", name="Judge the period again").click()
    summary = page.get_by_role("alert")
    expect(summary).to_be_focused()
    expect(summary).to_contain_text("unit")
    barrier_free(page)
    box.fill("7/16 in")
    page.get_by_role("button", name="Judge the period again").click()
    expect(page.get_by_role("heading", name="How far it is")).to_be_visible()
    barrier_free(page)
    jobs.drain()
    expect(page.get_by_text("0 of 3 sheets, 0 %")).to_be_visible()
    done(Replay.objects.get())
    expect(page.get_by_role("heading", name="What would come of it")).to_be_visible()
    expect(page.get_by_text("Comes (ask): A question that the desk").first).to_be_visible()
    barrier_free(page)
    page.get_by_label("Why").fill("It pays.")
    page.get_by_role("button", name="Judge by these from now on").click()
    expect(page.get_by_text("From now on every sheet is judged by")).to_be_visible()
