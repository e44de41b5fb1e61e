"""Accounts, second factor and the lock, as people use them: by keyboard, on a phone, at a desk."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.utils import timezone
from playwright.sync_api import Page, expect

from staff.models import Seat
from staff.second import services as second
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.staff.given import (
    PASSWORD,
    a_manager,
    a_member,
    code_of,
    proposed_code,
    with_second,
)

BarrierFree = Callable[[Page], None]
SignedIn = Callable[[Any], list[dict[str, str]]]
EVERY = [PHONE, DESK, DESK | {"color_scheme": "dark"}]
each_screen = pytest.mark.parametrize("screen", EVERY, ids=["phone", "desk", "dark"])


@pytest.fixture
def maud() -> User:
    return a_member("maud")


def type_in(page: Page, *texts: str) -> None:
    """Type into the box that has the keys, Tab to the next, Enter after the last."""
    for number, text in enumerate(texts):
        if number:
            page.keyboard.press("Tab")
        page.keyboard.type(text)
    page.keyboard.press("Enter")


@each_screen
def test_a_second_factor_is_set_up_and_asked_for(
    maud: User, open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, screen: Any
) -> None:
    page = open_page("/staff/me/", cookies=signed_in(maud), **screen)
    barrier_free(page)
    page.get_by_role("link", name="Set up a second factor").click()
    expect(page.get_by_label("Your own password")).to_be_visible()
    barrier_free(page)
    page.get_by_label("Your own password").focus()
    type_in(page, PASSWORD)
    expect(page.get_by_role("img", name="Square code")).to_be_visible()
    barrier_free(page)
    type_in(page, proposed_code(maud))  # its box has the keys already
    expect(page.get_by_role("heading", name="Recovery codes")).to_be_visible()
    expect(page.locator(".staff-codes li")).to_have_count(10)
    barrier_free(page)
    page.get_by_role("link", name="I have them").click()
    expect(page.get_by_text("10 recovery codes left")).to_be_visible()
    page.get_by_role("link", name="Change second factor").click()
    page.wait_for_url("**/second/**")
    for closed in page.locator("details").all():
        closed.locator("summary").click()
    barrier_free(page)


def test_a_login_with_a_code_needs_no_mouse(
    maud: User, open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    with_second(maud)
    page = open_page("/accounts/login/?next=/staff/me/", **DESK)
    page.get_by_label("Name").focus()
    type_in(page, "maud", PASSWORD)
    expect(page.get_by_role("heading", name="Second factor")).to_be_visible()
    barrier_free(page)
    type_in(page, "000000")
    expect(page.get_by_role("alert")).to_contain_text("not right")
    barrier_free(page)
    type_in(page, code_of(maud, later=1))
    expect(page.get_by_role("heading", name="My account")).to_be_visible()


@each_screen
def test_an_idle_desk_locks_and_opens_where_one_was(
    maud: User, open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, screen: Any
) -> None:
    page = open_page("/catalog/?kind=bar", cookies=signed_in(maud), **screen)
    Seat.objects.update(active_at=timezone.now() - timedelta(minutes=16))
    page.reload()
    expect(page.get_by_role("heading", name="The desk is locked")).to_be_visible()
    barrier_free(page)
    type_in(page, "not the password")
    expect(page.get_by_role("alert")).to_contain_text("not your password")
    barrier_free(page)
    type_in(page, PASSWORD)
    expect(page.get_by_role("heading", name="What we stock")).to_be_visible()
    assert page.url.endswith("/catalog/?kind=bar")


def test_a_form_sent_to_a_locked_desk_is_kept_and_sent_after_it(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree
) -> None:
    page = open_page("/staff/people/", cookies=signed_in(a_manager()), **DESK)
    form = page.locator("form[action$='/new/']")
    form.get_by_label("Name to log in with").fill("bronagh")
    form.get_by_label("Full name").fill("Bronagh of the lathe")
    Seat.objects.update(locked_at=timezone.now())
    form.get_by_role("button").click()
    expect(page.get_by_role("alert")).to_contain_text("was not stored yet")
    barrier_free(page)
    type_in(page, PASSWORD)
    expect(page.get_by_text("Bronagh of the lathe")).to_be_visible()
    barrier_free(page)
    page.keyboard.press("Enter")
    expect(form.get_by_label("Full name")).to_have_value("Bronagh of the lathe")
    form.get_by_label("Why").fill("new at the lathe")
    form.get_by_label("Your own password").fill(PASSWORD)
    form.get_by_role("button").click()
    expect(page.get_by_role("heading", name="One-time password of bronagh")).to_be_visible()


def test_a_script_at_a_locked_desk_shows_the_way_in(
    maud: User, open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree
) -> None:
    page = open_page("/staff/me/", cookies=signed_in(maud), **DESK)
    Seat.objects.update(locked_at=timezone.now())
    page.evaluate("""htmx.ajax("GET", "/catalog/", { target: "h1", swap: "outerHTML" })""")
    expect(page.get_by_role("alert")).to_contain_text("The desk is locked")
    expect(page.get_by_role("heading", name="My account")).to_be_visible()  # nothing was swapped
    barrier_free(page)
    with page.context.expect_page() as opened:
        page.get_by_role("link", name="Open the way in").click()
    expect(opened.value.get_by_role("heading", name="The desk is locked")).to_be_visible()


def test_lock_now_and_somebody_else_takes_over(
    maud: User, open_page: OpenPage, signed_in: SignedIn
) -> None:
    a_member("iolo")
    page = open_page("/catalog/", cookies=signed_in(maud), **DESK)
    page.get_by_role("button", name="Lock", exact=True).click()
    expect(page.get_by_role("heading", name="The desk is locked")).to_be_visible()
    page.get_by_role("button", name="Somebody else").click()
    page.get_by_label("Name").focus()
    type_in(page, "iolo", PASSWORD)
    expect(page.get_by_role("button", name="Log out iolo")).to_be_visible()
    assert page.url.endswith("/catalog/")


@each_screen
def test_the_people_of_the_desk(
    maud: User, open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, screen: Any
) -> None:
    page = open_page("/staff/people/", cookies=signed_in(a_manager()), **screen)
    page.get_by_text("Change that").click()
    barrier_free(page)
    page.get_by_role("button", name="Make the account").click()
    expect(page.get_by_role("alert")).to_be_focused()
    barrier_free(page)
    page.get_by_role("link", name="maud", exact=True).click()
    for closed in page.locator("main details").all():
        closed.locator("summary").click()
    barrier_free(page)
    form = page.locator("form[action$='/password/']")
    form.get_by_label("Why").fill("forgotten over the winter")
    form.get_by_label("Your own password").fill(PASSWORD)
    form.get_by_role("button").click()
    expect(page.get_by_role("heading", name="One-time password of maud")).to_be_visible()
    barrier_free(page)
    page.get_by_role("link", name="I have handed it over").click()
    expect(page.get_by_text("forgotten over the winter")).to_be_visible()
    barrier_free(page)


@each_screen
def test_whoever_must_is_led_and_then_free(
    maud: User, open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, screen: Any
) -> None:
    second.require(everyone=True, groups=[], by=a_manager(), why="safer", seen=0)
    page = open_page("/catalog/", cookies=signed_in(maud), **screen)
    expect(page.get_by_text("The manager asks a second factor of you")).to_be_visible()
    barrier_free(page)
    page.get_by_label("Your own password").fill(PASSWORD)
    page.keyboard.press("Enter")
    expect(page.get_by_label("Code of six digits")).to_be_visible()
    page.get_by_label("Code of six digits").fill(proposed_code(maud))
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Recovery codes")).to_be_visible()
    page.goto("/catalog/")
    expect(page.get_by_role("heading", name="What we stock")).to_be_visible()


@each_screen
def test_a_new_password(
    maud: User, open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, screen: Any
) -> None:
    page = open_page("/staff/me/password/", cookies=signed_in(maud), **screen)
    page.get_by_label("Your own password").focus()
    type_in(page, PASSWORD, "short", "shorter")
    expect(page.get_by_role("alert")).to_be_focused()
    barrier_free(page)
    page.get_by_label("Your own password").focus()
    type_in(page, PASSWORD, "seventeen herrings", "seventeen herrings")
    expect(page.get_by_text("Your password is changed")).to_be_visible()


def test_who_changed_a_part_is_read_by_the_desk(
    maud: User, open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree
) -> None:
    from tests.intake.desk_given import stock_the_shelf

    stock_the_shelf()
    for screen in (PHONE, DESK):
        page = open_page("/catalog/?kind=bar", cookies=signed_in(maud), **screen)
        barrier_free(page)
        page.get_by_role("link", name="BH-1000").click()
        expect(page.get_by_role("cell", name="a table was loaded")).to_be_visible()
        barrier_free(page)
