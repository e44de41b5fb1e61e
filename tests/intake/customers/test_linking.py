"""One record for each customer and each boat and side, whichever way they reached us."""

from __future__ import annotations

import importlib
import threading
from typing import Any

import pytest
from django.apps import apps
from django.contrib.auth.models import User
from django.db import connection

from catalog.domain.lengths import inches
from intake import selectors, services
from intake.domain.reading import read_sheet
from intake.models import Boat, Customer, ShaftFitted, Submission
from staff.trail.selectors import changes_of
from tests.intake.customers.given import ODILE, WILMOT, asks, received, someone, supplied

pytestmark = pytest.mark.django_db


def test_the_first_request_makes_both_records_and_the_second_finds_them() -> None:
    first, second = received(), received()
    assert (first.customer, first.boat) == (second.customer, second.boat)
    customer, boat = Customer.objects.get(), Boat.objects.get()
    assert (customer.name, customer.phone_key, customer.role) == (
        "Wilmot Tarpley",
        "12025550100",
        "yard",
    )
    assert (boat.customer, boat.name, boat.station) == (customer, "Biscuit Barrel", "single")
    assert customer.active_at >= second.received_at


@pytest.mark.parametrize(
    ("told", "customers", "boats"),
    [
        ({"phone": "+1 (202) 555-0100"}, 1, 1),
        ({"boat": " biscuit  BARREL"}, 1, 1),
        ({"station": "port"}, 1, 2),
        ({"boat": "Otter"}, 1, 2),
        ({"phone": ODILE}, 2, 2),
        ({"name": "Odile Marsh"}, 1, 1),
    ],
)
def test_the_number_tells_the_customer_and_name_and_side_the_boat(
    told: dict[str, Any], customers: int, boats: int
) -> None:
    received()
    received(**told)
    assert (Customer.objects.count(), Boat.objects.count()) == (customers, boats)


def test_an_address_is_asked_after_the_number() -> None:
    by_address = received(phone="", email="wilmot@example.net")
    known = received(phone=WILMOT, email="Wilmot@Example.net")
    assert known.customer == by_address.customer
    customer = Customer.objects.get()
    assert (customer.phone, customer.phone_tail) == (WILMOT, "25550100")  # learned with the second
    assert changes_of("customer", customer.pk).get().why == f"told with {known.reference}"
    assert received(phone=WILMOT).customer == customer
    assert received(phone=ODILE, email="wilmot@example.net").customer == customer


def test_a_number_that_another_record_has_is_not_learned() -> None:
    one, other = received(phone="", email="w@example.net"), received(phone=WILMOT)
    both = received(phone=WILMOT, email="w@example.net")
    assert both.customer == other.customer  # the number is asked first
    one.customer.refresh_from_db()
    assert one.customer.phone_key == ""


def test_a_request_without_a_boat_has_a_customer_alone() -> None:
    nameless = received(boat="")
    assert nameless.customer is not None
    assert nameless.boat is None


def test_a_corrected_side_is_another_record() -> None:
    submission, maud = received(station="port"), someone()
    port = submission.boat
    body = asks(station="starboard")
    correct(submission, body, maud)
    submission.refresh_from_db()
    assert submission.boat.station == "starboard"
    assert submission.boat != port
    assert submission.customer == port.customer


def test_an_answer_about_something_else_leaves_the_records_alone() -> None:
    submission, maud = received(), someone()
    Customer.objects.update(phone="+1 202 555 0123", phone_key="12025550123")  # put right by hand
    correct(submission, asks(hub_length={"text": "3", "method": "caliper"}), maud)
    submission.refresh_from_db()
    assert submission.sheets.count() == 2
    assert Customer.objects.get() == submission.customer


def correct(submission: Submission, body: dict[str, Any], by: User) -> None:
    services.correct_sheet(
        submission=submission, sheet_number=1, body=body, by=by, said_by="Wilmot Tarpley"
    )


# --- What they are for ----------------------------------------------------------------


def test_a_shaft_is_known_by_the_record_of_its_boat() -> None:
    """Her name was put right on the record: what was supplied under the old one still counts."""
    last = supplied(boat="Bisquit Barrel", length="48 1/2")
    assert ShaftFitted.objects.get().boat == last.boat
    right = received(boat="Biscuit Barrel")
    Boat.objects.filter(pk=last.boat.pk).update(merged_into=right.boat)
    ShaftFitted.objects.update(boat=right.boat)
    facts = selectors.history_facts(read_sheet(asks(boat="Biscuit Barrel")))
    assert facts.last_length == inches("48 1/2")
    by_the_old_name = selectors.history_facts(read_sheet(asks(boat="Bisquit Barrel")))
    assert by_the_old_name.last_length == inches("48 1/2")


def test_a_shaft_counts_for_the_side_its_record_was_merged_into() -> None:
    single = supplied(station="single", length="48 1/2")
    port = received(station="port")
    Boat.objects.filter(pk=single.boat.pk).update(merged_into=port.boat)
    ShaftFitted.objects.update(boat=port.boat)
    facts = selectors.history_facts(read_sheet(asks(station="port")))
    assert facts.last_length == inches("48 1/2")
    again = selectors.history_facts(read_sheet(asks(station="single")))
    assert again.last_length == inches("48 1/2")


# --- At once, and before --------------------------------------------------------------


@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize("contact", [{}, {"phone": "", "email": "w@example.net"}])
def test_two_first_requests_at_once_make_one_record(contact: dict[str, str]) -> None:
    gate, failed = threading.Barrier(4), []

    def ask(boat: str) -> None:
        try:
            gate.wait()
            received(boat=boat, **contact)
        except Exception as error:
            failed.append(error)
        finally:
            connection.close()

    work = [threading.Thread(target=ask, args=(boat,)) for boat in ("Otter", "Otter", "Hob", "Hob")]
    for thread in work:
        thread.start()
    for thread in work:
        thread.join()
    assert failed == []
    assert Submission.objects.count() == 4
    assert Customer.objects.count() == 1
    assert sorted(Boat.objects.values_list("name", flat=True)) == ["Hob", "Otter"]


def test_requests_of_before_the_records_are_linked_as_they_would_be_today() -> None:
    supplied()
    received(phone="", email="w@example.net", boat="Otter")
    received(phone=ODILE, email="w@example.net", boat="otter")
    wanted = as_linked()
    Submission.objects.update(customer=None, boat=None)
    ShaftFitted.objects.update(boat=None)
    Boat.objects.all().delete()
    Customer.objects.all().delete()
    importlib.import_module("intake.migrations.0009_customers").link(apps, None)
    assert as_linked() == wanted
    assert ShaftFitted.objects.get().boat == Submission.objects.earliest("pk").boat


def as_linked() -> list[tuple[Any, ...]]:
    """Whose each request is, in words."""
    rows = Submission.objects.order_by("pk").values_list(
        "reference", "customer__phone", "customer__email", "boat__name", "boat__station"
    )
    return list(rows)
