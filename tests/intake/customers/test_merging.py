"""Two records become one, and are parted again with exactly what was theirs."""

from __future__ import annotations

import threading
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection

from catalog.domain.lengths import inches
from intake import selectors
from intake.customers.merging.services import (
    LookAgain,
    MergeRefused,
    merge_boats,
    merge_customers,
    part,
)
from intake.domain.reading import read_sheet
from intake.models import Boat, Customer, Merge, ShaftFitted, Submission
from staff.trail.selectors import changes_of
from tests.intake.customers.given import ODILE, WILMOT, asks, received, someone, supplied

pytestmark = pytest.mark.django_db
THIRD = "+1 202 555 0188"


@pytest.fixture
def maud() -> User:
    return someone()


def customer(phone: str) -> Customer:
    return Customer.objects.get(phone=phone)


def merged(maud: User, keep: str = WILMOT, gone: str = ODILE) -> Merge:
    return merge_customers(keep=customer(keep), gone=customer(gone), by=maud, why="one yard")


def everything() -> list[Any]:
    """Whose everything is."""
    return [
        list(Submission.objects.order_by("pk").values_list("pk", "customer", "boat")),
        list(Boat.objects.order_by("pk").values_list("pk", "customer", "merged_into")),
        list(Customer.objects.order_by("pk").values_list("pk", "merged_into")),
        list(ShaftFitted.objects.order_by("pk").values_list("pk", "boat")),
    ]


def two_that_are_one() -> None:
    supplied(phone=WILMOT, length="49")
    supplied(phone=ODILE, length="48 1/2")  # the same boat
    received(phone=ODILE, boat="Otter")


# --- Merging --------------------------------------------------------------------------


def test_everything_of_the_one_belongs_to_the_other(maud: User) -> None:
    two_that_are_one()
    merge = merged(maud)
    kept, gone = customer(WILMOT), customer(ODILE)
    assert gone.merged_into == kept
    assert set(Submission.objects.values_list("customer", flat=True)) == {kept.pk}
    roots = Boat.objects.filter(merged_into=None).order_by("pk")
    assert [(boat.name, boat.customer) for boat in roots] == [
        ("Biscuit Barrel", kept),
        ("Otter", kept),
    ]
    assert set(ShaftFitted.objects.values_list("boat", flat=True)) == {roots[0].pk}
    assert (merge.why, merge.by) == ("one yard", maud)
    assert changes_of("customer", gone.pk).get().what == {
        "merged into": ["", f"customer {kept.pk}"]
    }


def test_shafts_of_both_count_and_requests_of_both_come_to_the_kept_one(maud: User) -> None:
    two_that_are_one()
    merged(maud)
    for phone in (WILMOT, ODILE):
        facts = selectors.history_facts(read_sheet(asks(phone=phone)))
        assert facts.last_length == inches("48 1/2")
        assert received(phone=phone).customer == customer(WILMOT)


def test_what_was_merged_before_points_at_the_last(maud: User) -> None:
    received(phone=WILMOT, boat="Hob")
    two_that_are_one()
    received(phone=THIRD, boat="Hob")
    merged(maud, keep=ODILE, gone=THIRD)
    merged(maud, keep=WILMOT, gone=ODILE)
    assert customer(THIRD).merged_into == customer(WILMOT)
    assert received(phone=THIRD, boat="Hob").boat == Boat.objects.get(
        customer=customer(WILMOT), boat_key="hob"
    )


def test_boats_of_one_customer_become_one(maud: User) -> None:
    supplied(boat="Bisquit Barrel", length="48 1/2")
    received(boat="Biscuit Barrel")
    wrong, right = Boat.objects.order_by("pk")
    merge_boats(keep=right, gone=wrong, by=maud, why="a letter")
    assert ShaftFitted.objects.get().boat == right
    assert received(boat="Bisquit Barrel").boat == right
    facts = selectors.history_facts(read_sheet(asks(boat="Biscuit Barrel")))
    assert facts.last_length == inches("48 1/2")


@pytest.mark.parametrize("why", ["", "   "])
def test_a_merge_needs_a_reason(maud: User, why: str) -> None:
    two_that_are_one()
    with pytest.raises(MergeRefused, match="a few words"):
        merge_customers(keep=customer(WILMOT), gone=customer(ODILE), by=maud, why=why)
    assert not Merge.objects.exists()


def test_boats_of_two_customers_are_not_merged(maud: User) -> None:
    two_that_are_one()
    mine, theirs = Boat.objects.filter(name="Biscuit Barrel").order_by("pk")
    with pytest.raises(MergeRefused, match="two customers"):
        merge_boats(keep=mine, gone=theirs, by=maud, why="sold")


def test_who_looked_before_another_merged_is_told_so(maud: User) -> None:
    two_that_are_one()
    received(phone=THIRD)
    seen = customer(ODILE)
    merged(maud, keep=THIRD, gone=ODILE)
    with pytest.raises(LookAgain):
        merge_customers(keep=customer(WILMOT), gone=seen, by=maud, why="one yard")
    assert customer(ODILE).merged_into == customer(THIRD)


# --- Parting --------------------------------------------------------------------------


def test_parted_again_each_has_what_was_theirs(maud: User) -> None:
    two_that_are_one()
    before = everything()
    merge = merged(maud)
    assert everything() != before
    part(merge=merge, by=maud)
    assert everything() == before
    assert Merge.objects.filter(undone_at=None).count() == 0


def test_what_came_later_stays_with_the_kept_one(maud: User) -> None:
    two_that_are_one()
    merge = merged(maud)
    later = received(phone=ODILE, boat="Otter")
    part(merge=merge, by=maud)
    later.refresh_from_db()
    assert later.customer == customer(WILMOT)
    assert received(phone=ODILE, boat="Otter").customer == customer(ODILE)


def test_boats_are_parted_with_their_shafts(maud: User) -> None:
    supplied(boat="Bisquit Barrel")
    received(boat="Biscuit Barrel")
    before = everything()
    wrong, right = Boat.objects.order_by("pk")
    part(merge=merge_boats(keep=right, gone=wrong, by=maud, why="a letter"), by=maud)
    assert everything() == before


def test_parting_twice_changes_nothing(maud: User) -> None:
    two_that_are_one()
    merge = merged(maud)
    part(merge=merge, by=maud)
    before = everything()
    with pytest.raises(MergeRefused, match="parted already"):
        part(merge=merge, by=maud)
    assert everything() == before


def test_what_a_later_merge_rests_on_is_parted_after_it(maud: User) -> None:
    two_that_are_one()
    received(phone=THIRD)
    before = everything()
    first = merged(maud, keep=WILMOT, gone=ODILE)
    second = merged(maud, keep=THIRD, gone=WILMOT)
    with pytest.raises(MergeRefused, match="part that first"):
        part(merge=first, by=maud)
    assert Merge.objects.get(pk=first.pk).undone_at is None
    part(merge=second, by=maud)
    part(merge=first, by=maud)
    assert everything() == before


def test_a_boat_that_was_merged_since_comes_first(maud: User) -> None:
    two_that_are_one()
    received(phone=WILMOT, boat="Oter")
    before = everything()
    both = merged(maud)
    otter = Boat.objects.get(name="Otter")
    boats = merge_boats(keep=otter, gone=Boat.objects.get(name="Oter"), by=maud, why="a letter")
    with pytest.raises(MergeRefused, match="Otter was merged again"):
        part(merge=both, by=maud)
    part(merge=boats, by=maud)
    part(merge=both, by=maud)
    assert everything() == before


def test_boats_that_became_one_with_their_customers_part_with_them(maud: User) -> None:
    two_that_are_one()
    merged(maud)
    inside = Merge.objects.get(kind="boat")
    with pytest.raises(MergeRefused, match="part the customers"):
        part(merge=inside, by=maud)


# --- At once --------------------------------------------------------------------------


def at_once(*work: Any) -> list[BaseException]:
    """Run these at the same time, each on its own connection; what was raised."""
    gate, raised = threading.Barrier(len(work)), []

    def run(one: Any) -> None:
        try:
            gate.wait()
            one()
        except Exception as error:
            raised.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(one,)) for one in work]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return raised


@pytest.mark.django_db(transaction=True)
def test_of_two_who_merge_at_once_one_wins_and_the_other_is_told() -> None:
    maud, iolo = someone(), someone("iolo")
    two_that_are_one()
    one, other = customer(WILMOT), customer(ODILE)
    raised = at_once(
        lambda: merge_customers(keep=one, gone=other, by=maud, why="one yard"),
        lambda: merge_customers(keep=other, gone=one, by=iolo, why="one yard"),
    )
    assert [type(error) for error in raised] == [LookAgain]
    assert Merge.objects.filter(kind="customer").count() == 1
    assert Customer.objects.filter(merged_into=None).count() == 1


@pytest.mark.django_db(transaction=True)
def test_a_request_that_comes_during_the_merge_goes_to_the_kept_one() -> None:
    maud = someone()
    two_that_are_one()
    one, other = customer(WILMOT), customer(ODILE)
    raised = at_once(
        lambda: merge_customers(keep=one, gone=other, by=maud, why="one yard"),
        *[lambda: received(phone=ODILE, boat="Otter")] * 3,
    )
    assert raised == []
    kept = customer(WILMOT).pk
    assert set(Submission.objects.values_list("customer", flat=True)) == {kept}
    assert Submission.objects.count() == 6


@pytest.mark.django_db(transaction=True)
def test_parted_by_two_at_once_it_is_parted_once() -> None:
    maud = someone()
    two_that_are_one()
    before = everything()
    merge = merged(maud)
    raised = at_once(*[lambda: part(merge=Merge.objects.get(pk=merge.pk), by=maud)] * 2)
    assert [type(error) for error in raised] == [MergeRefused]
    assert everything() == before
