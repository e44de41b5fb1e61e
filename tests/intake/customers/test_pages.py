"""The pages of customers, boats and jobs: who may, what they show, what they cost."""

from __future__ import annotations

import io
import json
import zipfile
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from intake import services
from intake.customers import selectors
from intake.customers.alike.selectors import look_alikes
from intake.models import Boat, Customer, Merge, Submission
from staff.trail.selectors import changes_of
from tests.intake.customers.given import ODILE, RIGHTS, WILMOT, received, someone, supplied
from tests.intake.desk_given import stock_the_shelf

pytestmark = pytest.mark.django_db
COUNTER = ("view_submission", "add_callrecord", "merge_records")


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def desk(client: Client) -> Client:
    """Somebody who may do everything here."""
    client.force_login(someone())
    return client


def page(client: Client, name: str, *args: Any, **query: str) -> Any:
    return client.get(reverse(name, args=args), query)


def text_of(response: Any) -> str:
    return " ".join(response.content.decode().split())


# --- Who may --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("rights", "name", "answer"),
    [
        ((), "customers", 403),
        (("view_submission",), "customers", 403),
        (COUNTER, "customers", 200),
        (COUNTER, "customer", 200),
        (COUNTER, "boat", 200),
        (COUNTER, "job", 200),
        (COUNTER, "merge-customers", 302),
        (COUNTER[:2], "merge-customers", 403),
        (COUNTER[:2], "merge-boats", 403),
        (COUNTER, "erase-customer", 403),
        (RIGHTS, "erase-customer", 200),
    ],
)
def test_who_may_open_what(client: Client, rights: tuple[str, ...], name: str, answer: int) -> None:
    submission = received(job="PO 7741")
    client.force_login(someone(rights=rights))
    args = {"customers": [], "boat": [submission.boat.pk], "merge-boats": [submission.boat.pk]}
    got = page(client, name, *args.get(name, [submission.customer.pk]), job="PO 7741")
    assert got.status_code == answer


@pytest.mark.parametrize("name", ["export-customer", "part-records"])
def test_what_changes_something_is_no_address_to_look_at(desk: Client, name: str) -> None:
    submission = received()
    assert page(desk, name, submission.customer.pk).status_code == 405


def test_only_who_may_hands_out_and_erases(client: Client) -> None:
    submission = received()
    client.force_login(someone(rights=COUNTER))
    for name in ("export-customer", "erase-customer"):
        address = reverse(name, args=[submission.customer.pk])
        assert client.post(address, {"why": "x", "typed": "ERASE"}).status_code == 403
    assert Customer.objects.get().erased_at is None


@pytest.mark.parametrize("name", ["customer", "boat", "job", "erase-customer", "merge-customers"])
def test_nobody_is_nowhere(desk: Client, name: str) -> None:
    assert page(desk, name, 999_999, job="x").status_code == 404


# --- The list -------------------------------------------------------------------------


def test_the_newest_come_first_page_by_page(desk: Client) -> None:
    for number in range(30):
        received(phone=f"+1 202 555 {number:04}", name=f"Yard {number}", boat=f"Boat {number}")
    first, more = selectors.customers_page()
    assert [row.customer.name for row in first] == [f"Yard {n}" for n in range(29, 4, -1)]
    assert more
    shown = page(desk, "customers")
    assert "Yard 29" in text_of(shown)
    rest = desk.get(reverse("customers"), {"after": shown.context["older"]})
    names = [row.customer.name for row in rest.context["rows"]]
    assert names == [f"Yard {n}" for n in range(4, -1, -1)]
    received(phone="+1 202 555 0000")
    assert selectors.customers_page()[0][0].customer.name == "Yard 0"


@pytest.mark.parametrize("after", ["", "x", "2026-01-01_1", "2026-99-99T00:00:00+00:00_1", "_"])
def test_a_made_up_place_begins_at_the_top(desk: Client, after: str) -> None:
    received()
    assert len(page(desk, "customers", after=after).context["rows"]) == 1


def test_the_list_costs_the_same_however_long(
    desk: Client, django_assert_max_num_queries: Any
) -> None:
    received()
    counts = []
    for already in (1, 20):
        for number in range(already):
            received(phone=f"+1 303 555 {already}{number:03}", boat=f"Boat {already} {number}")
        with django_assert_max_num_queries(12) as caught:
            page(desk, "customers")
        counts.append(len(caught.captured_queries))
    assert counts[0] == counts[1]


# --- Perhaps one ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("told", "why"),
    [
        ({"phone": "202 555 0100", "name": "Tarpley"}, "the same number, written another way"),
        ({"phone": ODILE, "email": "w@example.net"}, ""),
        ({"phone": "+1 202 777 0100", "name": "W"}, "both have a boat Biscuit Barrel"),
        ({"boat": "Bisquit Barrel"}, "names one letter apart"),
        ({"boat": "Otter"}, ""),
        ({"boat": "Bisquit Barrel", "station": "port"}, ""),
        ({"phone": ODILE, "boat": "Otter"}, ""),
    ],
)
def test_records_that_are_perhaps_one_are_suggested(told: dict[str, str], why: str) -> None:
    received()
    received(**told)
    found = [pair.why for pair in look_alikes(list(Customer.objects.all()))]
    assert [one[: len(why)] for one in found] == ([why] if why else [])


def test_the_same_address_under_two_numbers_is_suggested() -> None:
    received(phone=WILMOT)
    received(phone="", email="w@example.net", boat="Otter")
    received(phone=WILMOT, email="w@example.net")
    assert [pair.why for pair in look_alikes(list(Customer.objects.all()))] == [
        "the same e-mail address"
    ]


# --- One customer, one boat -----------------------------------------------------------


def test_a_customer_with_everything(desk: Client) -> None:
    supplied(job="PO 7741")
    submission = received(boat="Otter", station="port")
    shown = text_of(page(desk, "customer", submission.customer.pk))
    for told in (WILMOT, "Biscuit Barrel", "Otter, port", "PO 7741", submission.reference):
        assert told in shown


def test_a_boat_tells_what_was_supplied_and_how_it_fitted(desk: Client) -> None:
    port = supplied(station="port", length="49", gap="2")
    received(station="starboard")
    shown = text_of(page(desk, "boat", port.boat.pk))
    for told in ("49 in · 1244.6 mm", "1 in · 25.4 mm", "2 in · 50.8 mm", "S20910"):
        assert told in shown
    assert "did not fit" in shown
    starboard = Boat.objects.get(station="starboard")
    assert reverse("boat", args=[starboard.pk]) in shown
    assert f"?boat={port.boat.pk}" in shown


def test_the_boxes_of_the_call_page_begin_with_what_is_known() -> None:
    submission = received(email="w@example.net", station="port")
    boat, customer = submission.boat, submission.customer
    known = selectors.boxes_for(boat=str(boat.pk))
    assert known == {
        "contact.name": "Wilmot Tarpley",
        "contact.phone": WILMOT,
        "contact.email": "w@example.net",
        "contact.role": "yard",
        "answers.boat_name_and_station.name": "Biscuit Barrel",
        "answers.boat_name_and_station.station": "port",
    }
    assert selectors.boxes_for(customer=customer.pk)["contact.phone"] == WILMOT
    for key in ("", "x", "-1", "9" * 17, "٣"):
        assert selectors.boxes_for(boat=key, customer=key) == {}


def test_a_customer_is_put_right_with_a_reason(desk: Client) -> None:
    customer = received().customer
    typed = {"name": "Wilmot Tarpley", "phone": "+1 202 555 0101", "email": "", "role": "owner"}
    address = reverse("customer", args=[customer.pk])
    refused = desk.post(address, {**typed, "why": "", "revision": "0"})
    assert refused.status_code == 400
    stored = desk.post(address, {**typed, "why": "misheard", "revision": "0"})
    assert stored.status_code == 302
    customer.refresh_from_db()
    assert (customer.phone_key, customer.known_by, customer.role) == (
        "12025550101",
        "12025550101",
        "owner",
    )
    assert changes_of("customer", customer.pk).get().what == {
        "phone": [WILMOT, "+1 202 555 0101"],
        "role": ["yard", "owner"],
    }
    late = desk.post(address, {**typed, "name": "Hob", "why": "x", "revision": "0"})
    assert late.status_code == 409
    assert "Somebody else changed" in text_of(late)
    assert "Hob" in text_of(late)


def test_a_number_of_somebody_else_leads_to_them(desk: Client) -> None:
    customer, other = received().customer, received(phone=ODILE).customer
    typed = {"name": "W", "phone": ODILE, "why": "new phone", "revision": "0"}
    refused = desk.post(reverse("customer", args=[customer.pk]), typed)
    assert refused.status_code == 409
    assert reverse("customer", args=[other.pk]) in text_of(refused)
    customer.refresh_from_db()
    assert customer.phone == WILMOT


# --- Merging --------------------------------------------------------------------------


def test_two_are_looked_at_side_by_side_made_one_and_parted(desk: Client) -> None:
    one, other = supplied().customer, received(phone=ODILE, name="Odile Marsh").customer
    address = reverse("merge-customers", args=[one.pk]) + f"?with={other.pk}"
    shown = text_of(desk.get(address))
    assert "Odile Marsh" in shown
    assert "differs" in shown
    assert Merge.objects.count() == 0
    typed = {"keep": other.pk, "one": 0, "other": 0, "why": "married"}
    assert desk.post(address, {**typed, "why": ""}).status_code == 400
    assert desk.post(address, {**typed, "keep": 77}).status_code == 400
    done = desk.post(address, typed)
    assert done.headers["Location"] == reverse("customer", args=[other.pk])
    again = desk.post(address, typed)
    assert again.status_code == 409
    gone = page(desk, "customer", one.pk)
    assert gone.headers["Location"] == reverse("customer", args=[other.pk])
    merge = Merge.objects.get(kind="customer")
    desk.post(reverse("part-records", args=[merge.pk]))
    one.refresh_from_db()
    assert one.merged_into is None
    twice = desk.post(reverse("part-records", args=[merge.pk]), follow=True)
    assert "parted already" in text_of(twice)


def test_two_boats_are_made_one(desk: Client) -> None:
    wrong, right = received(boat="Bisquit Barrel").boat, received(boat="Biscuit Barrel").boat
    address = reverse("merge-boats", args=[wrong.pk]) + f"?with={right.pk}"
    assert "Bisquit Barrel" in text_of(desk.get(address))
    typed = {"keep": right.pk, "one": 0, "other": 0, "why": "a letter"}
    assert desk.post(address, typed).status_code == 302
    wrong.refresh_from_db()
    assert wrong.merged_into == right


@pytest.mark.parametrize("text", ["+1 (202) 555-0177", "o@example.net"])
def test_the_other_is_found_by_number_or_address(desk: Client, text: str) -> None:
    one = received().customer
    received(phone=ODILE, email="o@example.net", name="Odile Marsh")
    address = reverse("merge-customers", args=[one.pk])
    assert "Odile Marsh" in text_of(desk.get(address, {"with": text}))


# --- Jobs -----------------------------------------------------------------------------


def test_of_one_order_what_is_ready_waits_for_nothing(desk: Client) -> None:
    lengths = {"Otter": "44 1/8", "Hob": "45 1/8", "Wren": "46 1/8"}
    for boat, strut in lengths.items():
        old = f"{int(strut[:2]) + 5}"
        told = {
            "face_to_strut_aft": {"text": strut, "method": "rod"},
            "old_length_face_to_thread": {"text": old, "method": "tape"},
        }
        assert received(boat=boat, job="PO 7741", **told).verdict == "release"
    held = received(
        boat="Gull", job="PO 7741", face_to_strut_aft={"text": "42 1/8", "method": "rod"}
    )
    assert held.verdict == "ask"
    shown = page(desk, "job", held.customer.pk, job="PO 7741")
    job = shown.context["job"]
    assert (job.ready, job.on_hold) == (3, 1)
    assert [one.boat_name for one in job.requests] == ["Gull", "Hob", "Otter", "Wren"]
    assert [one.status for one in job.requests] == ["needs_call", "ready", "ready", "ready"]
    assert str(held.current.outcome["findings"][0]["question"]) in shown.content.decode()


def test_a_job_costs_the_same_however_many_boats(
    desk: Client, django_assert_max_num_queries: Any
) -> None:
    counts = []
    for already in (1, 6):
        for number in range(already):
            received(boat=f"Boat {already} {number}", job="PO 1")
        customer = Customer.objects.get()
        with django_assert_max_num_queries(12) as caught:
            page(desk, "job", customer.pk, job="PO 1")
        counts.append(len(caught.captured_queries))
    assert counts[0] == counts[1]


def test_another_customers_order_of_the_same_number_is_another_job(desk: Client) -> None:
    mine = received(job="PO 1")
    received(phone=ODILE, job="PO 1", boat="Otter")
    shown = page(desk, "job", mine.customer.pk, job="PO 1")
    assert [one.pk for one in shown.context["job"].requests] == [mine.pk]
    assert page(desk, "job", mine.customer.pk, job="PO 2").status_code == 404
    assert page(desk, "job", mine.customer.pk).status_code == 404


def test_the_same_lengths_for_another_boat_are_asked_about() -> None:
    first = received(job="PO 7741")
    copied = received(job="PO 7741", boat="Otter")
    asked = [finding["check"] for finding in copied.current.outcome["findings"]]
    assert (first.verdict, copied.verdict) == ("release", "ask")
    assert asked == ["yard-copy-paste"]
    assert first.reference in copied.current.outcome["findings"][0]["message"]


@pytest.mark.parametrize(
    "told",
    [
        {"job": "PO 2", "boat": "Otter"},
        {"job": "PO 7741", "boat": "Otter", "phone": ODILE},
        {"job": "PO 7741", "station": "port"},  # her other side is another matter
        {"job": "PO 7741", "boat": ""},
    ],
)
def test_another_order_customer_or_side_is_no_batch(told: dict[str, str]) -> None:
    received(job="PO 7741")
    findings = received(**told).current.outcome["findings"]
    assert "yard-copy-paste" not in [finding["check"] for finding in findings]


def test_a_boat_that_is_closed_is_no_batch() -> None:
    services.close(submission=received(job="PO 7741"), reason="done")
    assert received(job="PO 7741", boat="Otter").verdict == "release"


# --- What is kept ---------------------------------------------------------------------


def test_everything_is_handed_out_as_one_file(desk: Client) -> None:
    received()
    supplied(station="port")
    customer = received(boat="Otter").customer
    address = reverse("export-customer", args=[customer.pk])
    assert desk.post(address, {"why": ""}).status_code == 302
    handed = desk.post(address, {"why": "asked by letter"})
    assert handed.headers["Content-Type"] == "application/zip"
    assert handed.headers["Cache-Control"] == "no-store, private"
    kept = json.loads(zipfile.ZipFile(io.BytesIO(handed.content)).read("kept.json"))
    assert kept["customer"][0]["phone"] == WILMOT
    assert changes_of("customer", customer.pk).get().why == "asked by letter"


@pytest.mark.parametrize("typed", ["", "erase", "yes"])
def test_erasing_is_typed_out(desk: Client, typed: str) -> None:
    customer = received().customer
    address = reverse("erase-customer", args=[customer.pk])
    assert desk.post(address, {"why": "asked", "typed": typed}).status_code == 400
    assert Submission.objects.get().contact_phone == WILMOT
    assert desk.post(address, {"why": "asked", "typed": "ERASE"}).status_code == 302
    assert Submission.objects.get().contact_phone == ""
    shown = text_of(page(desk, "customer", customer.pk))
    assert WILMOT not in shown
    assert "still counts" in shown
    assert page(desk, "submission", Submission.objects.get().reference).status_code == 200
