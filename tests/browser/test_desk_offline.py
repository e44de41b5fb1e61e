"""No connection, a login that ran out, a closed laptop: nothing typed is lost, and it is said."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.contrib.sessions.models import Session
from playwright.sync_api import Page, expect

from intake.models import DeskDraft
from tests.browser.conftest import DESK, OpenPage
from tests.browser.test_desk import chord, kept
from tests.intake.desk_given import a_person, stock_the_shelf

SignedIn = Callable[[Any], list[dict[str, str]]]


@pytest.fixture
def desk(open_page: OpenPage, signed_in: SignedIn, transactional_db: None) -> Page:
    """A call of which the gap is kept."""
    stock_the_shelf()
    page = open_page("/desk/", cookies=signed_in(a_person("counter", "maud")), **DESK)
    chord(page, "ga", "3/4")
    kept(page)
    return page


def in_browser(page: Page) -> Any:
    """The boxes this browser keeps for the desk."""
    return page.evaluate(
        "Object.entries(localStorage).filter(([k]) => k.startsWith('fairgap-call-'))"
        ".map(([, text]) => JSON.parse(text).boxes)"
    )


def at_desk(name: str) -> str:
    """What the desk has of a box."""
    box = DeskDraft.objects.get().boxes.get(name)
    return str(box["text"]) if box else ""


def test_without_a_connection_everything_stays_and_goes_out_later(desk: Page) -> None:
    told = desk.locator("#call-trouble")
    desk.context.set_offline(True)
    chord(desk, "hu", "2 15/16")
    expect(told).to_contain_text("No connection to the desk")
    expect(desk.locator("#call-kept")).to_have_text("not kept")
    assert in_browser(desk) == [{"answers.hub_length.text": "2 15/16"}]
    desk.keyboard.press("Control+Enter")
    expect(told).to_contain_text("Everything typed stands here")
    assert "/desk/call/" in desk.url
    desk.context.set_offline(False)
    expect(told).to_be_empty()
    kept(desk)
    assert in_browser(desk) == []
    assert at_desk("answers.hub_length.text") == "2 15/16"


@pytest.fixture
def closed_too_early(desk: Page, signed_in: SignedIn) -> Page:
    """The login ran out, a length was typed, the laptop was closed; now it is open again."""
    maud = User.objects.get(username="maud")
    Session.objects.all().delete()
    chord(desk, "hu", "2 15/16")
    expect(desk.locator("#call-trouble")).to_contain_text("You are logged out")
    address = desk.url
    # A page that goes away sends once more what is owed: without a connection it cannot
    # overtake the new login.
    desk.context.set_offline(True)
    desk.goto("about:blank")
    desk.context.set_offline(False)
    desk.context.add_cookies(signed_in(maud))  # type: ignore[arg-type]
    desk.goto(address)
    return desk


def test_a_closed_laptop_offers_what_the_desk_has_not_got(closed_too_early: Page) -> None:
    page = closed_too_early
    offered = page.locator("[data-left-over]")
    expect(offered).to_contain_text("Propeller hub: 2 15/16")
    expect(page.locator("[name='answers.hub_length.text']")).to_have_value("")
    offered.get_by_role("button", name="Put them in").press("Enter")
    expect(page.locator("[name='answers.hub_length.text']")).to_have_value("2 15/16")
    kept(page)
    assert at_desk("answers.hub_length.text") == "2 15/16"
    page.reload()
    expect(page.locator("[data-left-over]")).to_have_count(0)


def test_what_is_thrown_away_is_offered_no_more(closed_too_early: Page) -> None:
    page = closed_too_early
    page.get_by_role("button", name="Throw them away").press("Enter")
    assert in_browser(page) == []
    assert at_desk("answers.hub_length.text") == ""


def test_a_login_that_ran_out_is_made_good_in_another_tab(desk: Page) -> None:
    Session.objects.all().delete()
    chord(desk, "hu", "2 15/16")
    told = desk.locator("#call-trouble")
    expect(told).to_contain_text("You are logged out")
    link = told.get_by_role("link", name="Log in in another tab")
    with desk.context.expect_page() as opened:
        link.press("Enter")
    other = opened.value
    other.fill("[name=username]", "maud")
    other.fill("[name=password]", "a-long-password-here")
    other.keyboard.press("Enter")
    other.wait_for_url("**/desk/call/*/")
    other.close()
    desk.bring_to_front()
    expect(told).to_be_empty(timeout=40_000)
    kept(desk)
    assert at_desk("answers.hub_length.text") == "2 15/16"


def test_a_desk_that_fails_is_asked_again(desk: Page) -> None:
    failing = {"left": 2}

    def answer(route: Any) -> None:
        if failing["left"]:
            failing["left"] -= 1
            route.fulfill(status=503, body="")
        else:
            route.continue_()

    desk.route("**/keep/", answer)
    chord(desk, "hu", "2 15/16")
    expect(desk.locator("#call-trouble")).to_contain_text("does not answer")
    kept(desk)
    expect(desk.locator("#call-trouble")).to_be_empty()
    assert at_desk("answers.hub_length.text") == "2 15/16"


def test_a_locked_desk_is_named(desk: Page) -> None:
    desk.route("**/keep/", lambda route: route.fulfill(status=423, body=""))
    chord(desk, "hu", "2 15/16")
    expect(desk.locator("#call-trouble")).to_contain_text("locked")
    assert in_browser(desk) == [{"answers.hub_length.text": "2 15/16"}]


def test_each_keep_is_acknowledged_with_its_time(desk: Page) -> None:
    told = desk.locator("#call-kept")
    chord(desk, "hu", "2 15/16")
    kept(desk)
    assert str(told.text_content()).split()[1].count(":") == 2
    assert DeskDraft.objects.get().revision >= 2
