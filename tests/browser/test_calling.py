"""Call-backs in a real browser: claimed, asked blind, written down, by keyboard, on every width."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.utils import timezone
from playwright.sync_api import Page, expect

from intake import selectors
from intake.calling.services import claim
from intake.models import BlindReading, CallRecord, Submission
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.intake.calling.given import ROUTES, a_waiting, card_of
from tests.intake.desk_given import a_person, stock_the_shelf

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
BOX = "[name='answers.face_to_strut_aft.text']"


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


@pytest.fixture
def waiting(parts_on_the_shelf: None) -> Submission:
    """A boat whose routes are an inch apart."""
    return a_waiting()


@pytest.fixture
def desk(open_page: OpenPage, signed_in: SignedIn, waiting: Submission) -> Page:
    """The queue on maud's screen."""
    return open_page("/desk/calls/", cookies=signed_in(a_person("counter", "maud")), **DESK)


def press_until(page: Page, key: str, wanted: str) -> None:
    """Press a key until this is in focus; the mouse is never touched."""
    for _press in range(60):
        if page.evaluate("selector => document.activeElement.matches(selector)", wanted):
            return
        page.keyboard.press(key)
    raise AssertionError(f"{wanted} is not reached by {key}")


def test_from_the_queue_to_a_release_by_keyboard_alone(
    desk: Page, waiting: Submission, barrier_free: BarrierFree
) -> None:
    press_until(desk, "Tab", ".queue-row button")
    desk.keyboard.press("Enter")
    desk.wait_for_url("**/call/?check=*")
    expect(desk.locator("#claim")).to_contain_text("You have this call until")
    barrier_free(desk)
    press_until(desk, "Enter", BOX)
    desk.keyboard.type("44 1/8")
    press_until(desk, "Enter", ".card-compare")
    desk.keyboard.press("Enter")
    expect(desk.locator("#blind-face_to_strut_aft")).to_contain_text("45 1/8 then, 44 1/8 now")
    expect(desk.locator("#blind-face_to_strut_aft")).to_contain_text("1 in less")
    barrier_free(desk)
    press_until(desk, "Tab", "[name=outcome]")
    desk.keyboard.press("Space")
    press_until(desk, "Enter", "[name=said_by]")
    desk.keyboard.type("Odile Marsh")
    desk.keyboard.press("Enter")
    press_until(desk, "Tab", "[name=cause]")
    desk.keyboard.type("started on the 1 mark, boat")
    desk.keyboard.press("Control+Enter")
    desk.wait_for_url(f"**/desk/{waiting.reference}/")
    assert selectors.by_reference(waiting.reference).verdict == "release"
    call = CallRecord.objects.get()
    assert (call.outcome, call.cause, call.said_by) == ("corrected", "R-BURN-X", "Odile Marsh")
    assert BlindReading.objects.count() == 1


def test_the_next_question_comes_at_once(open_page: OpenPage, signed_in: SignedIn) -> None:
    waiting = a_waiting(without=("shell_od",))
    card = card_of(waiting, "missing-critical", "shell_od")
    page = open_page(card, cookies=signed_in(a_person("counter", "maud")), **DESK)
    page.fill("[name='answers.shell_od.text']", "1 1/4")
    page.get_by_label("corrected").check()
    page.get_by_label("Who said so").fill("Odile Marsh")
    page.keyboard.press("Control+Enter")
    page.wait_for_url(f"**/call/?check={ROUTES}*")
    expect(page.locator("#claim")).to_contain_text("You have this call until")


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_the_first_value_is_nowhere_until_the_second_is_typed(
    open_page: OpenPage, signed_in: SignedIn, waiting: Submission, scripts: bool
) -> None:
    cookies = signed_in(a_person("counter", "maud"))
    card = card_of(waiting, ROUTES)
    page = open_page(card, cookies=cookies, java_script_enabled=scripts, **DESK)
    for number in ("45 1/8", "45⁄", "1146", "45.125"):
        assert number not in page.content()
    page.fill(BOX, "44 1/8")
    page.get_by_label("In their own words").fill("he is sure")
    page.locator(".card-compare").first.click()
    expect(page.locator("#blind-face_to_strut_aft")).to_contain_text("45 1/8 then, 44 1/8 now")
    assert page.input_value(BOX) == "44 1/8"
    assert page.input_value("[name=note]") == "he is sure"
    page.goto(card)
    assert "45 1/8" not in page.content()


def test_a_lease_that_is_over_lets_the_next_one_call(
    open_page: OpenPage, signed_in: SignedIn, waiting: Submission
) -> None:
    claim(submission=waiting, by=a_person("counter", "maud"))
    iolo = a_person("counter", "iolo")
    page = open_page("/desk/calls/", cookies=signed_in(iolo), **DESK)
    expect(page.locator(".queue-row")).to_contain_text("maud has this call until")
    expect(page.get_by_role("button", name="Take it over")).to_be_visible()
    with time_machine.travel(timezone.now() + timedelta(minutes=21), tick=True):
        page.context.add_cookies(signed_in(iolo))  # type: ignore[arg-type]
        page.goto("/desk/calls/")
        page.get_by_role("button", name="I call").click()
        expect(page.locator("#claim")).to_contain_text("You have this call until")


def test_anothers_call_is_taken_over_with_everything_typed(
    open_page: OpenPage, signed_in: SignedIn, waiting: Submission
) -> None:
    cookies = signed_in(a_person("counter", "maud"))
    page = open_page(card_of(waiting, ROUTES), cookies=cookies, **DESK)
    page.fill(BOX, "44 1/8")
    claim(submission=waiting, by=a_person("counter", "iolo"))
    page.get_by_label("confirmed as it stands").check()
    page.get_by_label("Who said so").fill("Odile Marsh")
    page.locator("[data-save]").click()
    expect(page.locator(".notice.warning")).to_contain_text("iolo has this call until")
    page.get_by_role("button", name="Take it over").click()
    expect(page.locator("#claim")).to_contain_text("You have this call until")
    assert page.input_value(BOX) == "44 1/8"
    assert page.input_value("[name=said_by]") == "Odile Marsh"
    page.locator("[data-save]").click()
    expect(page.locator(".messages")).to_contain_text("Written down")
    assert str(CallRecord.objects.get().by) == "maud"


def test_typing_tells_whoever_lost_the_call(
    open_page: OpenPage, signed_in: SignedIn, waiting: Submission
) -> None:
    cookies = signed_in(a_person("counter", "maud"))
    page = open_page(card_of(waiting, ROUTES), cookies=cookies, **DESK)
    expect(page.locator("#claim")).to_contain_text("Nobody has this call")
    claim(submission=waiting, by=a_person("counter", "iolo"))
    page.locator(BOX).press_sequentially("4")
    expect(page.locator("#claim")).to_contain_text("iolo has this call until")


def test_only_a_manager_releases_over_a_stop(open_page: OpenPage, signed_in: SignedIn) -> None:
    waiting = a_waiting(without=("shell_od",))
    card = card_of(waiting, "missing-critical", "shell_od")
    for name, group in (("maud", "counter"), ("percival", "manager")):
        page = open_page(card, cookies=signed_in(a_person(group, name)), **DESK)
        page.get_by_label("released over it").check()
        page.get_by_label("In their own words").fill("the yard measures it itself")
        page.locator("[data-save]").click()
        if group == "counter":
            expect(page.locator(".summary")).to_contain_text("Only a manager")
            assert not CallRecord.objects.exists()
    page.wait_for_url(f"**/call/?check={ROUTES}*")
    assert CallRecord.objects.get().outcome == "overridden"


def test_nobody_reached_is_put_off_and_out_of_the_way(desk: Page, waiting: Submission) -> None:
    desk.get_by_role("button", name="I call").click()
    expect(desk.get_by_label("tomorrow")).to_be_hidden()
    desk.get_by_label("not reached").check()
    desk.get_by_label("tomorrow").check()
    desk.locator("[data-save]").click()
    desk.wait_for_url("**/desk/calls/")
    expect(desk.locator("main")).to_contain_text("Nobody waits")
    desk.get_by_label("Show").select_option("later")
    desk.get_by_role("button", name="Show these").click()
    expect(desk.locator(".queue-row")).to_contain_text("Try again")


@pytest.mark.parametrize("screen", [PHONE, DESK], ids=["phone", "desk"])
def test_every_page_of_calls_is_free_of_barriers(
    open_page: OpenPage,
    signed_in: SignedIn,
    barrier_free: BarrierFree,
    screen: dict[str, Any],
) -> None:
    with time_machine.travel(timezone.now() - timedelta(days=4), tick=True):
        late = a_waiting("Late one", needed="2026-01-01")
        a_waiting("Stopped", without=("shell_od", "flange_od"))
    cookies = signed_in(a_person("counter", "maud"))
    page = open_page("/desk/calls/", cookies=cookies, **screen)
    expect(page.locator("h1 .late")).to_contain_text("late")
    barrier_free(page)
    page.goto(card_of(late, ROUTES))
    page.get_by_label("not reached").check()
    page.get_by_label("on a day").check()
    page.locator("[data-save]").click()
    expect(page.locator(".summary")).to_be_visible()
    barrier_free(page)
    page.get_by_label("in 1 hour").check()
    page.locator("[data-save]").click()
    page.wait_for_url("**/desk/calls/")
    page.goto("/desk/calls/made/")
    expect(page.locator(".made")).to_contain_text("Late one")
    barrier_free(page)
