"""The guided path on a phone: one question a screen, read back, judged, reviewed and sent."""

from __future__ import annotations

import gzip
from collections.abc import Callable
from importlib.resources import files

import pytest
from playwright.sync_api import Page, Response, expect

from catalog.services import load_catalog
from intake.models import Submission
from tests.browser.conftest import DESK, OpenPage
from tests.browser.guided_given import (
    GUIDED_PHONE,
    answer,
    at,
    drafts,
    go_on,
    ready_for_no_signal,
    slug_of,
    start_a_boat,
    tick,
    to_review,
    walk,
)

BarrierFree = Callable[[Page], None]
FIRST_VIEW, ALL_KEPT = 150_000, 400_000  # bytes, compressed


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    load_catalog((files("catalog") / "data" / "demo_catalog.csv").read_text("utf-8"))


def _whole(page: Page, barrier_free: BarrierFree) -> None:
    """From its end, where the bar that stays under the thumb covers nothing."""
    page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
    barrier_free(page)


def _start(open_page: OpenPage, **options: object) -> Page:
    page = open_page("/guided/", **(GUIDED_PHONE | options))
    start_a_boat(page)
    return page


def test_a_boat_is_measured_one_question_a_screen(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    page = open_page("/guided/", **GUIDED_PHONE)
    expect(page.get_by_role("heading", level=1)).to_have_text("Your boats on this phone")
    _whole(page, barrier_free)
    start_a_boat(page)
    slugs = list(walk(page, seen=lambda _slug: _whole(page, barrier_free)))
    assert slugs[:12] == [
        "wants", "boat_name_and_station", "drive_layout", "face_to_strut_how",
        "face_to_strut_aft", "gap_now", "hub_length", "dia_clean",
        "old_length_face_to_thread", "changed_since_shaft", "water", "contact",
    ]  # fmt: skip
    assert len(slugs) <= 16
    _whole(page, barrier_free)
    page.get_by_role("button", name="Send it to the desk").click()
    expect(page.get_by_text("Sent as FG-")).to_be_visible()
    _whole(page, barrier_free)
    assert Submission.objects.get().boat_name == "Biscuit Barrel"
    page.get_by_role("link", name="See what the desk says").click()
    page.wait_for_url("**/s/**")


def test_progress_tells_what_is_left(open_page: OpenPage) -> None:
    page = _start(open_page)
    answer(page, "wants")
    expect(page.locator(".progress p")).to_contain_text("1 of")
    go_on(page)
    at(page, "boat_name_and_station")
    expect(page.locator(".progress p")).to_have_text("2 of 12 · 10 to go")


def test_each_number_is_read_back_and_its_dimension_lit(open_page: OpenPage) -> None:
    page = _start(open_page)
    list(walk(page, until="gap_now"))
    lit = page.locator(".asked-line .is-lit")
    expect(lit).to_have_attribute("data-slug", "gap_now")
    expect(lit).to_contain_text("strut's metal end")
    expect(lit).to_contain_text("hub's front face")
    page.fill('[name="answers.gap_now.text"]', "3/4")
    read = page.locator(".read-back")
    expect(read).to_contain_text("3/4 in · 19.1 mm")
    expect(read).to_contain_text("three quarters of an inch")


def test_our_own_keys_write_a_number(open_page: OpenPage) -> None:
    page = _start(open_page)
    list(walk(page, until="face_to_strut_aft"))
    for key in ("4", "4", "space", "1", "/", "9", "delete", "8"):
        page.locator(".keys").get_by_role("button", name=key, exact=True).click()
    expect(page.locator('[name="answers.face_to_strut_aft.text"]')).to_have_value("44 1/8")
    tick(page, "answers.face_to_strut_aft.text:unit", "in")
    expect(page.locator(".read-back")).to_contain_text("44 1/8 in")


def test_what_cannot_be_measured_opens_its_fallback(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    page = _start(open_page)
    list(walk(page, until="gap_now"))
    page.get_by_role("button", name="I can't measure this").click()
    expect(page.locator(".cannot-said")).to_be_focused()
    expect(page.locator(".cannot-said")).to_contain_text("lean on the boat's lengths")
    _whole(page, barrier_free)
    go_on(page)
    at(page, "hub_length")
    go_on(page)
    go_on(page)
    at(page, "tail_to_thread")


def test_a_doubtful_number_is_met_kindly(open_page: OpenPage, barrier_free: BarrierFree) -> None:
    page = _start(open_page)
    list(walk(page, until="hub_length"))
    page.fill('[name="answers.hub_length.text"]', "29")
    expect(page.locator(".read-back .doubt").first).to_be_visible()
    expect(page.locator(".mistake svg")).to_be_visible()
    _whole(page, barrier_free)
    page.fill('[name="answers.hub_length.text"]', "2 15/17")
    expect(page.locator(".meant button").first).to_be_visible()
    _whole(page, barrier_free)
    go_on(page)
    assert slug_of(page) == "hub_length"  # once; who insists goes on
    page.locator(".meant button").first.click()
    expect(page.locator(".read-back .both")).to_be_visible()


def test_a_second_reading_hides_the_first(open_page: OpenPage, barrier_free: BarrierFree) -> None:
    page = _start(open_page)
    list(walk(page, until="old_length_face_to_thread"))
    page.get_by_role("button", name="No old shaft to measure").click()
    expect(page.locator(".cannot-said")).to_be_focused()
    go_on(page)
    at(page, "face_to_strut_aft.again")
    assert "44" not in page.locator("main").inner_text()
    assert "44" not in page.locator(".asked-line").inner_text()
    page.fill('[name="answers.face_to_strut_aft.again.text"]', "44 3/16")
    assert "44 1/8" not in page.locator("main").inner_text()
    go_on(page)
    expect(page.locator(".compare")).to_contain_text("First: 44 1/8 in")
    expect(page.locator(".compare")).to_contain_text("Second: 44 3/16 in")
    _whole(page, barrier_free)
    go_on(page)
    at(page, "changed_since_shaft")


def test_a_shaft_through_the_gearbox_opens_its_questions(open_page: OpenPage) -> None:
    page = _start(open_page)
    list(walk(page, until="drive_layout"))
    tick(page, "answers.drive_layout", "v_pass_through")
    go_on(page)
    at(page, "face_to_strut_how")
    expect(page.locator(".progress p")).to_contain_text("of 16")
    answer(page, "face_to_strut_how")
    go_on(page)
    answer(page, "face_to_strut_aft")
    go_on(page)
    at(page, "gearbox_through")


def test_the_keyboard_is_enough(open_page: OpenPage) -> None:
    page = open_page("/guided/", **DESK)
    press = page.keyboard.press
    expect(page.locator("#screen h1")).to_be_focused()
    press("Tab")
    press("Enter")
    at(page, "wants")
    press("Tab")
    press("Space")
    press("Enter")
    at(page, "boat_name_and_station")
    page.keyboard.type("Biscuit Barrel")  # from the heading straight into the box
    expect(page.locator('[name="answers.boat_name_and_station.name"]')).to_have_value(
        "Biscuit Barrel"
    )
    press("Enter")
    at(page, "drive_layout")
    press("Escape")
    at(page, "boat_name_and_station")


def test_a_caution_is_said_once(open_page: OpenPage) -> None:
    page = _start(open_page)
    list(walk(page, until="face_to_strut_how"))
    caution = page.locator(".caution-now")
    expect(caution).to_contain_text("keel stands on blocks")
    caution.get_by_role("button", name="Seen to").click()
    expect(caution).to_have_count(0)
    expect(page.locator("#screen h1")).to_be_focused()
    answer(page, "face_to_strut_how")
    go_on(page)
    at(page, "face_to_strut_aft")
    expect(caution).to_have_count(0)


def test_twice_the_size_fits_the_screen(open_page: OpenPage, barrier_free: BarrierFree) -> None:
    narrow = {**DESK, "viewport": {"width": 640, "height": 740}, "device_scale_factor": 2}
    page = _start(open_page, **{"is_mobile": False, "has_touch": False, **narrow})
    page.set_viewport_size({"width": 320, "height": 370})  # 640 px at 200 %
    list(walk(page, seen=lambda _slug: _whole(page, barrier_free)))
    _whole(page, barrier_free)


def test_every_target_is_large(open_page: OpenPage) -> None:
    page = _start(open_page)
    small: list[str] = []
    measure = """() => [...document.querySelectorAll("main button, main a, main label")]
      .filter((e) => e.checkVisibility() && !e.matches(".visually-hidden, .field > label"))
      .filter((e) => e.getBoundingClientRect().height < 44)
      .map((e) => e.outerHTML.slice(0, 80))"""
    list(walk(page, seen=lambda _slug: small.extend(page.evaluate(measure))))
    assert small == []


def test_the_checks_open_what_they_need(open_page: OpenPage) -> None:
    page = _start(open_page)
    list(walk(page, until="old_length_face_to_thread"))
    page.fill('[name="answers.old_length_face_to_thread.text"]', "51")  # two inches too long
    go_on(page)
    at(page, "changed_since_shaft")
    slugs = list(walk(page))
    assert slugs[2] == "contact"
    assert 1 <= len(slugs) - 3 <= 4


def test_every_screen_says_its_answer_in_the_review(open_page: OpenPage) -> None:
    page = _start(open_page)
    to_review(page)
    line = page.locator('.review [data-slug="gap_now"]')
    expect(line).to_contain_text("3/4 in · 19.1 mm")
    expect(line).to_contain_text("drill shank that just fits")
    line.get_by_role("link", name="Change").click()
    at(page, "gap_now")
    expect(page.locator('[name="answers.gap_now.text"]')).to_have_value("3/4")


def test_the_weight_of_the_page(open_page: OpenPage) -> None:
    page = open_page("/health/live", **GUIDED_PHONE)
    sizes: dict[str, int] = {}

    def weigh(response: Response) -> None:
        if response.ok and not response.from_service_worker:
            sizes[response.url] = len(gzip.compress(response.body()))

    page.on("response", weigh)
    page.goto("/guided/")
    start_a_boat(page)
    assert 0 < sum(sizes.values()) <= FIRST_VIEW, sizes
    ready_for_no_signal(page)
    kept = page.evaluate(
        """async () => {
          const found = [];
          for (const name of await caches.keys()) {
            const cache = await caches.open(name);
            for (const request of await cache.keys()) {
              found.push([request.url, await (await cache.match(request)).text()]);
            }
          }
          return found;
        }"""
    )
    weights = {url: len(gzip.compress(text.encode())) for url, text in kept}
    print(sum(sizes.values()), sum(weights.values()))
    assert len(weights) > 30
    assert sum(weights.values()) <= ALL_KEPT, weights
    assert not [url for url in weights if "/s/" in url or "/desk" in url or "/api/" in url]
    assert drafts(page)
