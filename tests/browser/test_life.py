"""The life of a shaft, from the form to "it fitted", and of one that comes back. Real browsers."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Page, expect
from pytest_django.live_server_helper import LiveServer

from catalog.pieces.services import lay_out_pieces
from intake import jobs
from intake.models import Submission
from quotes.cases.models import Case
from quotes.invoices.models import Invoice
from quotes.models import Mail, Quote
from quotes.outcomes.models import Outcome
from quotes.passport.selectors import passport_of
from quotes.sending.models import Shipment
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.browser.test_form import fill_in, go_on
from tests.quotes.given import stock_the_shelf
from tests.quotes.shop.shafts import TRUE, a_sent
from tests.staff.given import a_member

BarrierFree = Callable[[Page], None]
Seated = Callable[..., Page]


@pytest.fixture(autouse=True)
def the_rack(transactional_db: None) -> None:
    """The demo catalogue, its bars as pieces in the rack."""
    stock_the_shelf()
    lay_out_pieces()


@pytest.fixture
def seated(open_page: OpenPage, live_server: LiveServer) -> Seated:
    """``seated(person, "/shop/")``: a desk of their own, logged in."""

    def sit(person: User, path: str) -> Page:
        client = Client()
        client.force_login(person, backend="django.contrib.auth.backends.ModelBackend")
        cookie = {"name": "sessionid", "value": client.cookies["sessionid"].value}
        return open_page(path, cookies=[cookie | {"url": live_server.url}], **DESK)

    return sit


def all_done() -> None:
    """Every job that is due, and those it asks for."""
    while jobs.drain():
        pass


def measured_and_sent(page: Page) -> Submission:
    fill_in(page)
    page.check('[name="wants"][value="coupling"]')
    page.fill('[name="contact.email"]', "w@example.org")
    go_on(page)
    page.get_by_role("button", name="Send it to the desk").click()
    page.wait_for_url("**/s/**")
    all_done()
    page.goto(page.url)
    return Submission.objects.get()


def accepted(page: Page, version: int) -> None:
    answer = page.get_by_role("region", name="Your answer")
    scope = answer if answer.count() else page
    for box in scope.locator('input[name="confirm"]').all():
        box.check()
    page.get_by_label("Your name, or a code word").fill("Wilmot Tarpley")
    page.get_by_role("button", name=f"Accept version {version}").click()
    expect(page.get_by_text("Accepted by Wilmot Tarpley").first).to_be_visible()
    all_done()


def pressed(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def typed_as_made(page: Page, **changes: str) -> None:
    for name, text in {**TRUE, **changes}.items():
        box = page.locator(f'[name="{name}"]')
        if box.evaluate("box => box.tagName") == "SELECT":
            box.select_option(text)
        else:
            box.fill(text)


def a_week_later() -> None:
    """The day it left is put back; nobody waits for a week."""
    Shipment.objects.update(day=timezone.localdate() - timedelta(days=8))


def test_from_the_form_to_it_fitted(phone: Page, seated: Seated, barrier_free: BarrierFree) -> None:
    bronagh, cadoc = a_member("bronagh", "machinist"), a_member("cadoc", "machinist")
    submission = measured_and_sent(phone)

    # Priced by itself; a spare nut is ticked, and that is a new version with a paper of its own.
    expect(phone.get_by_text("version 1").first).to_be_visible()
    phone.get_by_text("Options and what to do while the shaft is out").click()
    phone.locator('input[name="option"]').first.check()
    phone.get_by_role("button", name="Price it with these").click()
    all_done()
    phone.goto(phone.url)
    expect(phone.get_by_role("heading", name="version 2")).to_be_visible()
    barrier_free(phone)
    accepted(phone, 2)
    quote = Quote.objects.get(status="accepted")
    assert (quote.version, Quote.objects.get(version=1).status) == (2, "replaced")
    assert "status page" in quote.accepted_from

    # The shop: sawn from a bar of the rack, made, measured, signed by a second, packed, gone.
    bench = seated(bronagh, reverse("shop"))
    bench.get_by_role("link", name="Biscuit Barrel").first.click()
    bench.goto(reverse("shop-shaft", args=[submission.reference]))
    pressed(bench, "Bar sawn")
    pressed(bench, "Shaft made")
    barrier_free(bench)
    typed_as_made(bench, length="49 1/4")
    pressed(bench, "See the gap it makes")
    expect(bench.get_by_role("heading", name="What these numbers say")).to_be_visible()
    expect(bench.locator("main")).to_contain_text("1 in")  # a quarter long, a quarter more gap
    barrier_free(bench)
    typed_as_made(bench)
    pressed(bench, "Store this inspection")
    expect(bench.get_by_role("heading", name="Number 1")).to_be_visible()
    second = seated(cadoc, reverse("shop-shaft", args=[submission.reference]))
    pressed(second, "I measured it too, and sign")
    bench.goto(bench.url)
    pressed(bench, "Inspected, on to packing")
    pressed(bench, "Packed")
    bench.get_by_label("Who carries it").fill("a carrier of long parcels")
    bench.get_by_role("button", name="Gone", exact=True).dblclick()
    expect(bench.get_by_role("heading", name="How it left")).to_be_visible()
    barrier_free(bench)
    assert Shipment.objects.count() == 1

    # The counter: an invoice of what was accepted, once.
    counter = seated(a_member("maud"), reverse("invoice-make", args=[submission.reference]))
    counter.get_by_label("Who is to pay").fill("Wilmot Tarpley\nThe Old Quay")
    pressed(counter, "Issue the invoice")
    expect(counter.get_by_role("heading", level=1)).to_contain_text("I-")
    barrier_free(counter)
    assert Invoice.objects.get().total == quote.total

    # A week later: it fitted, with the gap that was promised; the tag's page knows.
    a_week_later()
    phone.goto(reverse("status", args=[submission.token]))
    phone.get_by_label("yes, as it came").check()
    phone.get_by_label("Gap between strut and propeller").fill("3/4")
    phone.get_by_role("button", name="Tell us").click()
    expect(phone.get_by_text("Thank you. It helps the next boat.")).to_be_visible()
    assert Outcome.objects.get().fitted == "yes"
    assert not Case.objects.exists()
    passport = passport_of(quote)
    assert passport
    phone.goto(reverse("passport", args=[passport.token]))
    expect(phone.locator("main")).to_contain_text("Gap as fitted")
    expect(phone.locator("main")).to_contain_text("3/4 in · 19.1 mm")
    barrier_free(phone)
    kinds = list(Mail.objects.order_by("pk").values_list("kind", flat=True))
    assert kinds.count("accepted") == 1, kinds


def test_one_comes_back_and_is_made_anew(
    open_page: OpenPage, seated: Seated, barrier_free: BarrierFree
) -> None:
    quote = a_sent(a_member("bronagh", "machinist"), a_member("cadoc", "machinist"))
    a_week_later()
    submission: Any = quote.submission
    phone = open_page(reverse("status", args=[submission.token]), **PHONE)
    phone.get_by_label("no", exact=True).check()
    phone.get_by_label("Gap between strut and propeller").fill("1/16")
    phone.get_by_label("What was different?").fill("the hub all but touches the strut")
    phone.get_by_role("button", name="Tell us").click()
    if phone.locator('[name="sure"]').count():
        phone.locator('[name="sure"]').check()
        phone.get_by_role("button", name="Tell us").click()
    expect(phone.get_by_text("Thank you").first).to_be_visible()
    case = Case.objects.get()

    desk = seated(a_member("maud"), reverse("cases"))
    barrier_free(desk)
    desk.get_by_role("link", name=case.number).first.click()
    expect(desk.locator("main")).to_contain_text("the hub all but touches the strut")
    desk.get_by_label("Primary cause").select_option("S-LENGTH")
    desk.get_by_label("What speaks for it").fill("measured here: 48 5/16")
    desk.get_by_label("Who found it").fill("Wilmot Tarpley")
    desk.get_by_label("When it was found").select_option("at_fitting")
    desk.get_by_label("Where the mistake was made").select_option("shop")
    pressed(desk, "Code the cause")
    barrier_free(desk)
    desk.get_by_label("What is done", exact=True).select_option("remake")
    desk.get_by_label("Who pays", exact=True).select_option("us")
    desk.get_by_label("Why", exact=True).fill("our saw, our cost")
    pressed(desk, "That is agreed")
    desk.get_by_label("What is different this time").fill("cut to the sheet, read twice")
    pressed(desk, "Make the remake's quote")
    expect(desk.get_by_role("heading", name="The remake")).to_be_visible()
    remake = Quote.objects.get(remake_of=quote)
    pressed(desk, "Accept it at our cost")
    all_done()
    remake.refresh_from_db()
    assert remake.status == "accepted"
    assert remake.number != quote.number or remake.version > quote.version
    pressed(desk, "Book the usual costs (invented)")
    expect(desk.locator("main")).to_contain_text("470.00")
    barrier_free(desk)

    # The shop has it again, like any other shaft; its first life stays on record.
    bench = seated(a_member("bronagh", "machinist"), reverse("shop"))
    expect(bench.locator("main")).to_contain_text(remake.number)
    desk.get_by_label("What was done and measured").fill("49 face to thread end, sent anew")
    pressed(desk, "It is done")
    case.refresh_from_db()
    assert (case.state, case.cause, case.born) == ("done", "S-LENGTH", "shop")
    assert Outcome.objects.get().fitted == "no"
