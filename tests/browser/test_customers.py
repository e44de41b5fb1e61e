"""Customers, boats, jobs and two records side by side, in a real browser at both widths."""

from __future__ import annotations

import json
import zipfile
from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.urls import reverse
from playwright.sync_api import Page, expect

from intake.models import Customer, Merge, Submission
from tests.browser.conftest import DESK, PHONE, OpenPage
from tests.intake.customers.given import ODILE, received, someone, supplied
from tests.intake.desk_given import stock_the_shelf

SignedIn = Callable[[Any], list[dict[str, str]]]
BarrierFree = Callable[[Page], None]
SCREENS = pytest.mark.parametrize("screen", [PHONE, DESK], ids=["360", "1280"])


@pytest.fixture
def maud(transactional_db: None) -> User:
    """Somebody at the counter, and a desk with customers."""
    stock_the_shelf()
    supplied(station="port", job="PO 7741", length="49")
    received(station="starboard", job="PO 7741")
    received(boat="Bisquit Barrel", station="port", job="PO 7741", gap_now={"text": "1"})
    received(phone="202 555 0100", name="W Tarpley", boat="Otter")
    received(phone=ODILE, name="Odile Marsh", boat="Hob", email="odile@example.net")
    return someone()


def address_of(name: str) -> str:
    """The page of this name, of the customer everything is known of."""
    customer = Customer.objects.order_by("pk")[0]
    boats = list(customer.boats.order_by("pk"))
    other = Customer.objects.order_by("pk")[1]
    return {
        "customers": reverse("customers"),
        "customer": reverse("customer", args=[customer.pk]),
        "boat": reverse("boat", args=[boats[0].pk]),
        "job": reverse("job", args=[customer.pk]) + "?job=PO+7741",
        "merge": reverse("merge-customers", args=[customer.pk]) + f"?with={other.pk}",
        "merge-boats": reverse("merge-boats", args=[boats[0].pk]) + f"?with={boats[2].pk}",
        "erase": reverse("erase-customer", args=[customer.pk]),
    }[name]


@SCREENS
@pytest.mark.parametrize(
    "name", ["customers", "customer", "boat", "job", "merge", "merge-boats", "erase"]
)
def test_every_page_is_barrier_free(
    open_page: OpenPage,
    signed_in: SignedIn,
    barrier_free: BarrierFree,
    maud: User,
    screen: Any,
    name: str,
) -> None:
    page = open_page(address_of(name), cookies=signed_in(maud), **screen)
    if name == "customer":
        page.get_by_text("Put this right").click()
    barrier_free(page)


@SCREENS
def test_two_records_are_made_one_and_parted_by_keyboard(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, maud: User, screen: Any
) -> None:
    page = open_page(reverse("customers"), cookies=signed_in(maud), **screen)
    page.get_by_role("link", name="Look at both Wilmot Tarpley, W Tarpley").press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Are these two one customer?")
    page.get_by_label("How do you know they are one?").fill("the same man")
    page.get_by_role("button", name="Keep Wilmot Tarpley").press("Enter")
    expect(page.get_by_text("They are one record now")).to_be_visible()
    expect(page.get_by_role("link", name="Otter", exact=True)).to_be_visible()
    barrier_free(page)
    page.get_by_role("button", name="Part them again").press("Enter")
    expect(page.get_by_text("Parted again. What came later")).to_be_visible()
    assert Merge.objects.get().undone_by == maud


def test_a_number_is_put_right_and_what_is_wrong_is_named(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, maud: User
) -> None:
    page = open_page(address_of("customer"), cookies=signed_in(maud), **PHONE)
    page.get_by_text("Put this right").click()
    page.get_by_label("Phone", exact=True).fill(ODILE)
    page.get_by_label("Why", exact=True).fill("a new phone")
    page.get_by_role("button", name="Store").click()
    summary = page.get_by_role("alert")
    expect(summary).to_contain_text("Another record is known by this number")
    expect(summary.get_by_role("link", name="Odile Marsh")).to_be_visible()
    barrier_free(page)
    page.get_by_label("Phone", exact=True).fill("+1 202 555 0199")
    page.get_by_role("button", name="Store").click()
    expect(page.get_by_role("link", name="+1 202 555 0199")).to_be_visible()


def test_what_is_kept_is_handed_out_and_erased(
    open_page: OpenPage, signed_in: SignedIn, barrier_free: BarrierFree, maud: User
) -> None:
    page = open_page(address_of("customer"), cookies=signed_in(maud), **DESK)
    page.get_by_label("Who wishes it, and why").fill("by letter")
    with page.expect_download() as handed:
        page.get_by_role("button", name="Hand out everything").click()
    kept = json.loads(zipfile.ZipFile(handed.value.path()).read("kept.json"))
    assert [one["name"] for one in kept["customer"]] == ["Wilmot Tarpley"]
    page.get_by_role("link", name="Erase who this was").click()
    page.get_by_label("Why").fill("by letter")
    page.get_by_label("Type ERASE").fill("erase it")
    page.get_by_role("button", name="Erase for good").click()
    expect(page.get_by_role("alert")).to_contain_text("in capitals")
    barrier_free(page)
    page.get_by_label("Type ERASE").fill("ERASE")
    page.get_by_role("button", name="Erase for good").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Erased")
    barrier_free(page)
    assert not Submission.objects.filter(contact_phone="+1 202 555 0100").exists()
