"""The customer's form in a real browser: a phone of 360 px, a desk screen, and without scripts."""

from __future__ import annotations

from collections.abc import Callable
from importlib.resources import files

import pytest
from playwright.sync_api import Page, expect

from catalog.services import load_catalog
from intake.models import Submission
from tests.browser.conftest import DESK, PHONE, OpenPage

BarrierFree = Callable[[Page], None]

TYPED = {
    "contact.name": "Wilmot Tarpley",
    "contact.phone": "+1 202 555 0100",
    "answers.boat_name_and_station.name": "Biscuit Barrel",
    "answers.dia_clean.text": "1",
    "answers.face_to_strut_aft.text": "44 1/8",
    "answers.hub_length.text": "2 15/16",
    "answers.gap_now.text": "3/4",
    "answers.old_length_face_to_thread.text": "49",
    "answers.flange_od.text": "4",
    "answers.shell_od.text": "1 1/4",
    "answers.bearing_length.text": "2",
    "answers.bearing_length.count": "1",
}
CHOSEN = {
    "answers.boat_name_and_station.station": "single",
    "answers.dia_clean.method": "caliper",
    "answers.face_to_strut_aft.method": "rod",
    "answers.hub_length.method": "caliper",
    "answers.gap_now.method": "drill_shank",
    "answers.old_length_face_to_thread.method": "tape",
}
TICKED = (
    ("wants", "shaft"),
    ("wants", "bearing"),
    ("tape_unit", "in"),
    ("answers.drive_layout", "inline"),
    ("answers.coupling_state.is", "tight"),
    ("answers.flange_direction", "aft"),
)


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    load_catalog((files("catalog") / "data" / "demo_catalog.csv").read_text("utf-8"))


def fill_in(page: Page) -> None:
    for name, value in TICKED:
        page.check(f'[name="{name}"][value="{value}"]')
    for name, text in TYPED.items():
        page.fill(f'[name="{name}"]', text)
    for name, value in CHOSEN.items():
        page.select_option(f'[name="{name}"]', value)


def go_on(page: Page) -> None:
    page.get_by_role("button", name="Read it all back to me").click()


def small_targets(page: Page) -> list[str]:
    """Controls a wet thumb would miss: lower than 44 px, labels counted with their boxes."""
    return page.evaluate(
        """() => [...document.querySelectorAll("main .button, main select, main input")]
          .filter(e => e.type !== "hidden" && e.offsetParent)
          .map(e => [e.name || e.textContent, (e.closest("label") || e).getBoundingClientRect()])
          .filter(([, box]) => box.height < 44).map(([name]) => name)"""
    )


def test_a_boat_is_measured_on_a_phone(phone: Page, barrier_free: BarrierFree) -> None:
    barrier_free(phone)
    assert small_targets(phone) == []
    go_on(phone)
    summary = phone.get_by_role("alert")
    expect(summary).to_be_focused()
    expect(summary).to_contain_text("Tick at least one thing")
    barrier_free(phone)
    fill_in(phone)
    read = phone.locator("#q-face_to_strut_aft-read")
    expect(read).to_contain_text("44 1/8 in · 1120.8 mm")
    expect(read).to_contain_text("forty-four and one eighth inches")
    barrier_free(phone)
    go_on(phone)
    expect(phone.get_by_role("heading", level=1)).to_have_text("As we understood you")
    expect(phone.get_by_text("It adds up")).to_be_visible()
    barrier_free(phone)
    phone.get_by_role("button", name="Send it to the desk").dblclick()
    phone.wait_for_url("**/s/**")
    assert Submission.objects.get().boat_name == "Biscuit Barrel"


def test_each_question_has_its_drawing_on_a_phone(phone: Page) -> None:
    figure = phone.locator("#q-gap_now svg.drawing")
    expect(figure).to_be_visible()
    hull = figure.evaluate("""svg => getComputedStyle(svg.querySelector(".k-tape")).strokeWidth""")
    assert hull == "0.25px"


def test_the_asked_dimension_lights_up_beside_the_form(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    page = open_page("/", **DESK)
    barrier_free(page)
    picture = page.locator(".measure-picture .drawing")
    page.focus('[name="answers.gap_now.text"]')
    expect(picture.locator(".is-lit")).to_have_attribute("data-slug", "gap_now")
    page.focus('[name="answers.hub_length.text"]')
    expect(picture.locator(".is-lit")).to_have_attribute("data-slug", "hub_length")


def test_another_tape_reads_every_number_again(open_page: OpenPage) -> None:
    page = open_page("/", **DESK)
    page.check('[name="tape_unit"][value="in"]')
    page.fill('[name="answers.hub_length.text"]', "75")
    read = page.locator("#q-hub_length-read")
    expect(read).to_contain_text("75 in")
    page.check('[name="tape_unit"][value="mm"]')
    expect(read).to_contain_text("75 mm")


def test_dark_pages_are_barrier_free(open_page: OpenPage, barrier_free: BarrierFree) -> None:
    page = open_page("/", **PHONE, color_scheme="dark")
    barrier_free(page)
    fill_in(page)
    page.fill('[name="answers.face_to_strut_aft.text"]', "45 1/8")
    go_on(page)
    expect(page.get_by_role("heading", name="What we would ask you")).to_be_visible()
    barrier_free(page)


def test_the_form_works_without_scripts(open_page: OpenPage) -> None:
    page = open_page("/", **PHONE, java_script_enabled=False)
    fill_in(page)
    go_on(page)
    expect(page.get_by_text("44 1/8 in · 1120.8 mm")).to_be_visible()
    page.locator('a[href$="#q-gap_now"]').click()
    expect(page.locator('[name="answers.gap_now.text"]')).to_have_value("3/4")
    page.fill('[name="answers.gap_now.text"]', "5/8")
    go_on(page)
    expect(page.get_by_text("5/8 in · 15.9 mm")).to_be_visible()
    page.get_by_role("button", name="Send it to the desk").click()
    page.wait_for_url("**/s/**")
    assert Submission.objects.count() == 1
