"""The door for staff: usable by anybody, closed for a while to who guesses."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, PHONE, OpenPage

BarrierFree = Callable[[Page], None]


def test_the_login_page_is_for_everybody(open_page: OpenPage, barrier_free: BarrierFree) -> None:
    for options in (PHONE, DESK, DESK | {"color_scheme": "dark"}):
        barrier_free(open_page("/accounts/login/", **options))


def test_a_member_of_staff_signs_in(
    open_page: OpenPage, django_user_model: Any, settings: Any
) -> None:
    settings.LOGIN_REDIRECT_URL = "/health/live"
    django_user_model.objects.create_user("maud", password="rope-and-tallow")
    page = open_page("/accounts/login/", **PHONE)
    page.get_by_label("Name").fill("maud")
    page.get_by_label("Password").fill("rope-and-tallow")
    page.keyboard.press("Enter")
    expect(page.get_by_text("ok")).to_be_visible()


def test_guessing_closes_the_door(open_page: OpenPage, django_user_model: Any) -> None:
    django_user_model.objects.create_user("maud", password="rope-and-tallow")
    page = open_page("/accounts/login/", **PHONE)
    for guess in range(5):
        page.get_by_label("Name").fill("maud")
        page.get_by_label("Password").fill(f"guess {guess}")
        page.keyboard.press("Enter")
        page.wait_for_load_state()
    expect(page.get_by_text("too many attempts")).to_be_visible()
