"""The know-how pages in a real browser: on a phone, on a desk, in the dark, and on paper."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO

import pdfplumber
import pytest
from playwright.sync_api import Page, expect

from intake.know import PAGES
from tests.browser.conftest import DESK, PHONE, OpenPage

BarrierFree = Callable[[Page], None]
SLUGS = [page.slug for page in PAGES]
SMALL = """() => [...document.querySelectorAll(".measure-now a, .more a, .nav a, .know-list a")]
  .filter(link => link.getBoundingClientRect().height < 44).map(link => link.textContent)"""
# Words of a drawing that run out of it.
CUT_OFF = """() => [...document.querySelectorAll("svg.drawing")].flatMap(svg => {
  const paper = svg.getBoundingClientRect();
  return [...svg.querySelectorAll("text")].filter(text => {
    const box = text.getBoundingClientRect();
    return box.left < paper.left - 1 || box.right > paper.right + 1 || box.bottom > paper.bottom + 1;
  }).map(text => text.textContent);
})"""  # noqa: E501

SERVED = """() => new Promise((done) => {
  const worker = navigator.serviceWorker;
  if (worker.controller) return done();
  worker.addEventListener("controllerchange", () => done(), { once: true });
})"""
MISSING = """async (pages) => {
  const kept = await Promise.all(pages.map((page) => caches.match(page)));
  return pages.filter((page, number) => !kept[number]);
}"""

each_page = pytest.mark.parametrize("slug", SLUGS)


@pytest.mark.parametrize("slug", ["", *(f"{slug}/" for slug in SLUGS)])
def test_on_a_phone_and_on_a_desk(
    open_page: OpenPage, barrier_free: BarrierFree, slug: str
) -> None:
    phone = open_page(f"/know/{slug}", **PHONE)
    barrier_free(phone)
    assert phone.evaluate(SMALL) == []
    assert phone.evaluate(CUT_OFF) == []
    assert phone.context.cookies() == []
    desk = open_page(f"/know/{slug}", **DESK, color_scheme="dark", java_script_enabled=True)
    barrier_free(desk)
    assert desk.evaluate(CUT_OFF) == []


@each_page
def test_it_prints_on_one_sheet(open_page: OpenPage, slug: str) -> None:
    page = open_page(f"/know/{slug}/", **DESK, color_scheme="dark")
    for paper in ("A4", "Letter"):
        with pdfplumber.open(BytesIO(page.pdf(format=paper))) as printed:
            assert len(printed.pages) == 1, paper
            words = printed.pages[0].extract_text()
        assert "Measure it now" not in words
        assert "More know-how" not in words
        assert "Take care." in words
    page.emulate_media(media="print")
    ink = page.evaluate("getComputedStyle(document.querySelector('h1')).color")
    assert ink == "rgb(0, 0, 0)"


def test_large_letters_do_not_break_it(open_page: OpenPage) -> None:
    """200 % zoom of a small window is a window half as wide."""
    page = open_page("/know/coupling-off/", viewport={"width": 320, "height": 600})
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= 320
    assert page.evaluate(CUT_OFF) == []


def test_a_question_of_the_form_opens_its_place_beside_it(open_page: OpenPage) -> None:
    page = open_page("/", **PHONE)
    page.fill('[name="answers.gap_now.text"]', "3/4")
    with page.context.expect_page() as opened:
        page.locator("#q-gap_now .how-link a").click()
    beside = opened.value
    expect(beside.locator("#gap h2")).to_be_in_viewport()
    expect(page.locator('[name="answers.gap_now.text"]')).to_have_value("3/4")


def test_it_needs_no_script(open_page: OpenPage) -> None:
    page = open_page("/know/", **PHONE, java_script_enabled=False)
    page.get_by_role("link", name="The bearing in its strut").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("The bearing in its strut")
    expect(page.get_by_role("img", name="Two short bearings in one strut")).to_be_visible()


def test_it_is_there_without_a_signal(open_page: OpenPage) -> None:
    """Whoever has opened the guided path once has every page on the phone, drawings and all."""
    page = open_page("/guided/", **PHONE)
    page.evaluate(SERVED)
    assert page.evaluate(MISSING, ["/know/", *(page.url for page in PAGES)]) == []
    page.context.set_offline(True)
    page.goto("/know/coupling-off/#hub-way")
    expect(page.get_by_role("img", name="Which way the hub points")).to_be_visible()
    edge = page.evaluate("getComputedStyle(document.querySelector('.take-care')).borderLeftWidth")
    assert edge == "4px"
    page.get_by_role("link", name="The bearing in its strut").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("The bearing in its strut")
