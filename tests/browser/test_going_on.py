"""Two clerks and one request, in real browsers: who is here, what was changed meanwhile."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from intake.desk_drafts.boxes import boxes_of
from intake.desk_drafts.going_on.services import take_up
from intake.desk_drafts.merging import Sent
from intake.desk_drafts.services import keep
from intake.models import Submission
from intake.selectors import fresh_sheet
from intake.services import correct_sheet, receive_submission
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.given import a_body
from tests.intake.desk_given import a_person, stock_the_shelf

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
GAP = "answers.gap_now.text"


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


def an_overtaken_call(maud: User) -> tuple[Submission, str]:
    """maud typed a gap onto a sheet; iolo stored another gap and a thread meanwhile."""
    request = receive_submission(body=a_body())
    ident = take_up(submission=request, by=maud).ident
    texts = {GAP: "7/8", "answers.hub_length.text": "3"}
    sent = Sent(texts, changed=frozenset(texts), by="maud", page="a")
    keep(ident=ident, sent=sent, by=maud)
    newer = a_body(gap_now={"text": "1", "method": "drill_shank"}, thread={"text": "3/4-10"})
    iolo = a_person("counter", "iolo")
    correct_sheet(submission=request, sheet_number=1, body=newer, by=iolo, said_by="yard")
    return request, ident


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
@pytest.mark.parametrize("screen", [PHONE, DESK], ids=["phone", "desk"])
def test_the_clerk_says_which_number_is_right(
    open_page: OpenPage,
    signed_in: SignedIn,
    barrier_free: BarrierFree,
    screen: dict[str, Any],
    scripts: bool,
) -> None:
    maud = a_person("counter", "maud")
    request, ident = an_overtaken_call(maud)
    page = open_page(
        f"/desk/call/{ident}/", cookies=signed_in(maud), java_script_enabled=scripts, **screen
    )
    page.locator("[data-save]").first.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("changed meanwhile")
    expect(page.get_by_role("group", name="Gap")).to_contain_text("It was 3/4")
    if scripts:
        barrier_free(page)
    page.get_by_role("group", name="Gap").get_by_label("Mine").check()
    page.get_by_role("button", name="Save on the newer sheet").click()
    expect(page).to_have_url(re.compile(f"/desk/{request.reference}/$"))
    told = boxes_of(fresh_sheet(request).body)
    assert (told[GAP], told["answers.hub_length.text"]) == ("7/8", "3")
    assert told["answers.thread.text"] == "3/4-10"


def cookies_of(person: User, home: str) -> list[dict[str, str]]:
    """A session of its own, beside those of others."""
    client = Client()
    client.force_login(person, backend="django.contrib.auth.backends.ModelBackend")
    return [{"name": "sessionid", "value": client.cookies["sessionid"].value, "url": home}]


def test_a_page_says_who_else_has_it_open(open_page: OpenPage, live_server: LiveServer) -> None:
    maud, bronagh = a_person("counter", "maud"), a_person("machinist", "bronagh")
    request = receive_submission(body=a_body())
    address = f"/desk/{request.reference}/"
    first = open_page(address, cookies=cookies_of(maud, live_server.url), **DESK)
    expect(first.locator("[data-here]")).not_to_contain_text("Also here")
    second = open_page(address, cookies=cookies_of(bronagh, live_server.url), **DESK)
    expect(second.locator("[data-here]")).to_contain_text("Also here: maud")
    first.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    expect(first.locator("[data-here]")).to_contain_text("Also here: bronagh")
