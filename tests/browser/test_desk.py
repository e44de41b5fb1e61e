"""The counter's pages in a real browser: by keyboard, judged as one types, right on every width."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from intake import selectors
from intake.desk_order import CODES
from intake.models import Submission
from intake.services import receive_submission
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.given import CLEAN
from tests.intake.desk_given import a_person, stock_the_shelf
from tests.intake.finding.given import indexed
from tests.quotes.given import a_quoter

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]

SPOKEN = (  # what a caller says, in order
    ("contact.phone", "+1 202 555 0100"),
    ("contact.name", "Wilmot Tarpley"),
    ("answers.boat_name_and_station.name", "Biscuit Barrel"),
    ("answers.face_to_strut_aft.text", "45 1/8 rod"),
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
        for _press in range(20):
            if focused(page) == name:
                break
            page.keyboard.press("Enter")
        assert focused(page) == name
        page.keyboard.type(text)


def chord(page: Page, letters: str, text: str = "") -> None:
    """The leader key, the letters, then what is typed there."""
    page.keyboard.press("F2")
    page.keyboard.type(letters)
    page.keyboard.type(text)


def kept(page: Page) -> None:
    """Wait until the desk has everything."""
    expect(page.locator("#desk-form[data-open='0']")).to_be_attached()
    expect(page.locator("#call-kept")).to_contain_text("kept")


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
    assert focused(desk) == "contact.phone"
    type_by_keyboard(desk, SPOKEN)
    panel = desk.locator("#desk-panel")
    expect(panel.locator(".finding").first).to_be_visible()
    assert panel.locator(".finding").count() >= 1
    expect(desk.locator("#f-answers-face_to_strut_aft-read")).to_contain_text(
        "45 1/8 in · 1146.2 mm"
    )
    expect(desk.locator("#f-answers-gap_now-read")).to_contain_text("3/4 in · 19.1 mm")
    expect(panel).to_contain_text("Still to ask")
    kept(desk)
    assert "/desk/call/" in desk.url
    barrier_free(desk)
    desk.keyboard.press("Control+Enter")
    desk.wait_for_url("**/desk/FG-*/")
    assert Submission.objects.get().boat_name == "Biscuit Barrel"
    answers = selectors.current_sheet(Submission.objects.get()).body["answers"]
    assert answers["face_to_strut_aft"] == {"text": "45 1/8", "method": "rod"}


def test_half_a_number_is_told_beside_its_box(desk: Page) -> None:
    chord(desk, "ga", "3/")
    expect(desk.locator("#f-answers-gap_now-read .error")).to_be_visible()
    desk.keyboard.type("4")
    expect(desk.locator("#f-answers-gap_now-read")).to_contain_text("3/4 in")
    expect(desk.locator("#f-answers-gap_now-read .error")).to_have_count(0)


def test_enter_passes_how_and_cannot_and_comes_back(desk: Page) -> None:
    chord(desk, "fa", "44 1/8")
    desk.keyboard.press("Enter")
    assert focused(desk) == "answers.gap_now.text"
    desk.keyboard.press("Shift+Enter")
    assert focused(desk) == "answers.face_to_strut_aft.text"
    desk.keyboard.press("Tab")
    assert focused(desk) == "answers.face_to_strut_aft.method"


def test_the_way_is_said_in_the_numbers_own_box(desk: Page) -> None:
    chord(desk, "di", "1 caliper")
    expect(desk.locator("[name='answers.dia_clean.method']")).to_have_value("caliper")
    expect(desk.locator("#f-answers-dia_clean-read")).to_contain_text("1 in · 25.4 mm")
    expect(desk.locator("[name='answers.dia_clean.text']")).to_have_value("1 caliper")
    chord(desk, "bs", "?")
    expect(desk.locator("#f-answers-shell_od-read")).to_contain_text("cannot be measured")


# --- Chords ---------------------------------------------------------------------------


def test_every_field_is_reached_by_its_letters(desk: Page) -> None:
    for key, letters in CODES.items():
        chord(desk, letters)
        reached = focused(desk)
        assert reached.removeprefix("answers.").split(".")[0] == key.split(".")[0], letters
        assert desk.evaluate("document.activeElement.offsetParent !== null")


def test_the_leader_says_that_it_is_on_and_escape_leaves(desk: Page) -> None:
    sign = desk.locator("#call-leader")
    desk.keyboard.press("F2")
    expect(sign).to_contain_text("two letters")
    desk.keyboard.press("Escape")
    expect(sign).to_be_empty()
    desk.keyboard.press("Control+;")
    expect(sign).to_contain_text("Ctrl ;: two letters")
    desk.keyboard.type("zz")
    expect(sign).to_contain_text("No chord")
    assert desk.input_value("[name='contact.phone']") == "", "letters of a chord are typed nowhere"


def test_the_leader_twice_goes_back_and_forth(desk: Page) -> None:
    chord(desk, "ga", "3/4")
    chord(desk, "na")
    desk.keyboard.press("F2")
    desk.keyboard.press("F2")
    assert focused(desk) == "answers.gap_now.text"
    desk.keyboard.press("F2")
    desk.keyboard.press("F2")
    assert focused(desk) == "contact.name"


def test_one_chord_leads_to_what_is_asked_next(desk: Page) -> None:
    type_by_keyboard(desk, SPOKEN[:4])
    asked = desk.locator("[data-asked]")
    expect(asked).to_be_visible()
    code = str(asked.get_attribute("data-asked"))
    expect(asked).to_contain_text(f"F2 {code}")
    expect(asked.locator("svg")).to_be_visible()
    desk.keyboard.press("F2")
    desk.keyboard.press("Enter")
    assert desk.evaluate("document.activeElement.dataset.code") == code


def test_the_list_of_keys_names_every_field(desk: Page, barrier_free: BarrierFree) -> None:
    desk.keyboard.press("F2")
    desk.keyboard.press("?")
    listed = desk.locator("#call-chords")
    expect(listed).to_be_visible()
    shown = set(listed.locator("kbd").all_text_contents())
    assert set(CODES.values()) <= shown
    barrier_free(desk)
    desk.keyboard.press("Escape")
    expect(listed).to_be_hidden()
    assert focused(desk) == "contact.phone"


def test_everything_is_read_back_by_a_chord(desk: Page, barrier_free: BarrierFree) -> None:
    type_by_keyboard(desk, SPOKEN[:5])
    chord(desk, "hu", "2 15/")
    desk.keyboard.press("F2")
    desk.keyboard.press("'")
    said = desk.locator("#call-read")
    expect(said).to_contain_text(
        "Face to strut, aft end: forty-five and one eighth inches, by rod."
    )
    expect(said).to_contain_text("Propeller hub: I have “2 15/” and cannot read it.")
    expect(said.locator("li").last).to_contain_text("That is for Wilmot Tarpley, on plus one")
    barrier_free(desk)
    desk.emulate_media(media="print")
    expect(desk.locator("#desk-form")).to_be_hidden()
    expect(said).to_be_visible()
    desk.emulate_media(media="screen")
    desk.keyboard.press("Escape")
    assert focused(desk) == "answers.hub_length.text"


def test_who_called_before_is_found_by_keyboard(desk: Page) -> None:
    (earlier,) = indexed(an_inch_out())
    desk.keyboard.press("F2")
    desk.keyboard.press("/")
    desk.keyboard.type("thimb")
    expect(desk.locator("#found")).to_contain_text("Thimble")
    desk.keyboard.press("ArrowDown")
    assert desk.evaluate("document.getElementById('found').contains(document.activeElement)")
    desk.keyboard.press("ArrowDown")
    assert desk.evaluate("document.activeElement.textContent").strip().endswith(earlier.reference)
    desk.keyboard.press("Enter")
    desk.wait_for_url(f"**/desk/{earlier.reference}/")


def test_escape_leaves_the_finder(desk: Page) -> None:
    indexed(an_inch_out())
    desk.keyboard.press("F2")
    desk.keyboard.press("/")
    desk.keyboard.type("thimb")
    expect(desk.locator("#found")).to_contain_text("Thimble")
    desk.keyboard.press("Escape")
    expect(desk.locator("#found")).to_be_empty()
    assert focused(desk) == "contact.phone"


def test_who_may_not_quote_is_told_so_in_the_prices_place(desk: Page) -> None:
    type_by_keyboard(desk, SPOKEN)
    expect(desk.locator("#desk-price")).to_contain_text("may not quote")


def test_the_price_runs_along(open_page: OpenPage, signed_in: SignedIn) -> None:
    page = open_page("/desk/", cookies=signed_in(a_quoter()), **DESK)
    type_by_keyboard(page, SPOKEN)
    expect(page.locator("#desk-price table")).to_be_visible()


# --- Without scripts ------------------------------------------------------------------


def test_the_page_works_without_scripts(open_page: OpenPage, signed_in: SignedIn) -> None:
    cookies = signed_in(a_person("counter", "maud"))
    page = open_page("/desk/", cookies=cookies, java_script_enabled=False, **DESK)
    for name, text in SPOKEN:
        page.fill(f"[name='{name}']", text)
    page.click("[data-save]")
    page.wait_for_url("**/desk/FG-*/")


def test_a_call_is_read_back_without_scripts(open_page: OpenPage, signed_in: SignedIn) -> None:
    cookies = signed_in(a_person("counter", "maud"))
    page = open_page("/desk/", cookies=cookies, java_script_enabled=False, **DESK)
    page.fill("[name='answers.gap_now.text']", "3/4 drill")
    with page.expect_popup() as opened:
        page.click("[data-read]")
    expect(opened.value.locator("main")).to_contain_text("Gap: three quarters of an inch")


@pytest.mark.parametrize("screen", [PHONE, DESK], ids=["phone", "desk"])
def test_the_call_page_is_free_of_barriers(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, screen: dict[str, Any]
) -> None:
    page = open_page("/desk/", cookies=signed_in(a_person("counter", "maud")), **screen)
    barrier_free(page)
    page.fill("[name='answers.face_to_strut_aft.text']", "44 1/8 rod")
    page.fill("[name='answers.gap_now.text']", "3/4/5")
    expect(page.locator("#f-answers-gap_now-read .error")).to_be_visible()
    expect(page.locator("[data-asked]")).to_be_visible()
    barrier_free(page)


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


# --- What stays in sight --------------------------------------------------------------


def edges(page: Page, selector: str) -> tuple[float, float]:
    """Top and bottom of what is shown, in the window."""
    box = page.locator(selector).bounding_box()
    assert box
    return box["y"], box["y"] + box["height"]


def test_the_question_and_the_tools_stay_in_sight_to_the_last_button(desk: Page) -> None:
    type_by_keyboard(desk, SPOKEN)
    expect(desk.locator("[data-asked]")).to_be_visible()
    desk.keyboard.press("Enter")
    assert desk.evaluate("document.activeElement.matches('[data-save-last]')")
    top, tools_end = edges(desk, ".call-bar")
    asked, _end = edges(desk, "[data-asked] .question")
    _start, button_end = edges(desk, "[data-save-last]")
    assert top >= 0
    assert asked >= tools_end
    assert button_end <= DESK["viewport"]["height"]


def test_what_has_the_cursor_is_never_under_the_tools(desk: Page) -> None:
    desk.locator("[data-save-last]").focus()
    for _press in range(60):
        desk.keyboard.press("Shift+Tab")
        if not desk.evaluate("document.activeElement.closest('.desk-typed') !== null"):
            break
        top = desk.evaluate("document.activeElement.getBoundingClientRect().top")
        assert top >= edges(desk, ".call-bar")[1], focused(desk)


def test_a_call_opened_again_reads_its_numbers_at_once(desk: Page) -> None:
    chord(desk, "ga", "3/4 drill")
    kept(desk)
    desk.reload()
    expect(desk.locator("#f-answers-gap_now-read")).to_contain_text("3/4 in · 19.1 mm")


def test_the_finder_waits_for_what_was_typed_last(desk: Page) -> None:
    indexed(an_inch_out())
    desk.keyboard.press("F2")
    desk.keyboard.press("/")
    desk.keyboard.type("thimb")
    desk.keyboard.press("Enter")  # sooner than anything is found
    desk.wait_for_url("**/desk/?boat=*")
    assert desk.input_value("[name='answers.boat_name_and_station.name']") == "Thimble"
