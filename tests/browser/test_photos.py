"""Photos sent with a plain form and looked at by both sides, in a real browser."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from intake.models import Photo
from intake.photos.services import take_photo
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.intake.desk_given import a_person
from tests.intake.photos.given import SVG, as_file, halves, numbered, with_place
from tests.quotes.given import a_submission, stock_the_shelf

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
SCREENS = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["360", "1280"])


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


def a_file(sent: bytes, name: str = "photo.jpg") -> Any:
    return {"name": name, "mimeType": "image/jpeg", "buffer": sent}


def all_loaded(page: Page) -> bool:
    """Every picture of the page has really been decoded by the browser."""
    for picture in page.locator(".photo-list img").all():
        picture.scroll_into_view_if_needed()
        expect(picture).to_have_js_property("complete", True)
    return bool(page.evaluate(
        "[...document.querySelectorAll('.photo-list img')].every(one => one.naturalWidth > 0)"
    ))  # fmt: skip


@pytest.mark.parametrize("script", [True, False], ids=["script", "no-script"])
def test_a_photo_is_sent_seen_and_removed_with_a_plain_form(
    open_page: OpenPage, barrier_free: BarrierFree, script: bool
) -> None:
    submission = a_submission()
    address = reverse("status", args=[submission.token])
    page = open_page(address, **PHONE, java_script_enabled=script)
    page.get_by_label("Picture (JPEG, PNG or WebP)").set_input_files(a_file(with_place()))
    page.get_by_label("What it shows").select_option("flange_od")
    page.get_by_role("button", name="Send the photo").click()
    expect(page.get_by_text("Thank you, the photo is here.")).to_be_visible()
    expect(page.get_by_alt_text("Photo 1: Flange outside")).to_be_visible()
    if script:
        assert all_loaded(page)
        barrier_free(page)

    page.get_by_text("Send a photo").click()
    page.get_by_label("Picture (JPEG, PNG or WebP)").set_input_files(a_file(SVG, "photo.svg"))
    page.get_by_role("button", name="Send the photo").click()
    expect(page.get_by_text("This is not a picture we can read.")).to_be_visible()
    if script:
        barrier_free(page)

    page.get_by_role("button", name="Remove photo 1").click()
    expect(page.get_by_text("The photo is deleted.")).to_be_visible()
    expect(page.get_by_alt_text("Photo 1: Flange outside")).to_have_count(0)
    assert not Photo.objects.exists()


def test_nine_megabytes_get_a_sentence_and_no_broken_connection(open_page: OpenPage) -> None:
    submission = a_submission()
    page = open_page(reverse("status", args=[submission.token]), **PHONE)
    large = a_file(as_file() + bytes(9_000_000))
    page.get_by_label("Picture (JPEG, PNG or WebP)").set_input_files(large)
    page.get_by_role("button", name="Send the photo").click()
    expect(page.get_by_text("The file is larger than 8 MB.")).to_be_visible()


@SCREENS
def test_six_photos_are_barrier_free_for_both_sides(
    open_page: OpenPage, barrier_free: BarrierFree, signed_in: SignedIn, screen: Any
) -> None:
    submission = a_submission(face_to_strut_aft={"text": "45 1/8", "method": "rod"})
    take_photo(submission=submission, sent=as_file(halves(900, 1600)), question="bolts")
    for number in range(5):
        take_photo(submission=submission, sent=numbered(number), question="")
    mine = open_page(reverse("status", args=[submission.token]), **screen)
    expect(mine.get_by_text("Send a photo")).to_have_count(0)
    assert all_loaded(mine)
    barrier_free(mine)

    at = [submission.reference]
    for name in ("submission", "record-call"):
        page = open_page(
            reverse(name, args=at), cookies=signed_in(a_person(name=name)), **screen,
        )  # fmt: skip
        assert all_loaded(page)
        barrier_free(page)
    page.get_by_alt_text("Photo 1: Flange bolts").click()
    expect(page.locator("img")).to_have_count(1)  # the browser's own page around a picture
    assert page.evaluate("document.contentType") == "image/jpeg"
    assert page.evaluate("document.querySelector('img').naturalWidth") == 900
