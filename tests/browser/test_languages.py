"""Changing the language in a real browser: by touch and by keys, with and without script."""

from __future__ import annotations

import json
from collections.abc import Callable
from io import BytesIO
from typing import Any

import pytest
from django.urls import reverse
from playwright.sync_api import Browser, Page, expect
from pypdf import PdfReader
from pytest_django.live_server_helper import LiveServer

from catalog.domain.lengths import Length
from catalog.domain.spoken_es import spoken
from intake.models import Submission
from intake.said import reader_words
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.browser.guided_given import walk
from tests.english import english_left
from tests.intake.test_spanish import KNOW
from tests.quotes.given import a_quote, a_submission, stock_the_shelf

BarrierFree = Callable[[Page], None]
SCREENS = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["360", "1280"])
SPANISH: dict[str, Any] = {**PHONE, "locale": "es-ES"}
GUIDED = "/static/fairgap/guided"


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    stock_the_shelf()


def tongue(page: Page) -> str:
    return str(page.evaluate("document.documentElement.lang"))


@SCREENS
def test_a_touch_changes_the_language_and_it_stays(
    open_page: OpenPage, barrier_free: BarrierFree, screen: Any
) -> None:
    page = open_page("/", **screen)
    assert tongue(page) == "en"
    spanish = page.get_by_role("button", name="Español")
    assert spanish.get_attribute("lang") == "es"
    box = spanish.bounding_box()
    assert box
    assert box["height"] >= 44
    spanish.click()
    expect(page.locator("h1")).to_have_text("Mida su barco")
    assert tongue(page) == "es"
    assert page.url.endswith("/")
    expect(page.get_by_role("button", name="Español")).to_have_attribute("aria-current", "true")
    barrier_free(page)
    page.goto("/know/before-you-start/")
    assert tongue(page) == "es"
    page.get_by_role("link", name="English").click()
    assert tongue(page) == "en"
    page.goto("/")
    expect(page.locator("h1")).to_have_text("Measure your boat")


def test_keys_are_enough_and_begin_at_the_top_again(open_page: OpenPage) -> None:
    page = open_page("/", **DESK)
    page.get_by_role("button", name="Español").focus()
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_have_text("Mida su barco")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Saltar a la página")).to_be_focused()


def test_no_script_is_needed(browser: Browser, live_server: LiveServer) -> None:
    context = browser.new_context(
        base_url=live_server.url, java_script_enabled=False, locale="en-GB"
    )
    page = context.new_page()
    page.goto("/")
    page.get_by_role("button", name="Español").click()
    assert "Mida su barco" in page.content()
    context.close()


@SCREENS
@pytest.mark.parametrize("state", ["form", "asked", "quoted", "lost"])
def test_spanish_pages_are_barrier_free_and_fit(
    open_page: OpenPage, barrier_free: BarrierFree, screen: Any, state: str
) -> None:
    """Spanish words are longer; nothing may run off a phone for it."""
    path = "/"
    if state == "asked":
        submission = a_submission(face_to_strut_aft={"text": "45 1/8", "method": "rod"})
        path = reverse("status", args=[submission.token])
    elif state == "quoted":
        path = reverse("status", args=[a_quote().submission.token])
    elif state == "lost":
        path = "/nothing-here/"
    page = open_page(path, **{**screen, "locale": "es-ES"})
    assert tongue(page) == "es"
    barrier_free(page)
    assert english_left(page.inner_text("main")) == []


def test_a_number_is_read_back_in_spanish_as_it_is_typed(open_page: OpenPage) -> None:
    page = open_page("/", **SPANISH)
    box = page.locator("#f-answers-gap_now-text")
    box.fill("3/4 in")
    box.press("Tab")
    read = page.locator("#q-gap_now-read")
    expect(read).to_contain_text("19,1 mm · 3/4 in")
    expect(read).to_contain_text("tres cuartos de pulgada")


# --- The phone alone ----------------------------------------------------------------------


def test_the_phone_says_lengths_as_the_server_does(open_page: OpenPage) -> None:
    page = open_page("/", **DESK)
    lengths = [count * 396_875 for count in range(0, 64 * 130, 7)]
    lengths += [1, 25_400_000, 489_500_000, 148_900_000, 1_489_075_000, -19_050_000, 21_000_000_000]
    script = f"""async (given) => {{
      const {{ spokenEs }} = await import("{GUIDED}/reader/spoken_es.js");
      const both = (nm) => [spokenEs(nm, "in"), spokenEs(nm, "mm")];
      return JSON.stringify(JSON.parse(given).map(both));
    }}"""
    there = json.loads(page.evaluate(script, json.dumps(lengths)))
    here = [[spoken(Length(nm), "in"), spoken(Length(nm), "mm")] for nm in lengths]
    assert [pair for pair in zip(lengths, here, there, strict=True) if pair[1] != pair[2]] == []


TYPED = ["19.5", "4 10 5/8", "58 shy", "about 58", "x", "10 to 68 5/8", "25 13/8", "58; 58 1/8"]


def test_the_phone_says_doubts_and_refusals_in_spanish(open_page: OpenPage) -> None:
    page = open_page("/", **DESK)
    told = {"said": reader_words("es"), "language": "es", "metric_first": True}
    script = f"""async (given) => {{
      const {{ keepSaid, inLanguage }} = await import("{GUIDED}/said.js");
      const {{ readLength }} = await import("{GUIDED}/reader/read_length.js");
      const {{ told, typed }} = JSON.parse(given);
      keepSaid(told);
      const range = [12700000, 2540000000];
      return JSON.stringify(typed.map((text) => inLanguage(readLength(text, null, range))));
    }}"""
    read = json.loads(page.evaluate(script, json.dumps({"told": told, "typed": TYPED})))
    for one in read:
        said_there = [one.get("message", ""), one.get("spoken", ""), *one.get("doubts", [])]
        assert english_left(" | ".join(said_there)) == []
        assert any(said_there)
    assert "," in read[0].get("both", ",")


def test_what_nobody_knows_is_left_alone_and_quickly(open_page: OpenPage) -> None:
    page = open_page("/", **DESK)
    hostile = "We took the mean of " + " readings, which lie " * 5000
    script = f"""async (given) => {{
      const {{ keepSaid, said }} = await import("{GUIDED}/said.js");
      keepSaid(JSON.parse(given)[0]);
      const began = performance.now(), same = said(JSON.parse(given)[1]) === JSON.parse(given)[1];
      return [same, performance.now() - began < 1000];
    }}"""
    told = {"said": reader_words("es"), "language": "es", "metric_first": True}
    assert page.evaluate(script, json.dumps([told, hostile])) == [True, True]


def test_the_guided_path_speaks_spanish(open_page: OpenPage, barrier_free: BarrierFree) -> None:
    page = open_page("/guided/", **SPANISH)
    expect(page.locator("h1")).not_to_have_text("Mida su barco")
    assert tongue(page) == "es"
    barrier_free(page)
    assert english_left(page.inner_text("body").replace("English", "")) == []


def test_the_guided_path_in_spanish_from_end_to_end(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    """Every screen of the clean boat; what is sent says which language it was finished in."""
    page = open_page("/guided/?lang=es", **{**PHONE, "locale": "en-GB"})
    page.get_by_role("button", name="Medir un barco").click()
    for slug in walk(page):
        assert english_left(page.inner_text("#screen")) == [], slug
    expect(page.locator("h1")).to_have_text("Así le hemos entendido")
    expect(page.locator("dl.review")).to_contain_text("1120,8 mm · 44 1/8 in")
    expect(page.locator("dl.review")).to_contain_text("cuarenta y cuatro y un octavo de pulgada")
    assert english_left(page.inner_text("#screen")) == []
    barrier_free(page)
    page.locator(".moving button.button:not(.quiet)").click()
    expect(page.locator(".boats .state")).to_contain_text("enviado", timeout=20_000)
    assert Submission.objects.get().language == "es"
    assert english_left(page.inner_text("#screen")) == []


def test_know_how_is_one_sheet_in_spanish_too(open_page: OpenPage) -> None:
    page = open_page("/know/", **{**DESK, "locale": "es-ES"})
    for slug in KNOW:
        page.goto(f"/know/{slug}/")
        for paper in ("A4", "Letter"):
            assert len(PdfReader(BytesIO(page.pdf(format=paper))).pages) == 1, (slug, paper)
