"""Search, lists, the day and one request's page in a real browser, on a phone and at the desk."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Page, expect

from intake.models import Submission
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.intake.desk_given import a_person, stock_the_shelf
from tests.intake.finding.given import a_request, indexed, measured
from tests.quotes.given import a_quote

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
SCREENS = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["360", "1280"])


@pytest.fixture
def fleet(transactional_db: None) -> list[Submission]:
    """Three requests: one to call about, one late, one that is quoted."""
    stock_the_shelf()
    odile, phone = "Odile Marsh", "+1 202 555 0177"
    quoted = a_quote().submission
    held = a_request("Slow Tide", odile, phone, face_to_strut_aft=measured("45 1/8", "rod"))
    late = a_request("Kettle Drum", odile, phone, face_to_strut_aft=measured("45 1/8", "rod"))
    Submission.objects.filter(pk=late.pk).update(
        call_by=timezone.now() - timedelta(hours=2), needed_by=timezone.localdate()
    )
    return list(indexed(held, late, quoted))


@SCREENS
def test_the_pages_are_barrier_free(
    open_page: OpenPage,
    signed_in: SignedIn,
    barrier_free: BarrierFree,
    fleet: list[Submission],
    screen: Any,
) -> None:
    page = open_page(reverse("requests"), cookies=signed_in(a_person()), **screen)
    barrier_free(page)
    page.goto(f"{reverse('requests')}?q=zzzz")
    barrier_free(page)
    page.goto(reverse("today"))
    expect(page.get_by_role("heading", name="Waiting for an answer")).to_be_visible()
    barrier_free(page)
    page.goto(f"{reverse('submission', args=[fleet[0].reference])}?list=")
    barrier_free(page)


@SCREENS
def test_a_reading_is_looked_for_and_its_request_opened(
    open_page: OpenPage, signed_in: SignedIn, fleet: list[Submission], screen: Any
) -> None:
    page = open_page(reverse("requests"), cookies=signed_in(a_person()), **screen)
    page.get_by_label("Look for", exact=True).fill("45.125 odile")
    page.keyboard.press("Enter")
    links = page.get_by_role("row").get_by_role("link")
    expect(links).to_have_count(2)
    links.first.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Kettle Drum")
    expect(page.get_by_text("Late: this call was to be made")).to_be_visible()


def test_the_keyboard_turns_the_list_one_came_from(
    open_page: OpenPage, signed_in: SignedIn, fleet: list[Submission]
) -> None:
    page = open_page(f"{reverse('requests')}?sort=boat", cookies=signed_in(a_person()), **DESK)
    page.get_by_role("link", name=re.compile("Kettle Drum")).click()
    page.wait_for_url("**/desk/FG-*/**")  # with its scripts: a key pressed sooner is nobody's
    page.keyboard.press("Alt+PageDown")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Slow Tide")
    expect(page.get_by_role("link", name=re.compile("^Next"))).to_have_count(0)
    page.keyboard.press("Alt+PageUp")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Kettle Drum")
    page.keyboard.press("Alt+PageUp")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Biscuit Barrel")
    page.get_by_role("link", name="The list").click()
    expect(page.get_by_label("In order of")).to_have_value("boat")


def test_on_paper_there_is_no_menu_and_everything_is_black_on_white(
    open_page: OpenPage, signed_in: SignedIn, fleet: list[Submission]
) -> None:
    cookies = signed_in(a_person())
    for path in ("requests", "today"):
        page = open_page(reverse(path), cookies=cookies, color_scheme="dark", **DESK)
        page.emulate_media(media="print")
        expect(page.locator(".nav")).to_be_hidden()
        colours = page.evaluate(
            "(s => [s.color, s.backgroundColor])(getComputedStyle(document.body))"
        )
        assert colours == ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]
    page.goto(reverse("submission", args=[fleet[0].reference]))
    expect(page.get_by_role("button", name="Open on the call page")).to_be_hidden()
    expect(page.get_by_role("heading", name="History")).to_be_visible()
