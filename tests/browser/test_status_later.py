"""Answering on the status page, a link that has run out, and whether it fitted, in a browser."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.core import mail
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Page, expect

from intake import jobs
from intake.models import Event, Submission
from quotes.links.digests import quiet_token
from quotes.models import Outcome
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.quotes.given import a_quote, a_quoter, a_submission, an_accepted, stock_the_shelf
from tests.quotes.outcomes.given import a_sent

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
SCREENS = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["360", "1280"])
CONTACT = {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "email": "wilmot@example.net"}
TOP = {"contact": CONTACT}
NO_DIRECTION = {"flange_direction": {"state": "cannot_measure"}}
THIN = {"dia_clean": {"text": "0.95", "method": "caliper"}}


@pytest.fixture(autouse=True)
def parts_on_the_shelf(transactional_db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


def run_out(submission: Submission) -> Submission:
    long_ago = timezone.now() - timedelta(days=200)
    Event.objects.update(at=long_ago)
    Submission.objects.update(received_at=long_ago)
    return submission


def a_stop() -> Submission:
    return a_submission(gap_now={"text": "4", "method": "rule"})


STATES: dict[str, Callable[[], Submission]] = {
    "question": lambda: a_submission(**THIN),
    "parts": lambda: a_submission(drive_layout="v_pass_through", flange_direction="forward"),
    "stop": a_stop,
    "accepted": lambda: an_accepted(days_ago=1).submission,
    "fit": lambda: a_sent(days_ago=30).submission,
    "expired": lambda: run_out(a_submission(top=TOP)),
}


def address(submission: Submission) -> str:
    return reverse("status", args=[submission.token])


@SCREENS
@pytest.mark.parametrize("state", STATES)
def test_every_state_is_barrier_free(
    open_page: OpenPage, barrier_free: BarrierFree, screen: Any, state: str
) -> None:
    page = open_page(address(STATES[state]()), **screen)
    for folded in page.locator("main details:not([open]) > summary").all():
        folded.click()
    barrier_free(page)


@SCREENS
def test_the_other_pages_are_barrier_free(
    open_page: OpenPage, barrier_free: BarrierFree, signed_in: SignedIn, screen: Any
) -> None:
    submission = a_submission(top=TOP)
    barrier_free(open_page(reverse("link-asked"), **screen))
    barrier_free(open_page(reverse("quiet", args=[quiet_token(submission)]), **screen))
    desk = reverse("desk-link", args=[submission.reference])
    barrier_free(open_page(desk, cookies=signed_in(a_quoter()), **screen))


def test_a_question_is_answered_by_keyboard_alone(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    page = open_page(address(a_submission(**NO_DIRECTION)), **DESK)
    send = page.get_by_role("button", name="Send the answers")
    send.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert")).to_be_focused()
    expect(page.get_by_role("alert")).to_contain_text("at least one of the questions")
    barrier_free(page)
    for _ in range(12):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.name") == "answers.flange_direction":
            break
    page.keyboard.press("Space")
    page.keyboard.press("Tab")
    expect(send).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.get_by_text("nothing is open any more")).to_be_visible()
    barrier_free(page)


def test_what_cannot_be_read_is_shown_at_its_box(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    page = open_page(address(a_submission(**THIN)), **PHONE)
    box = page.locator('[name="answers.dia_clean.text"]')
    box.fill("wide")
    page.get_by_role("button", name="Send the answers").click()
    expect(page.get_by_role("alert")).to_be_focused()
    expect(box).to_have_value("wide")
    expect(box).to_have_attribute("aria-invalid", "true")
    barrier_free(page)
    page.get_by_role("alert").get_by_role("link").first.click()
    expect(box).to_be_focused()


def test_a_number_is_read_back_as_it_is_typed(open_page: OpenPage) -> None:
    page = open_page(address(a_submission(**THIN)), **PHONE)
    page.locator('[name="answers.dia_clean.text"]').fill("1")
    expect(page.locator("#q-dia_clean-read")).to_contain_text("25.4 mm")


@pytest.mark.parametrize("state", ["question", "fit", "expired"])
def test_everything_works_without_a_script(open_page: OpenPage, state: str) -> None:
    submission = STATES[state]()
    page = open_page(address(submission), **PHONE, java_script_enabled=False)
    if state == "question":
        page.locator('[name="answers.dia_clean.text"]').fill("1")
        page.get_by_role("button", name="Send the answers").click()
        expect(page.get_by_role("status")).to_contain_text("Thank you.")
    elif state == "fit":
        page.get_by_label("yes, as it came").check()
        page.get_by_label("Gap between strut and propeller").fill("3/4")
        page.get_by_role("button", name="Tell us").click()
        expect(page.get_by_text("It helps the next boat")).to_be_visible()
        assert Outcome.objects.get().fitted == "yes"
    else:
        page.get_by_label("E-mail or phone").fill("wilmot@example.net")
        page.get_by_role("button", name="Send me a new link").click()
        expect(page.get_by_role("heading", name="Look into your mailbox")).to_be_visible()


def test_a_link_that_has_run_out_is_renewed_from_the_mail(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    submission = a_submission(top=TOP)
    while jobs.drain():  # its quote goes out by mail, long before
        pass
    mail.outbox.clear()
    page = open_page(address(run_out(submission)), **PHONE)
    page.get_by_role("button", name="Send me a new link").click()
    expect(page.get_by_role("alert")).to_be_focused()
    barrier_free(page)
    page.get_by_label("E-mail or phone").fill("+1 202 555 0100")
    page.get_by_role("button", name="Send me a new link").click()
    expect(page.get_by_role("heading", name="Look into your mailbox")).to_be_visible()
    jobs.drain()
    jobs.drain()
    (letter,) = mail.outbox
    new = Submission.objects.get().token
    assert new in letter.body
    page.goto(reverse("status", args=[new]))
    expect(page.get_by_role("heading", name="Biscuit Barrel")).to_be_visible()


def test_it_did_not_fit(open_page: OpenPage, barrier_free: BarrierFree) -> None:
    page = open_page(address(a_sent(days_ago=30).submission), **PHONE)
    page.get_by_label("no", exact=True).check()
    page.get_by_label("Gap between strut and propeller").fill("wide")
    page.get_by_role("button", name="Tell us").click()
    expect(page.get_by_role("alert")).to_be_focused()
    expect(page.get_by_label("no", exact=True)).to_be_checked()
    barrier_free(page)
    page.get_by_label("Gap between strut and propeller").fill("1/4")
    page.get_by_label("What was different?").fill("half an inch short")
    page.get_by_role("button", name="Tell us").dblclick()
    expect(page.get_by_text("Did it fit?")).to_have_count(0)
    assert Outcome.objects.get().fitted == "no"


def test_an_older_page_cannot_accept_a_replaced_version(
    open_page: OpenPage, barrier_free: BarrierFree
) -> None:
    from quotes.services import issue_quote
    from tests.quotes.given import correct

    quote = a_quote()
    page = open_page(address(quote.submission), **PHONE)
    for box in page.get_by_role("checkbox").all():
        box.check()
    page.get_by_label("Your name, or a code word").fill("Wilmot")
    correct(quote.submission, hub_length={"text": "2 7/8", "method": "caliper"})
    issue_quote(submission_id=quote.submission.pk)
    page.get_by_role("button", name="Accept version 1").click()
    expect(page.get_by_text("A newer version has taken this quote's place")).to_be_visible()
    expect(page.get_by_label("Your name, or a code word")).to_have_value("Wilmot")
    expect(page.get_by_role("button", name="Accept version 2")).to_be_visible()
    barrier_free(page)
