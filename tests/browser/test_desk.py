"""The counter's pages in a real browser: by keyboard, judged as one types, right on every width."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from intake import selectors
from intake.models import Submission
from intake.services import receive_submission
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.given import CLEAN
from tests.intake.desk_given import a_person, stock_the_shelf

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]

SPOKEN = (  # what a caller says, in order; None goes past a box
    ("contact.phone", "+1 202 555 0100"),
    ("contact.name", "Wilmot Tarpley"),
    ("answers.boat_name_and_station.name", "Biscuit Barrel"),
    ("answers.face_to_strut_aft.text", "45 1/8"),
    ("answers.gap_now.text", "3/4"),
    ("answers.hub_length.text", "2 15/16"),
    ("answers.tail_to_thread.text", "4 7/8"),
    ("answers.old_length_face_to_thread.text", "49"),
    ("answers.dia_clean.text", "1"),
    ("answers.flange_od.text", "4"),
    ("answers.shell_od.text", "1 1/4"),
    ("answers.bearing_length.text", "2"),
)


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


@pytest.fixture
def desk(open_page: OpenPage, signed_in: SignedIn) -> Page:
    """The call page on the counter's screen."""
    return open_page("/desk/", cookies=signed_in(a_person("counter", "maud")), **DESK)


def focused(page: Page) -> str:
    return str(page.evaluate("document.activeElement.name || ''"))


def type_by_keyboard(page: Page, told: tuple[tuple[str, str], ...]) -> None:
    """Press Enter until the box is reached, then type; the mouse is never touched."""
    for name, text in told:
        for _press in range(80):
            if focused(page) == name:
                break
            page.keyboard.press("Enter")
        assert focused(page) == name
        page.keyboard.type(text)


def an_inch_out() -> Submission:
    """Stored: a sheet whose routes are an inch apart."""
    answers = {
        **CLEAN,
        "boat_name_and_station": {"name": "Thimble", "station": "single"},
        "face_to_strut_aft": {"text": "45 1/8", "method": "rod"},
    }
    body = {
        "channel": "form",
        "tape_unit": "in",
        "wants": ["shaft", "coupling", "bearing"],
        "contact": {"name": "Odile Marsh", "phone": "+1 202 555 0111", "role": "owner"},
        "answers": answers,
    }
    return receive_submission(body=body)


def test_a_call_is_typed_by_keyboard_alone(desk: Page, barrier_free: BarrierFree) -> None:
    desk.locator("[name='contact.phone']").focus()
    type_by_keyboard(desk, SPOKEN)
    panel = desk.locator("#desk-panel")
    expect(panel.locator(".finding").first).to_be_visible()
    expect(panel).to_contain_text("45 1/8 in · 1146.2 mm")
    expect(desk.locator("#f-answers-gap_now-read")).to_contain_text("3/4 in · 19.1 mm")
    barrier_free(desk)
    desk.keyboard.press("Control+Enter")
    desk.wait_for_url("**/desk/FG-*/")
    assert Submission.objects.get().boat_name == "Biscuit Barrel"


def test_half_a_number_is_told_beside_its_box(desk: Page) -> None:
    desk.fill("[name='answers.gap_now.text']", "3/")
    expect(desk.locator("#f-answers-gap_now-read .error")).to_be_visible()
    desk.fill("[name='answers.gap_now.text']", "3/4")
    expect(desk.locator("#f-answers-gap_now-read")).to_contain_text("3/4 in")
    expect(desk.locator("#f-answers-gap_now-read .error")).to_have_count(0)


def test_the_page_works_without_scripts(open_page: OpenPage, signed_in: SignedIn) -> None:
    cookies = signed_in(a_person("counter", "maud"))
    page = open_page("/desk/", cookies=cookies, java_script_enabled=False, **DESK)
    for name, text in SPOKEN:
        page.fill(f"[name='{name}']", text)
    page.click("[data-save]")
    page.wait_for_url("**/desk/FG-*/")


def test_from_the_queue_to_a_release(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree
) -> None:
    waiting = an_inch_out()
    page = open_page("/desk/calls/", cookies=signed_in(a_person("counter", "maud")), **DESK)
    for _call in range(4):
        if selectors.by_reference(waiting.reference).status != "needs_call":
            break
        page.goto("/desk/calls/")
        page.get_by_role("link", name="Call and record").first.click()
        barrier_free(page)
        box = page.locator("[name='answers.face_to_strut_aft.text']")
        if box.count():
            assert box.input_value() == ""
            box.fill("44 1/8")
            page.get_by_label("corrected").check()
            page.get_by_label("Why the number was wrong").select_option("R-BURN-X")
        else:
            page.get_by_label("confirmed as it stands").check()
        page.get_by_label("Who said so").fill("Odile Marsh")
        page.click("[data-save]")
        page.wait_for_url(f"**/desk/{waiting.reference}/")
    assert selectors.by_reference(waiting.reference).verdict == "release"
    page.goto("/desk/calls/")
    expect(page.locator("main")).to_contain_text("Nobody waits")


@pytest.mark.parametrize("screen", [PHONE, DESK], ids=["phone", "desk"])
def test_every_staff_page_is_free_of_barriers(
    open_page: OpenPage,
    signed_in: SignedIn,
    barrier_free: BarrierFree,
    screen: dict[str, Any],
) -> None:
    waiting = an_inch_out()
    check = selectors.current_sheet(waiting).outcome["findings"][0]["check"]
    addresses = [
        "/desk/calls/",
        f"/desk/{waiting.reference}/",
        f"/desk/{waiting.reference}/call/?check={check}",
        "/insights/",
    ]
    page = open_page("/desk/", cookies=signed_in(a_person("manager", "percival")), **screen)
    barrier_free(page)
    for address in addresses:
        page.goto(address)
        barrier_free(page)
