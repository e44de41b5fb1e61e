"""Checks, limits and the second reading in a real browser, at both widths, in light and dark."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from intake.limit_sets import selectors
from intake.models import SheetVersion
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.intake.desk_given import a_person, stock_the_shelf
from tests.quotes.given import a_quoter, a_submission

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
SCREENS = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["360", "1280"])


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


@SCREENS
@pytest.mark.parametrize("name", ["checks", "limits"])
def test_the_rules_are_barrier_free(
    open_page: OpenPage,
    signed_in: SignedIn,
    barrier_free: BarrierFree,
    screen: Any,
    name: str,
) -> None:
    cookies = signed_in(a_person("manager"))
    page = open_page(reverse(name), cookies=cookies, **screen)
    if name == "limits":
        page.get_by_text("Each cause: the starting guess").click()
    barrier_free(page)


def test_a_manager_changes_a_limit(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree
) -> None:
    page = open_page(reverse("limits"), cookies=signed_in(a_person("manager")), **PHONE)
    box = page.get_by_label("boat against old shaft: asked beyond (inch shafts)")
    box.fill("7/16")
    page.get_by_label("Name of the new set").fill("2026.2")
    page.get_by_label("Why").fill("The season showed it.")
    page.get_by_role("button", name="Judge by these from now on").click()
    summary = page.get_by_role("alert")
    expect(summary).to_be_focused()
    expect(summary).to_contain_text("unit")
    barrier_free(page)
    expect(box).to_have_value("7/16")
    box.fill("7/16 in")
    page.get_by_role("button", name="Judge by these from now on").click()
    expect(page.get_by_text("From now on every sheet is judged by")).to_be_visible()
    assert selectors.current_limits().name == "2026.2"


def test_a_finding_leads_to_its_check(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree
) -> None:
    asked = a_submission(face_to_strut_aft={"text": "43 5/8", "method": "rod"})
    address = reverse("submission", args=[asked.reference])
    page = open_page(address, cookies=signed_in(a_person()), **PHONE)
    expect(page.locator(".likely").first).to_contain_text("Most likely: measured from")
    barrier_free(page)
    page.get_by_role("link", name="About this check").first.click()
    expect(page.locator("#route-boat-vs-old")).to_be_in_viewport()


@SCREENS
def test_a_second_reading_is_taken_on_the_spot(
    open_page: OpenPage, barrier_free: BarrierFree, screen: Any
) -> None:
    asked = a_submission(without=("old_length_face_to_thread", "tail_to_thread", "gap_now"))
    address = reverse("status", args=[asked.token])
    page = open_page(address, **screen)
    expect(page.locator("main")).not_to_contain_text("44 1/8")
    barrier_free(page)
    page.get_by_role("button", name="Send the second reading").click()
    expect(page.get_by_role("alert")).to_be_focused()
    barrier_free(page)
    page.get_by_label("Mark held at the start").fill("10")
    page.get_by_label("Number read").fill("54 1/8")
    page.get_by_role("button", name="Send the second reading").dblclick()
    expect(page.get_by_text("The two readings agree")).to_be_visible()
    barrier_free(page)
    assert SheetVersion.objects.count() == 2


@SCREENS
def test_a_shaft_through_the_gearbox_opens_its_questions(
    open_page: OpenPage, barrier_free: BarrierFree, screen: Any
) -> None:
    page = open_page("/", **screen)
    part = page.locator("#part-through")
    reach = page.get_by_label("showing, tip included")
    expect(reach).to_be_hidden()
    page.get_by_label("V-drive, the shaft passes right through it").check()
    expect(reach).to_be_visible()
    expect(part.locator('input[name="shown"]')).to_be_enabled()
    page.get_by_text("More, if you know it").click()
    barrier_free(page)
    page.get_by_label("straight back from the engine").check()
    expect(reach).to_be_hidden()
    page.get_by_label("V-drive, the shaft passes right through it").check()
    reach.fill("4 1/4")
    page.get_by_label("straight back from the engine").check()
    expect(reach).to_be_visible()


# The hub out of its range, no wall left in the bearing, no such bearing, a hub for a flange.
FOUR_WRONG = {
    "dia_clean": "1 caliper",
    "hub_length": "9",
    "shell_od": "1",
    "bearing_length": "2",
    "flange_od": "2",
}


def test_what_was_unfolded_stays_so_while_a_call_is_typed(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree
) -> None:
    stock_the_shelf()
    page = open_page(reverse("desk"), cookies=signed_in(a_quoter()), **DESK)
    for slug, text in FOUR_WRONG.items():
        page.locator(f'[name="answers.{slug}.text"]').fill(text)
    more = page.locator(".more-findings")
    expect(more).to_be_visible()
    expect(page.locator("#desk-panel > .finding")).to_have_count(3)
    more.locator("summary").click()
    expect(more.locator(".finding").first).to_be_visible()
    page.locator('[name="answers.gap_now.text"]').fill("3/4")
    expect(page.locator("#f-answers-gap_now-read")).to_contain_text("19.1 mm")
    expect(more.locator(".finding").first).to_be_visible()
    barrier_free(page)
