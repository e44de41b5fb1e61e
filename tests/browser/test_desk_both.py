"""Two clerks in one call: what one types arrives at the other; one box, two texts, one choice."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from intake.models import DeskDraft
from tests.browser.conftest import DESK, OpenPage
from tests.browser.test_desk import chord, focused, kept
from tests.intake.desk_given import a_person, stock_the_shelf

Pair = tuple[Page, Page]
BarrierFree = Callable[[Page], None]


def cookies_of(person: User, home: str) -> list[dict[str, str]]:
    """A session of its own, beside those of others."""
    client = Client()
    client.force_login(person, backend="django.contrib.auth.backends.ModelBackend")
    return [{"name": "sessionid", "value": client.cookies["sessionid"].value, "url": home}]


@pytest.fixture
def pair(open_page: OpenPage, live_server: LiveServer, transactional_db: None) -> Pair:
    """The same call open at maud's and at iolo's screen, its gap said."""
    stock_the_shelf()
    maud, iolo = a_person("counter", "maud"), a_person("counter", "iolo")
    hers = open_page("/desk/", cookies=cookies_of(maud, live_server.url), **DESK)
    chord(hers, "ga", "3/4")
    kept(hers)
    hers.wait_for_url("**/desk/call/*/")
    his = open_page(hers.url, cookies=cookies_of(iolo, live_server.url), **DESK)
    return hers, his


def gap(page: Page) -> Any:
    return page.locator("[name='answers.gap_now.text']")


def typed(text: str) -> None:
    """What the desk has of the gap."""
    assert DeskDraft.objects.get().boxes["answers.gap_now.text"]["text"] == text


def a_difference(pair: Pair) -> Any:
    """maud says 7/8 first, iolo says 1 without having seen it; his page shows both."""
    hers, his = pair
    chord(hers, "ga", "7/8")
    kept(hers)
    chord(his, "ga", "1")
    shown = his.locator(".call-conflict")
    expect(shown).to_be_visible()
    return shown


def test_what_the_other_types_arrives_and_is_marked(pair: Pair) -> None:
    hers, his = pair
    chord(hers, "hu", "2 15/16")
    kept(hers)
    chord(his, "na", "Odile Marsh")
    expect(his.locator("[name='answers.hub_length.text']")).to_have_value("2 15/16")
    expect(his.locator(".call-elsewhere")).to_contain_text("changed elsewhere")
    assert focused(his) == "contact.name", "nobody is pulled out of their box"
    expect(his.locator("#call-here")).to_contain_text("maud")


def test_it_arrives_also_where_nobody_types(pair: Pair) -> None:
    hers, his = pair
    chord(hers, "hu", "2 15/16")
    kept(hers)
    expect(his.locator("[name='answers.hub_length.text']")).to_have_value("2 15/16", timeout=9_000)


def test_two_texts_for_one_box_stand_under_it(pair: Pair, barrier_free: BarrierFree) -> None:
    shown = a_difference(pair)
    expect(shown).to_contain_text("maud typed 7/8 at")
    expect(shown).to_contain_text("you typed 1")
    assert shown.get_attribute("role") == "alert"
    typed("7/8")
    barrier_free(pair[1])


def test_theirs_is_kept_by_keyboard(pair: Pair) -> None:
    his, shown = pair[1], a_difference(pair)
    his.keyboard.press("Tab")
    his.keyboard.press("Tab")
    his.keyboard.press("Tab")
    expect(shown.get_by_role("button", name="Keep theirs")).to_be_focused()
    his.keyboard.press("Enter")
    expect(gap(his)).to_have_value("7/8")
    expect(shown).to_have_count(0)
    kept(his)
    typed("7/8")


def test_mine_is_put_in_their_place(pair: Pair) -> None:
    (hers, his), shown = pair, a_difference(pair)
    his.keyboard.press("Control+Enter")
    expect(shown.get_by_role("button", name="Keep theirs")).to_be_focused()
    assert "/desk/call/" in his.url, "nothing is saved over a difference"
    his.keyboard.press("Tab")
    his.keyboard.press("Enter")
    expect(shown).to_have_count(0)
    kept(his)
    typed("1")
    chord(hers, "na", "Odile Marsh")
    expect(gap(hers)).to_have_value("1")


def test_a_call_saved_elsewhere_says_so_and_keeps_what_is_typed(pair: Pair) -> None:
    hers, his = pair
    hers.keyboard.press("Control+Enter")
    hers.wait_for_url("**/desk/FG-*/")
    chord(his, "ga", "1")
    told = his.locator("#call-trouble")
    expect(told).to_contain_text("saved meanwhile")
    expect(told.get_by_role("link")).to_be_visible()
    expect(gap(his)).to_have_value("1")


def test_calls_that_are_not_finished_are_listed_to_go_on_with(pair: Pair) -> None:
    hers, his = pair
    chord(hers, "bo", "Thimble")
    kept(hers)
    his.goto("/desk/")
    his.locator(".call-open summary").click()
    his.get_by_role("link", name="Thimble").click()
    expect(gap(his)).to_have_value("3/4")


def test_what_is_typed_after_it_was_saved_becomes_its_correction(pair: Pair) -> None:
    hers, his = pair
    hers.keyboard.press("Control+Enter")
    hers.wait_for_url("**/desk/FG-*/")
    chord(his, "na", "Odile Marsh")
    expect(his.locator("#call-trouble")).to_contain_text("becomes a correction")
    his.keyboard.press("Control+Enter")
    expect(his.get_by_role("heading", level=1)).to_contain_text("The call about FG-")
    assert his.input_value("[name='contact.name']") == "Odile Marsh"
    his.keyboard.press("Control+Enter")
    his.wait_for_url("**/desk/FG-*/")
    expect(his.locator("main")).to_contain_text("Odile Marsh")
